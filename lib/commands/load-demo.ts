import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  renameSync,
  rmSync,
} from 'node:fs'
import path from 'node:path'
import { now } from '#services/clock'
import { closeDatabase, database } from '#services/database/open-database'
import { renditionsIdle } from '#services/renditions/renditions'
import { dataFolder } from '#services/settings/data-folder'
import { publishDemo } from '../../prisma/demo/publish-demo'
import { seedDemo } from '../../prisma/demo/seed-demo'

/**
 * Loads the demo into a data folder that holds no journal yet.
 *
 * It is made in a folder aside and moved into place with the journal last: a start that is cut short leaves no half of
 * it behind, and the next one begins anew.
 *
 * @param root absolute path of the data folder; made when absent
 * @returns whether it was loaded
 * @throws Error when another process is loading it
 */
export async function loadDemo(root: string): Promise<boolean> {
  if (existsSync(dataFolder(root).database)) return false
  const aside = path.join(root, 'demo-being-made')
  mkdirSync(aside, { recursive: true })
  const before = process.env['COATBOOK_DATA']
  process.env['COATBOOK_DATA'] = aside
  try {
    // The lock comes before the sweep: another start may be at work in there.
    await database()
    await closeDatabase()
    for (const name of readdirSync(aside)) {
      rmSync(path.join(aside, name), { recursive: true })
    }
    await seedDemo(now())
    await publishDemo(now())
    await renditionsIdle()
    await closeDatabase()
  } finally {
    if (before === undefined) delete process.env['COATBOOK_DATA']
    else process.env['COATBOOK_DATA'] = before
  }
  const journal = path.basename(dataFolder(root).database)
  const names = readdirSync(aside).filter((name) => name !== journal)
  for (const name of [...names, journal]) {
    moveInto(path.join(aside, name), path.join(root, name))
  }
  rmSync(aside, { recursive: true, force: true })
  return true
}

/** Moves a file or folder; into a folder that a start cut short has moved already, it is merged. */
function moveInto(from: string, to: string): void {
  if (existsSync(to)) cpSync(from, to, { recursive: true })
  else renameSync(from, to)
}
