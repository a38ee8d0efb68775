import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, inject } from 'vitest'
import { closeDatabase } from '#services/database/open-database'
import { renditionsIdle } from '#services/renditions/renditions'
import { dataFolder } from '#services/settings/data-folder'

/** The zone of the invented workshop that the tests work in. */
export const workshopZone = 'Europe/London'

/**
 * Gives every test of the file a data folder of its own with an empty, migrated journal, in Europe/London, and takes it
 * away afterwards. Call it once at the top of a test file; then use the services as the program does.
 */
export function useWorkshop(): void {
  let root = ''
  beforeEach(() => {
    root = openWorkshop()
  })
  afterEach(async () => {
    await closeWorkshop(root)
  })
}

/** Makes a data folder with an empty, migrated journal and points the program at it. Give it back to `closeWorkshop`. */
export function openWorkshop(): string {
  const root = mkdtempSync(path.join(tmpdir(), 'coatbook-workshop-'))
  const folder = dataFolder(root)
  mkdirSync(root, { recursive: true })
  copyFileSync(inject('templateDatabase'), folder.database)
  process.env['COATBOOK_DATA'] = root
  process.env['COATBOOK_ZONE'] = workshopZone
  process.env['COATBOOK_DEMO'] = 'off'
  return root
}

/** Waits for what is still being made, closes the journal and removes its folder. */
export async function closeWorkshop(root: string): Promise<void> {
  await renditionsIdle()
  await closeDatabase()
  rmSync(root, { recursive: true, force: true })
  delete process.env['COATBOOK_DATA']
  delete process.env['COATBOOK_ZONE']
  delete process.env['COATBOOK_DEMO']
}
