import { beforeEach, describe, expect, test } from 'vitest'
import { instant } from '#core/units'
import { database } from '#services/database/open-database'
import { handOverJob } from '#services/jobs/hand-over-job'
import { readJournal } from '#services/journal/read-journal'
import { type TestJob, makeJob, makeStep } from '../../support/make-job'
import { keepPhotoRow } from '../../support/photo-row'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const noonOf = (day: string) => instant(Date.parse(`${day}T12:00:00Z`))
const now = noonOf('2026-11-25')
let job: TestJob
beforeEach(async () => {
  job = await makeJob()
})

describe('handing a job over', () => {
  test('is refused for a day before its first photo, and changes nothing', async () => {
    await keepPhotoRow(job.id, { takenAt: '2026-10-22T08:00:00Z' })
    expect(
      await handOverJob(
        job.id,
        { soldAt: noonOf('2025-01-01'), deliveredAt: null },
        now,
      ),
    ).toMatchObject({ ok: false, refusal: { kind: 'invalid', field: 'sold' } })
    expect((await readJournal(job.id))?.job.soldAt).toBeUndefined()
  })

  test('is held against typed times of steps too', async () => {
    const step = await makeStep(job.id, 'clean', job.surfaceIds)
    const db = await database()
    await db.step.update({
      where: { id: step },
      data: { finishedAt: new Date('2026-10-20T08:00:00Z') },
    })
    const on = (day: string) =>
      handOverJob(job.id, { soldAt: null, deliveredAt: noonOf(day) }, now)
    expect(await on('2026-10-19')).toMatchObject({
      ok: false,
      refusal: { field: 'delivered' },
    })
    expect(await on('2026-10-20')).toMatchObject({ ok: true })
  })

  test('forgets a photo that is in the bin', async () => {
    const photo = await keepPhotoRow(job.id)
    const db = await database()
    await db.photo.update({
      where: { id: photo },
      data: { removedAt: new Date('2026-11-01T08:00:00Z') },
    })
    expect(
      await handOverJob(
        job.id,
        { soldAt: noonOf('2026-09-01'), deliveredAt: null },
        now,
      ),
    ).toMatchObject({ ok: true })
  })
})
