import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { Ajv2020 } from 'ajv/dist/2020.js'
import formats from 'ajv-formats'
import { afterEach, expect, test } from 'vitest'
import { openArchive } from '#services/backup/open-archive'
import { restoreBackup } from '#services/backup/restore-backup'
import { closeDatabase, openDataFolder } from '#services/database/open-database'
import { dataFolder } from '#services/settings/data-folder'
import {
  backUp,
  backupMoment,
  dump,
  fillJournal,
  hashesIn,
  useFolder,
} from '../../support/backup-journal'
import { useWorkshop } from '../../support/workshop'

useWorkshop()
const folder = useFolder()

const elsewhere = useFolder()
afterEach(closeDatabase)

/** Restores into the other data folder, as the program does when it is told to use that one. */
async function restoreElsewhere(file: string) {
  await closeDatabase()
  process.env['COATBOOK_DATA'] = elsewhere()
  return restoreBackup(
    file,
    dataFolder(elsewhere()),
    { dryRun: false },
    backupMoment,
  )
}

async function textIn(file: string, name: string): Promise<string> {
  const archive = await openArchive(file)
  try {
    const chunks: Uint8Array[] = []
    for await (const chunk of archive.read(name)) chunks.push(chunk)
    return Buffer.concat(chunks).toString()
  } finally {
    archive.close()
  }
}

test('a journal that is backed up and restored is the same to the last bit, and so is its next backup', async () => {
  await fillJournal()
  const { root } = await openDataFolder()
  const file = await backUp(root, folder())
  const before = {
    rows: dump(root),
    files: hashesIn(path.join(root, 'originals')),
  }
  expect(Object.keys(before.files)).toHaveLength(3)

  const restored = await restoreElsewhere(file)
  expect(restored.ok && restored.value.outcome).toBe('restored')
  expect(dump(elsewhere())).toEqual(before.rows)
  expect(hashesIn(path.join(elsewhere(), 'originals'))).toEqual(before.files)
  expect(hashesIn(path.join(elsewhere(), 'arriving'))).toEqual({})

  const again = mkdtempSync(path.join(folder(), 'again-'))
  const second = await backUp(elsewhere(), again)
  expect(readFileSync(second).equals(readFileSync(file))).toBe(true)
})

test('the journal in it fits the JSON Schema beside it, which refuses what is not of it', async () => {
  await fillJournal()
  const { root } = await openDataFolder()
  const file = await backUp(root, folder())
  const schema: unknown = JSON.parse(await textIn(file, 'journal.schema.json'))
  const ajv = new Ajv2020({ allErrors: true })
  formats(ajv)
  const fits = ajv.compile(schema as object)
  const text = await textIn(file, 'journal.json')
  fits(JSON.parse(text))
  expect(fits.errors ?? []).toEqual([])
  expect(fits(JSON.parse(text.replace('"celsius":', '"kelvin":')))).toBe(false)
})

test('neither passphrase nor device nor the folder of this machine is in it', async () => {
  await fillJournal()
  const { root } = await openDataFolder()
  const file = await backUp(root, folder())
  const text = await textIn(file, 'journal.json')
  for (const name of [
    'Passphrase',
    'Device',
    'PairingCode',
    'BackupSettings',
  ]) {
    expect(text).not.toContain(`"${name}"`)
  }
})

test('it can be made beside a running program, and restored over a journal that has all of it without change', async () => {
  await fillJournal()
  const { root } = await openDataFolder()
  // The database is open in this process, as it would be in the server's.
  const file = await backUp(root, folder())
  const before = dump(root)
  await closeDatabase()
  const restored = await restoreBackup(
    file,
    dataFolder(root),
    { dryRun: true },
    backupMoment,
  )
  if (!restored.ok) throw new Error(restored.refusal.detail)
  expect(restored.value.outcome).toBe('tried')
  for (const table of restored.value.merge.tables) {
    expect(table).toMatchObject({ added: 0, differing: 0 })
  }
  expect(restored.value.originals.count).toBe(0)
  expect(dump(root)).toEqual(before)
})

test('an original that is missing or has changed is left out and named; all else is in it, and a restore mends the first', async () => {
  const { hashes } = await fillJournal()
  const { root, originals } = await openDataFolder()
  const sound = await backUp(root, folder())
  const [first = '', second = ''] = hashes
  const fileOf = (sha256: string) =>
    path.join(originals, sha256.slice(0, 2), sha256)
  rmSync(fileOf(first))
  const bytes = readFileSync(fileOf(second))
  bytes[bytes.byteLength - 1] = (bytes[bytes.byteLength - 1] ?? 0) ^ 1
  writeFileSync(fileOf(second), bytes)

  const later = mkdtempSync(path.join(folder(), 'later-'))
  const file = await backUp(root, later)
  const manifest: unknown = JSON.parse(await textIn(file, 'manifest.json'))
  expect(manifest).toMatchObject({
    missing: expect.arrayContaining([
      { sha256: first, reason: 'missing' },
      { sha256: second, reason: 'damaged' },
    ]) as unknown,
  })
  const archive = await openArchive(file)
  archive.close()
  expect(archive.sizes.size).toBe(4 + 1)

  await closeDatabase()
  const restored = await restoreBackup(
    sound,
    dataFolder(root),
    { dryRun: false },
    backupMoment,
  )
  expect(restored.ok && restored.value.originals.count).toBe(2)
  expect(
    Object.keys(hashesIn(originals))
      .map((one) => path.basename(one))
      .sort(),
  ).toEqual([...hashes].sort())
  for (const [name, hash] of Object.entries(hashesIn(originals))) {
    expect(path.basename(name)).toBe(hash)
  }
})
