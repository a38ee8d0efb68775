import { readdirSync } from 'node:fs'
import path from 'node:path'
import { afterEach, expect, test } from 'vitest'
import type { ConflictChoice } from '#services/backup/merge-journal'
import {
  type Restoration,
  restoreBackup,
} from '#services/backup/restore-backup'
import {
  closeDatabase,
  database,
  openDataFolder,
} from '#services/database/open-database'
import { dataFolder } from '#services/settings/data-folder'
import { keepFirstSettings } from '#services/workshop/workshop'
import { changeWorkshop } from '#services/workshop/change-workshop'
import {
  backUp,
  backupMoment,
  dump,
  fillJournal,
  useFolder,
} from '../../support/backup-journal'
import { makeJob, makeStep } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()
const folder = useFolder()

const elsewhere = useFolder()
afterEach(closeDatabase)

async function restore(
  file: string,
  root: string,
  onConflict?: ConflictChoice,
): Promise<Restoration> {
  await closeDatabase()
  process.env['COATBOOK_DATA'] = root
  const restored = await restoreBackup(
    file,
    dataFolder(root),
    { dryRun: false, onConflict },
    backupMoment,
  )
  if (!restored.ok) throw new Error(restored.refusal.detail)
  return restored.value
}

function countsOf(restored: Restoration, table: string) {
  return restored.merge.tables.find((one) => one.table === table)
}

test('a journal that was only started takes the settings of the backup', async () => {
  await fillJournal()
  await changeWorkshop(
    { name: 'Alder Yard', zone: 'Europe/London', currency: 'EUR', units: 'us' },
    backupMoment,
  )
  const { root } = await openDataFolder()
  const file = await backUp(root, folder())
  const rows = dump(root)
  await closeDatabase()
  process.env['COATBOOK_DATA'] = elsewhere()
  await keepFirstSettings(backupMoment)
  const restored = await restore(file, elsewhere())
  expect(restored.merge.intoEmpty).toBe(true)
  expect(dump(elsewhere())).toEqual(rows)
})

test('what was added since stays, what is gone comes back, and nothing is asked where nothing differs', async () => {
  const { jobId, stepId } = await fillJournal()
  const { root } = await openDataFolder()
  const file = await backUp(root, folder())
  const db = await database()
  await db.step.delete({ where: { id: stepId } })
  const later = await makeJob('Pine blanket box')
  const restored = await restore(file, root)
  expect(restored.outcome).toBe('restored')
  expect(countsOf(restored, 'Step')).toMatchObject({ added: 1, differing: 0 })
  const again = await database()
  expect(await again.job.count({ where: { id: later.id } })).toBe(1)
  expect(
    await again.stepSurface.count({ where: { stepId } }),
    'its surfaces came with it',
  ).toBe(2)
  const { revision } = await again.job.findUniqueOrThrow({
    where: { id: jobId },
  })
  expect(revision, 'what was computed from the job is stale').toBeGreaterThan(0)
  // And a copy of the journal from before.
  expect(restored.copy).toBeDefined()
  expect(readdirSync(path.join(root, 'copies'))).toEqual([
    path.basename(restored.copy ?? ''),
  ])
})

