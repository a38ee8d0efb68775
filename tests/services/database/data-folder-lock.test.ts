import { execFileSync } from 'node:child_process'
import { pathToFileURL } from 'node:url'
import { expect, test } from 'vitest'
import {
  closeDatabase,
  database,
  openDataFolder,
} from '#services/database/open-database'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

/** Opens the same data folder as another process does, and gives back what it says. */
function openElsewhere(root: string): string {
  const file = pathToFileURL('lib/services/database/open-database.ts').href
  const program = `
    import { database, closeDatabase } from ${JSON.stringify(file)}
    try {
      await (await database()).job.count()
      console.log('opened')
      await closeDatabase()
    } catch (error) {
      console.log(error.message)
    }`
  return execFileSync(
    process.execPath,
    [
      '--import',
      'tsx',
      '--conditions=react-server',
      '--input-type=module',
      '--eval',
      program,
    ],
    { encoding: 'utf8', env: { ...process.env, COATBOOK_DATA: root } },
  ).trim()
}

test('a second program is turned away from a data folder that is in use, and let in afterwards', async () => {
  await database()
  const { root } = await openDataFolder()
  expect(openElsewhere(root)).toContain(
    `Another Coatbook is already using the data folder ${root}.`,
  )
  await closeDatabase()
  expect(openElsewhere(root)).toBe('opened')
})
