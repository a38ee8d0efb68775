import { expect, test } from 'vitest'
import { readJournal } from '#services/journal/read-journal'
import { placePhotos } from '#services/photos/place-photos'
import { photoPlacing } from '#services/photos/schema'
import { makeJob, makeStep } from '../../support/make-job'
import { keepPhotoRow } from '../../support/photo-row'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

test('a photo is put on a step with its surfaces, and taken off it again', async () => {
  const job = await makeJob()
  const photo = await keepPhotoRow(job.id, { role: 'before' })
  const step = await makeStep(job.id, 'prime', job.surfaceIds)
  await placePhotos(job.id, photoPlacing.parse({ photos: [photo], step }))
  const placed = (await readJournal(job.id))?.photos[0]
  expect(placed).toMatchObject({ stepId: step, role: 'progress' })
  expect(new Set(placed?.surfaceIds)).toEqual(new Set(job.surfaceIds))
  await placePhotos(
    job.id,
    photoPlacing.parse({ photos: [photo], step: null, role: 'after' }),
  )
  const taken = (await readJournal(job.id))?.photos[0]
  expect(taken?.stepId).toBeUndefined()
  expect(taken?.role).toBe('after')
})

test('what is not said stays as it was', async () => {
  const job = await makeJob()
  const [body = ''] = job.surfaceIds
  const photo = await keepPhotoRow(job.id, {
    role: 'before',
    surfaceIds: [body],
  })
  await placePhotos(
    job.id,
    photoPlacing.parse({ photos: [photo], view: 'front' }),
  )
  expect((await readJournal(job.id))?.photos[0]).toMatchObject({
    role: 'before',
    view: 'front',
    surfaceIds: [body],
  })
})

test('nothing of one job is put on another', async () => {
  const other = await makeJob()
  const job = await makeJob()
  const own = await keepPhotoRow(job.id)
  const foreign = await keepPhotoRow(other.id)
  const step = await makeStep(other.id, 'prime', other.surfaceIds)
  for (const placing of [
    { photos: [own, foreign], role: 'after' },
    { photos: [own], surfaces: other.surfaceIds },
    { photos: [own], step },
  ]) {
    const placed = await placePhotos(job.id, photoPlacing.parse(placing))
    expect(placed).toMatchObject({ ok: false })
  }
  expect((await readJournal(job.id))?.photos[0]).toMatchObject({
    role: 'progress',
    surfaceIds: [],
  })
})

test('a placing that is refused has changed nothing', async () => {
  const job = await makeJob('Sideboard', ['body', 'top'])
  const [body = '', top = ''] = job.surfaceIds
  const photo = await keepPhotoRow(job.id, { surfaceIds: [body] })
  const placed = await placePhotos(
    job.id,
    photoPlacing.parse({
      photos: [photo],
      surfaces: [top],
      step: 'no such step',
    }),
  )
  expect(placed).toMatchObject({ ok: false })
  expect((await readJournal(job.id))?.photos[0]).toMatchObject({
    surfaceIds: [body],
  })
})
