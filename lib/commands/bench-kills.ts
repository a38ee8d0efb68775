import { once } from 'node:events'
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { closeDatabase } from '#services/database/open-database'
import { makeBenchJob } from './bench-intake'
import { buildIfChanged } from './build-if-changed'
import { type Victim, killUploads } from './kill-uploads'
import { freePort, ipv4Loopback } from './loopback'
import { spawnServer, untilReady } from './spawn-server'

const kills = 200
const photosFolder = path.join('prisma', 'demo', 'photos', 'job-a')

/**
 * Kills the production server 200 times at random moments while photos arrive, and counts what was acknowledged and is
 * not there afterwards. Prints one line of JSON.
 *
 * @param root the folder of this package
 */
export async function benchKills(root: string): Promise<void> {
  if (!(await buildIfChanged(root))) throw new Error('the build failed')
  const folder = mkdtempSync(path.join(tmpdir(), 'coatbook-bench-'))
  const before = process.env['COATBOOK_DATA']
  process.env['COATBOOK_DATA'] = folder
  try {
    const job = await makeBenchJob()
    await closeDatabase()
    const photos = readdirSync(photosFolder)
      .slice(0, 5)
      .map((name) => readFileSync(path.join(photosFolder, name)))
    const figures = await killUploads(folder, job, kills, photos, () =>
      start(root, folder),
    )
    console.log(
      JSON.stringify({
        bench: 'kills',
        target: 'lost, recordsOfNothing and leftovers 0',
        ...figures,
      }),
    )
  } finally {
    if (before === undefined) delete process.env['COATBOOK_DATA']
    else process.env['COATBOOK_DATA'] = before
    rmSync(folder, { recursive: true, force: true })
  }
}

async function start(root: string, folder: string): Promise<Victim> {
  const port = await freePort()
  const child = spawnServer('start', root, port, { COATBOOK_DATA: folder })
  if (!(await untilReady(child, port))) {
    throw new Error('the server did not start')
  }
  return {
    url: `http://${ipv4Loopback}:${port}`,
    kill: async () => {
      const gone = once(child, 'exit')
      child.kill('SIGKILL')
      await gone
    },
  }
}
