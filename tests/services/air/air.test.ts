import { expect, test } from 'vitest'
import { addMinutes, instant, minutesPerDay } from '#core/units'
import { addAir } from '#services/air/air'
import { addJob } from '#services/jobs/jobs'
import { database } from '#services/database/open-database'
import { addStep } from '#services/steps/steps'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const at = instant(Date.UTC(2026, 9, 24, 10))

async function jobWorkedOn(...days: readonly number[]): Promise<string> {
  const job = await addJob(
    {
      title: 'Chair',
      pieces: [{ name: 'chair', kind: 'chair', surfaces: ['body'] }],
    },
    at,
  )
  const surface = job.pieces[0]?.surfaces[0]?.id ?? ''
  for (const day of days) {
    const moment = addMinutes(at, day * minutesPerDay)
    const added = await addStep(
      job.id,
      { kind: 'coat', surfaces: [surface], startedAt: moment },
      moment,
    )
    expect(added.ok).toBe(true)
  }
  return job.id
}

async function revisionOf(id: string): Promise<number> {
  const db = await database()
  return (await db.job.findUniqueOrThrow({ where: { id } })).revision
}

test('a reading has judged anew the jobs that it reaches, and leaves the others in peace', async () => {
  const current = await jobWorkedOn(-1)
  const around = await jobWorkedOn(-300, 300)
  const soon = await jobWorkedOn(1)
  const longDone = await jobWorkedOn(-60)
  const later = await jobWorkedOn(10)
  const untouched = await jobWorkedOn()
  const ids = [current, around, soon, longDone, later, untouched]
  const before = await Promise.all(ids.map(revisionOf))
  await addAir([{ at, celsius: 20, humidity: 50 }])
  const after = await Promise.all(ids.map(revisionOf))
  expect(
    after.map((revision, index) => revision - (before[index] ?? 0)),
  ).toEqual([1, 1, 1, 0, 0, 0])
})

test('a second reading for a moment takes the place of the first', async () => {
  await addAir([{ at, celsius: 20, humidity: 50 }])
  await addAir([{ at, celsius: 21, humidity: 55 }])
  const db = await database()
  expect(await db.airReading.findMany()).toEqual([
    { at: new Date(at), celsius: 21, humidity: 55 },
  ])
})

test('no readings at all change nothing', async () => {
  expect(await addAir([])).toEqual({ kept: 0 })
})
