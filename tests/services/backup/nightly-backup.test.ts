import {
  existsSync,
  mkdirSync,
  readdirSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import path from 'node:path'
import { expect, test } from 'vitest'
import { type Instant, instant } from '#core/units'
import {
  changeBackupSettings,
  readBackupSettings,
} from '#services/backup/backup-settings'
import { makeDueBackup } from '#services/backup/nightly-backup'
import { removeSurplus, writeBackup } from '#services/backup/write-backup'
import { openArchive } from '#services/backup/open-archive'
import { openDataFolder } from '#services/database/open-database'
import { keepFirstSettings } from '#services/workshop/workshop'
import { useFolder } from '../../support/backup-journal'
import { makeJob } from '../../support/make-job'
import { useWorkshop } from '../../support/workshop'

useWorkshop()
const folder = useFolder()
const at = (text: string) => instant(Date.parse(text))
const keep = { keepDays: 2, keepWeeks: 0, keepMonths: 0 }
const zips = () => readdirSync(folder()).filter((name) => name.endsWith('.zip'))

async function onNight(day: string): Promise<string> {
  return makeDueBackup(at(`2026-11-${day}T02:05:00Z`))
}

test('every night makes one, the rules remove the old ones, and other files are let alone', async () => {
  await keepFirstSettings(at('2026-11-01T08:00:00Z'))
  await makeJob()
  writeFileSync(path.join(folder(), 'holiday.zip'), 'mine')
  expect(await onNight('20')).toBe('none')
  expect(
    await changeBackupSettings({ folder: folder(), ...keep }),
  ).toMatchObject({ ok: true })
  for (const day of ['21', '22', '23']) expect(await onNight(day)).toBe('made')
  expect(await onNight('23')).toBe('none')
  expect(zips().sort()).toEqual([
    'coatbook-2026-11-22-020500Z.zip',
    'coatbook-2026-11-23-020500Z.zip',
    'holiday.zip',
  ])
  const { done, problem } = await readBackupSettings()
  expect(problem).toBeUndefined()
  expect(done).toMatchObject({ at: at('2026-11-23T02:05:00Z'), missing: 0 })
  const archive = await openArchive(done?.file ?? '')
  archive.close()
  expect(archive.sizes.has('journal.json')).toBe(true)
})

test('a drive that is not plugged in is said in plain words, tried again after an hour, and forgotten once it works', async () => {
  const drive = path.join(folder(), 'drive')
  mkdirSync(drive)
  await changeBackupSettings({ folder: drive, ...keep })
  rmSync(drive, { recursive: true })
  const hour = (count: number): Instant =>
    instant(at('2026-11-21T02:05:00Z') + count * 3_600_000)
  expect(await makeDueBackup(hour(0))).toBe('failed')
  const failed = await readBackupSettings()
  expect(failed.problem).toMatch(/no such folder.*Plug the drive in/i)
  expect(existsSync(drive)).toBe(false)
  expect(await makeDueBackup(hour(0.5))).toBe('none')
  mkdirSync(drive)
  expect(await makeDueBackup(hour(1))).toBe('made')
  expect((await readBackupSettings()).problem).toBeUndefined()
})

test('a clock that was set back leads to one more backup, not to none for years', async () => {
  await changeBackupSettings({ folder: folder(), ...keep })
  expect(await makeDueBackup(at('2031-01-01T02:05:00Z'))).toBe('made')
  expect(await onNight('21')).toBe('made')
  expect(await onNight('21')).toBe('none')
  expect(await onNight('22')).toBe('made')
  expect(zips()).toContain('coatbook-2031-01-01-020500Z.zip')
})

test('a folder that cannot be used is refused with the reason', async () => {
  const { root } = await openDataFolder()
  writeFileSync(path.join(folder(), 'file'), '')
  for (const [wrong, why] of [
    ['backups', /whole path/],
    [path.join(root, 'backups'), /in the data folder/],
    [root, /in the data folder/],
    [path.join(folder(), 'nowhere'), /no such folder/],
    [path.join(folder(), 'file'), /no folder/],
  ] as const) {
    const changed = await changeBackupSettings({ folder: wrong, ...keep })
    expect(changed.ok ? '' : changed.refusal.detail).toMatch(why)
  }
})

test('what a program that was ended left behind is removed later, and nothing else', async () => {
  const { root } = await openDataFolder()
  const left = path.join(folder(), 'coatbook-2026-11-20-020000Z.zip.x.part')
  const fresh = path.join(folder(), 'coatbook-2026-11-21-020000Z.zip.y.part')
  writeFileSync(left, '')
  writeFileSync(fresh, '')
  const longAgo = Date.now() / 1000 - 7200
  utimesSync(left, longAgo, longAgo)
  const data = await openDataFolder()
  expect(data.root).toBe(root)
  await writeBackup(data, folder(), at('2026-11-22T02:00:00Z'))
  expect(existsSync(left)).toBe(false)
  expect(existsSync(fresh)).toBe(true)
  expect(
    await removeSurplus(
      folder(),
      { days: 1, weeks: 1, months: 1 },
      'Europe/London',
      at('2026-11-22T03:00:00Z'),
    ),
  ).toEqual([])
})
