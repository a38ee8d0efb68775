import { expect, test } from 'vitest'
import { type Instant, addMinutes, instant, minutesPerDay } from '#core/units'
import { readBench } from '#services/bench/bench'
import { readBin, removePhoto, restorePhoto } from '#services/bin/bin'
import { emptyDueBin } from '#services/bin/empty-bin'
import {
  readChanges,
  readLastChange,
  undoChange,
} from '#services/changes/changes'
import { checkJournal } from '#services/check/check-journal'
import { addSession, findDevice } from '#services/devices/devices'
import { readJournal } from '#services/journal/read-journal'
import { renditionsIdle } from '#services/renditions/renditions'
import { newStep } from '#services/steps/schema'
import { addStep, removeStep } from '#services/steps/steps'
import { makeJob } from '../support/make-job'
import { makePhoto } from '../support/make-photo'
import { sendPhotos } from '../support/send-photos'
import { useWorkshop } from '../support/workshop'

useWorkshop()

// Nightly backups: tests/services/backup/nightly-backup.test.ts.

const wrong = instant(Date.parse('2041-06-01T09:00:00Z'))
const right = instant(Date.parse('2026-11-02T09:00:00Z'))
const after = (moment: Instant, days: number) =>
  addMinutes(moment, days * minutesPerDay)

test('a machine whose clock ran years ahead and was set back keeps all that was done, and works on', async () => {
  const job = await makeJob()
  const send = async (width: number, now: Instant) => {
    const bytes = await makePhoto({ width })
    const { photos } = await sendPhotos(job.id, [['a.jpg', bytes]], [], now)
    return photos[0]?.id ?? ''
  }
  const add = async (now: Instant) => {
    const step = newStep.parse({ kind: 'coat', surfaces: job.surfaceIds })
    const added = await addStep(job.id, step, now)
    return added.ok ? added.value.id : ''
  }
  await emptyDueBin(wrong)
  const early = await send(70, wrong)
  const removed = await send(71, wrong)
  await removePhoto(job.id, removed, wrong)
  const first = await add(wrong)
  const token = await addSession('desk', 'passphrase', wrong)

  const late = await send(72, right)
  const second = await add(right)
  await removeStep(job.id, second, right)
  for (let day = 0; day <= 80; day += 1) await emptyDueBin(after(right, day))
  const journal = await readJournal(job.id)
  expect(new Set(journal?.photos.map(({ id }) => id))).toEqual(
    new Set([early, late]),
  )
  expect(journal?.steps.map(({ id }) => id)).toEqual([first])
  await readBench(right)
  // The latest by the clock is not the last by order; what can be undone still can.
  expect((await readChanges(job.id)).length).toBe(3)
  const last = await readLastChange(job.id, right)
  expect(last).toBeDefined()
  await undoChange(job.id, last?.id ?? '', right)
  expect((await readBin()).photos.map(({ id }) => id)).toEqual([removed])
  expect(await restorePhoto(job.id, removed)).toMatchObject({ ok: true })
  // Whom the owner let in by the wrong clock is not shut out by the right one.
  expect(await findDevice(token, right)).toBeDefined()
  await renditionsIdle()
  expect((await checkJournal()).findings).toEqual([])
})
