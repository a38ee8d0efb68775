import { describe, expect, test } from 'vitest'
import { type Instant, addMinutes, instant, minutesPerDay } from '#core/units'
import { putInBin, takeBack } from '#services/bin/bin-parts'
import { changeBinRules } from '#services/bin/bin-settings'
import { emptyDueBin } from '#services/bin/empty-bin'
import { database } from '#services/database/open-database'
import { addPiece, readJob } from '#services/jobs/jobs'
import { readJournal } from '#services/journal/read-journal'
import { makeJob, makeStep } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

// A Friday; thirty days later is Sunday 27 December.
const removed = instant(Date.parse('2026-11-27T09:00:00Z'))
const later = (minutes: number): Instant => addMinutes(removed, minutes)
const ofJob =
  'The job “Oak sideboard” is in the bin and goes for good Sun 27 Dec, this photo with it: bring it back under Workshop.'
const ofParts = (names: string) =>
  `What this photo was sent for (${names}) is in the bin and goes for good Sun 27 Dec: bring it back under Workshop. The photo itself stays in the job.`

/** What is said of a photo that comes five minutes after. */
async function said(
  jobId: string,
  width: number,
  fields: readonly (readonly [string, string])[] = [],
): Promise<readonly string[] | undefined> {
  const taken = '2026:11:27 09:00:00'
  const bytes = await makePhoto({ width, taken, offset: '+00:00' })
  const { photos } = await sendPhotos(
    jobId,
    [['late.jpg', bytes]],
    fields,
    later(5),
  )
  return photos[0]?.warnings
}

const whole = (jobId: string) => ({ kind: 'job', jobId, id: jobId }) as const
const surface = (jobId: string, id: string) =>
  ({ kind: 'surface', jobId, id }) as const

describe('a photo that is sent for a job in the bin', () => {
  test('is kept, and goes with the job on the day that its sender is told', async () => {
    const job = await makeJob()
    await emptyDueBin(removed)
    await putInBin(whole(job.id), removed)
    expect(await said(job.id, 61)).toEqual([ofJob])
    const db = await database()
    for (let day = 1; day < 30; day += 1) {
      await emptyDueBin(later(day * minutesPerDay))
    }
    expect(await db.photo.count()).toBe(1)
    await emptyDueBin(later(30 * minutesPerDay))
    expect(await db.photo.count()).toBe(0)
  })

  test('says nothing of the bin any more once the job is back', async () => {
    const job = await makeJob()
    await putInBin(whole(job.id), removed)
    expect(await said(job.id, 62)).toEqual([ofJob])
    expect(await takeBack(whole(job.id))).toMatchObject({ ok: true })
    const journal = await readJournal(job.id)
    expect(journal?.photos).toMatchObject([{ warnings: [] }])
    expect(await said(job.id, 63)).toEqual([])
  })

  test('is told of it too where the job had the photo already', async () => {
    const job = await makeJob()
    expect(await said(job.id, 64)).toEqual([])
    await putInBin(whole(job.id), removed)
    expect(await said(job.id, 64)).toEqual([
      'This photo was in the bin; it is back in the job.',
      ofJob,
    ])
  })

  test('has no day where the bin keeps everything', async () => {
    const job = await makeJob()
    await changeBinRules({ originalDays: 0 })
    await putInBin(whole(job.id), removed)
    expect(await said(job.id, 65)).toEqual([
      'The job “Oak sideboard” is in the bin and stays until you bring it back, under Workshop.',
    ])
  })
})

describe('a photo of a job in use', () => {
  test('is told of a surface in the bin when it shows nothing else', async () => {
    const job = await makeJob()
    const [body = '', top = ''] = job.surfaceIds
    await putInBin(surface(job.id, top), removed)
    expect(await said(job.id, 66, [['surface', top]])).toEqual([
      ofParts('sideboard, top'),
    ])
    expect(
      await said(job.id, 67, [
        ['surface', top],
        ['surface', body],
      ]),
    ).toEqual([])
    expect(await said(job.id, 68)).toEqual([])
  })

  test('is told of a piece in the bin by its name, once', async () => {
    const job = await makeJob()
    await addPiece(job.id, {
      name: 'bench',
      kind: 'bench',
      surfaces: ['seat', 'legs'],
    })
    const bench = (await readJob(job.id))?.pieces[1]
    const id = bench?.id ?? ''
    await putInBin({ kind: 'piece', jobId: job.id, id }, removed)
    const shown = bench?.surfaces.map((one) => ['surface', one.id] as const)
    expect(await said(job.id, 69, shown)).toEqual([ofParts('bench')])
  })

  test('is told of a step whose surfaces are in the bin, whatever else it shows', async () => {
    const job = await makeJob()
    const [body = '', top = ''] = job.surfaceIds
    const step = await makeStep(job.id, 'coat', [top])
    const shared = await makeStep(job.id, 'coat', [top, body])
    await putInBin(surface(job.id, top), removed)
    const warning = [ofParts('sideboard, top')]
    expect(await said(job.id, 70, [['step', step]])).toEqual(warning)
    expect(
      await said(job.id, 71, [
        ['step', step],
        ['surface', body],
      ]),
    ).toEqual(warning)
    expect(await said(job.id, 72, [['step', shared]])).toEqual([])
  })
})
