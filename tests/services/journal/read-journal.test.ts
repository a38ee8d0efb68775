import { describe, expect, test } from 'vitest'
import { addMinutes, instant, minutesPerDay } from '#core/units'
import { addAir } from '#services/air/air'
import { readJournal, readJournals } from '#services/journal/read-journal'
import { makeJob, makeStep } from '../../support/make-job'
import { keepPhotoRow } from '../../support/photo-row'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

describe('a journal', () => {
  test('of a job that is not there is not there', async () => {
    const job = await makeJob()
    expect(await readJournal('nowhere')).toBeUndefined()
    const journals = await readJournals([job.id, 'nowhere'])
    expect(journals.map((journal) => journal.job.id)).toEqual([job.id])
  })

  test('is the same read alone and read with others', async () => {
    const jobs = [await makeJob('One'), await makeJob('Other')]
    for (const job of jobs) {
      const step = await makeStep(job.id, 'prime', job.surfaceIds)
      await keepPhotoRow(job.id, { stepId: step })
    }
    const together = await readJournals(jobs.map((job) => job.id))
    for (const journal of together) {
      expect(journal).toEqual(await readJournal(journal.job.id))
      expect(journal.steps[0]?.photoIds).toEqual([journal.photos[0]?.id])
    }
  })

  test('has its photos in order of time and its surfaces in the order they were named', async () => {
    const job = await makeJob('Dresser', ['zebra side', 'body', 'apron'])
    const late = await keepPhotoRow(job.id, { takenAt: '2026-10-22T10:00:00Z' })
    const early = await keepPhotoRow(job.id, {
      takenAt: '2026-10-22T09:00:00Z',
    })
    const journal = await readJournal(job.id)
    expect(journal?.photos.map((photo) => photo.id)).toEqual([early, late])
    expect(journal?.pieces[0]?.surfaces.map((surface) => surface.name)).toEqual(
      ['zebra side', 'body', 'apron'],
    )
  })

  test('has the air around the job, and not that of another season', async () => {
    const job = await makeJob()
    await keepPhotoRow(job.id, { takenAt: '2026-10-22T10:00:00Z' })
    const taken = instant(Date.parse('2026-10-22T10:00:00Z'))
    const days = [-90, -1, 0, 30, 90]
    await addAir(
      days.map((day) => ({
        at: addMinutes(taken, day * minutesPerDay),
        celsius: 20,
        humidity: 50,
      })),
    )
    const journal = await readJournal(job.id)
    expect(
      journal?.air.map((one) => (one.at - taken) / 60_000 / minutesPerDay),
    ).toEqual([-1, 0, 30])
  })
})