test('where records differ nothing is changed until it is said which to keep', async () => {
  const { jobId, stepId } = await fillJournal()
  const { root } = await openDataFolder()
  const file = await backUp(root, folder())
  const db = await database()
  await db.job.update({
    where: { id: jobId },
    data: { title: 'Walnut sideboard' },
  })
  const [first] = await db.stepSurface.findMany({ where: { stepId } })
  await db.stepSurface.deleteMany({
    where: { stepId, surfaceId: first?.surfaceId ?? '' },
  })
  await closeDatabase()
  const before = dump(root)

  const asked = await restore(file, root)
  expect(asked.outcome).toBe('asks')
  expect(asked.merge.differing).toEqual([
    'job "Walnut sideboard": title',
    'step "prime": StepSurface',
  ])
  expect(dump(root)).toEqual(before)
  expect(readdirSync(path.join(root, 'copies'))).toEqual([])

  const kept = await restore(file, root, 'keep')
  expect(kept.outcome).toBe('restored')
  let now = await database()
  expect((await now.job.findFirstOrThrow()).title).toBe('Walnut sideboard')
  expect(await now.stepSurface.count({ where: { stepId } })).toBe(1)

  const taken = await restore(file, root, 'take')
  expect(taken.outcome).toBe('restored')
  now = await database()
  expect((await now.job.findFirstOrThrow()).title).toBe('Oak sideboard')
  expect(await now.stepSurface.count({ where: { stepId } })).toBe(2)
})

test('a surface that was put on a step since does not come between the backup’s: they come as a whole', async () => {
  const { jobId, stepId } = await fillJournal()
  const { root } = await openDataFolder()
  const file = await backUp(root, folder())
  const db = await database()
  const piece = await db.piece.findFirstOrThrow({ where: { jobId } })
  await db.surface.create({
    data: { id: 'legs', pieceId: piece.id, position: 2, name: 'legs' },
  })
  await db.stepSurface.create({ data: { stepId, surfaceId: 'legs' } })
  await restore(file, root, 'take')
  const now = await database()
  const on = await now.stepSurface.findMany({ where: { stepId } })
  expect(on.map((one) => one.surfaceId)).not.toContain('legs')
  expect(await now.surface.count({ where: { id: 'legs' } })).toBe(1)
})

test('a camera and a photo that both know by other ids are one, and what points at them follows', async () => {
  const { jobId } = await fillJournal()
  const { root } = await openDataFolder()
  const photo = await makePhoto({ width: 80, make: 'Lumen', model: 'Two' })
  const db = await database()
  const file = await (async () => {
    const step = await makeStep(jobId, 'seal', [])
    const { photos } = await sendPhotos(jobId, [['d.jpg', photo]])
    await db.photo.update({
      where: { id: photos[0]?.id ?? '' },
      data: { stepId: step },
    })
    const made = await backUp(root, folder())
    // Taken away and sent again: the same bytes and camera, under ids of their own.
    await db.photo.delete({ where: { id: photos[0]?.id ?? '' } })
    await db.camera.deleteMany({ where: { model: 'Two' } })
    await db.step.delete({ where: { id: step } })
    return made
  })()
  const { photos } = await sendPhotos(jobId, [['d.jpg', photo]])
  await db.pair.deleteMany()
  const restored = await restore(file, root, 'keep')
  expect(restored.outcome).toBe('restored')
  const now = await database()
  expect(await now.photo.count()).toBe(4)
  expect(await now.camera.count({ where: { model: 'Two' } })).toBe(1)
  expect(await now.photo.count({ where: { id: photos[0]?.id ?? '' } })).toBe(1)
})

test('journals of two zones are not mixed', async () => {
  await fillJournal()
  const { root } = await openDataFolder()
  const file = await backUp(root, folder())
  await changeWorkshop(
    {
      name: 'Alder Yard',
      zone: 'America/Halifax',
      currency: 'GBP',
      units: 'metric',
    },
    backupMoment,
  )
  await expect(restore(file, root, 'take')).rejects.toThrow(
    /time zone is Europe\/London.*America\/Halifax/,
  )
})

test('a dry run touches nothing, not even where there is no journal yet', async () => {
  await fillJournal()
  const { root } = await openDataFolder()
  const file = await backUp(root, folder())
  const tried = await restoreBackup(
    file,
    dataFolder(elsewhere()),
    { dryRun: true },
    backupMoment,
  )
  expect(tried.ok && tried.value.outcome).toBe('tried')
  expect(tried.ok && tried.value.originals.count).toBe(3)
  expect(readdirSync(elsewhere())).toEqual([])
})
