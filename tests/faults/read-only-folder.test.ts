import { execFileSync } from 'node:child_process'
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, inject, test, vi } from 'vitest'
import { closeDatabase, database } from '#services/database/open-database'
import { renditionsIdle } from '#services/renditions/renditions'
import { dataFolder } from '#services/settings/data-folder'
import { callApi, textOf } from '../support/api'
import { makeJob } from '../support/make-job'
import { makePhoto } from '../support/make-photo'
import { photoForm } from '../support/send-photos'

/** A disk of its own needs the right to mount one; where that is missing the test says so and is skipped. */
const root = mkdtempSync(path.join(tmpdir(), 'coatbook-read-only-'))
const mounted = mount()

function mount(): boolean {
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=40m', 'tmpfs', root], {
      stdio: 'ignore',
    })
    return true
  } catch {
    process.stderr.write(
      'read-only disk: no right to mount one, so not tried\n',
    )
    return false
  }
}

const remount = (as: 'ro' | 'rw') =>
  execFileSync('mount', ['-o', `remount,${as}`, root])

beforeAll(() => {
  process.env['COATBOOK_DATA'] = root
  process.env['COATBOOK_ZONE'] = 'Europe/London'
})
afterAll(async () => {
  await renditionsIdle()
  await closeDatabase()
  if (mounted) execFileSync('umount', ['-l', root])
  rmSync(root, { recursive: true, force: true })
  delete process.env['COATBOOK_DATA']
  delete process.env['COATBOOK_ZONE']
})

test.skipIf(!mounted)(
  'a data folder that cannot be written is said at the start, in plain words and not as another Coatbook',
  async () => {
    copyFileSync(inject('templateDatabase'), dataFolder(root).database)
    remount('ro')
    await expect(database()).rejects.toThrow(
      `Coatbook may not write in the data folder ${root}.`,
    )
    remount('rw')
    const db = await database()
    expect(await db.job.count()).toBe(0)
    await closeDatabase()
  },
)

test.skipIf(!mounted)(
  'a disk that can no longer be written while the program runs loses nothing, says so, and works on once it can',
  async () => {
    const db = await database()
    const job = await makeJob()
    const send = (width: number, bytes: Uint8Array) =>
      callApi('POST', `/api/jobs/${job.id}/photos`, {
        body: photoForm([[`${String(width)}.jpg`, bytes]]),
      })
    const first = await send(70, await makePhoto({ width: 70 }))
    expect(first.status).toBe(201)
    await renditionsIdle()
    // What is open for writing keeps a disk from being made read-only, as a failing one makes itself.
    await closeDatabase()
    await database()
    let isReadOnly = true
    try {
      remount('ro')
    } catch {
      isReadOnly = false
    }
    if (isReadOnly) {
      const refused = await send(71, await makePhoto({ width: 71 }))
      expect(refused.status).toBe(507)
      expect(await textOf(refused, 'detail')).toMatch(/may not write/)
      expect(
        (await callApi('GET', `/api/jobs/${job.id}/timeline`)).status,
      ).toBe(200)
      vi.mocked(console.error).mockClear()
      remount('rw')
    }
    const again = await send(72, await makePhoto({ width: 72 }))
    expect(again.status).toBe(201)
    expect(await db.photo.count().catch(() => -1)).not.toBe(0)
  },
)
