import { rmSync } from 'node:fs'
import { expect, test } from 'vitest'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import { describeOriginal } from '#services/photos/describe-original'
import { renditionsIdle } from '#services/renditions/renditions'
import { makeHeic } from '../../support/make-heic'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { makeTelltale, secrets } from '../../support/telltale-photo'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

async function keepOne(bytes: Uint8Array) {
  const job = await makeJob()
  const { photos } = await sendPhotos(job.id, [['a.jpg', bytes]])
  const [photo] = photos
  if (photo === undefined) throw new Error('the photo was not kept')
  return photo
}

async function heldBy(bytes: Uint8Array): Promise<readonly string[]> {
  const told = await describeOriginal((await keepOne(bytes)).id)
  if (!told.ok) throw new Error(told.refusal.detail)
  return told.value.holds
}

test('an original that says all it can is described, and gives nothing away', async () => {
  const holds = (await heldBy(await makeTelltale(1))).join('\n')
  for (const word of [/the place/, /the time/, /the camera/, /a number/]) {
    expect(holds).toMatch(word)
  }
  expect(holds).toMatch(/a name/)
  expect(holds).toMatch(/words/)
  for (const secret of Object.values(secrets)) {
    expect(holds).not.toContain(secret)
  }
  expect(holds).not.toMatch(/\d/)
})

test('a bare original holds nothing besides its picture', async () => {
  expect(await heldBy(await makePhoto())).toEqual([
    'This original holds nothing besides its picture.',
  ])
  expect(await heldBy(makeHeic())).toEqual([
    'This original holds nothing besides its picture.',
  ])
})

test('a place that was blanked out is no place', async () => {
  const bytes = await makePhoto({
    taken: '2026:10:22 09:02:10',
    place: ['0/1 0/1 0/1', '0/1 0/1 0/1'],
  })
  expect((await heldBy(bytes)).join()).not.toMatch(/place/)
})

test('what is not there is not described', async () => {
  expect(await describeOriginal('nothing')).toMatchObject({
    refusal: { kind: 'not-found' },
  })
  const photo = await keepOne(await makePhoto())
  await renditionsIdle()
  rmSync((await openPhotoStore()).path(photo.sha256))
  expect(await describeOriginal(photo.id)).toMatchObject({
    refusal: { kind: 'not-found' },
  })
})
