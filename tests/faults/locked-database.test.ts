import Database from 'libsql'
import { expect, test } from 'vitest'
import { database } from '#services/database/open-database'
import { dataFolder } from '#services/settings/data-folder'
import { useWorkshop } from '../support/workshop'

useWorkshop()

// While the program runs: tests/services/database/is-busy.test.ts.

test('a database that another program holds at the start is said in plain words, and opened once it is free', async () => {
  const root = process.env['COATBOOK_DATA'] ?? ''
  const file = dataFolder(root).database
  const other = new Database(file)
  other.exec('PRAGMA locking_mode = EXCLUSIVE')
  other.exec('BEGIN EXCLUSIVE')
  try {
    await expect(database()).rejects.toThrow(
      `Another program holds the database ${file}. Close it, or wait until it is done, then start Coatbook again.`,
    )
  } finally {
    other.exec('ROLLBACK')
    other.close()
  }
  const db = await database()
  expect(await db.job.count()).toBe(0)
})
