import { execFile } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { instant } from '#core/units'
import { openAuthority } from '#services/devices/workshop-authority'
import { dataFolder } from '#services/settings/data-folder'
import { freePort } from '../../lib/commands/loopback'

let data = ''
beforeEach(() => {
  data = mkdtempSync(path.join(tmpdir(), 'coatbook-lan-'))
})
afterEach(() => {
  rmSync(data, { recursive: true, force: true })
})

/** Starts the workshop for its network, as `npm run start:lan` does, and gives what it said when it ended. */
async function startLan(): Promise<{
  readonly code: unknown
  readonly out: string
  readonly err: string
}> {
  const port = await freePort()
  return new Promise((resolve) => {
    execFile(
      process.execPath,
      // prettier-ignore
      ['--import', 'tsx', '--conditions=react-server', 'lib/commands/start-lan.ts'],
      {
        timeout: 25_000,
        env: {
          ...process.env,
          COATBOOK_DATA: data,
          COATBOOK_DEMO: 'off',
          PORT: String(port),
        },
      },
      (error, out, err) => {
        resolve({ code: error === null ? 0 : error.code, out, err })
      },
    )
  })
}

test.each([
  ['ended on 30 December 2009', '2000-01-02T12:00:00Z'],
  ['is not valid before 1 January 2900', '2900-01-02T12:00:00Z'],
])(
  'a workshop whose authority %s does not start for the network, and says what to do',
  async (why, made) => {
    const { authority } = dataFolder(data)
    await openAuthority(authority, instant(Date.parse(made)))
    const file = path.join(authority, 'authority.crt')
    const before = readFileSync(file, 'utf8')
    const { code, out, err } = await startLan()
    expect(code).toBe(1)
    // One line for its owner, and no trace of the program's inside.
    expect(err.trim().split('\n')).toEqual([expect.stringContaining(why)])
    expect(err).toContain(`remove the folder ${authority}`)
    expect(out).toBe('')
    expect(readFileSync(file, 'utf8')).toBe(before)
  },
)
