import path from 'node:path'
import { expect, test } from 'vitest'
import { foldRepeats } from '#core/photos/bursts'
import { unlikeness } from '#core/photos/likeness'
import { exactly } from '#core/time/span'
import { instant } from '#core/units'
import { database } from '#services/database/open-database'
import { openPicture } from '#services/renditions/open-picture'
import { renditionsIdle } from '#services/renditions/renditions'
import { makeJob } from '../../support/make-job'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const demo = (name: string) =>
  path.join('prisma', 'demo', 'photos', 'job-a', name)

test('two shots of one view are folded with the sharp one in front, whatever their size and light', async () => {
  const source = demo('01-before-front.jpg')
  const sharp = await openPicture(source).autoOrient().jpeg().toBuffer()
  const shaken = await openPicture(source)
    .autoOrient()
    .resize(1200)
    .blur(4)
    .modulate({ brightness: 1.1 })
    .jpeg()
    .toBuffer()
  const other = await openPicture(demo('23-hardware-brass.jpg'))
    .autoOrient()
    .jpeg()
    .toBuffer()
  const job = await makeJob()
  const { photos } = await sendPhotos(job.id, [
    ['shaken.jpg', shaken],
    ['sharp.jpg', sharp],
    ['other.jpg', other],
  ])
  await renditionsIdle()
  const db = await database()
  const rows = await Promise.all(
    photos.map(async ({ sha256, name }, index) => {
      const row = await db.original.findUniqueOrThrow({ where: { sha256 } })
      return {
        id: name,
        taken: exactly(instant(index * 2000)),
        likeness: row.likeness ?? '',
        sharpness: row.sharpness ?? -1,
      }
    }),
  )
  const [one, two, three] = rows
  expect(unlikeness(one?.likeness ?? '', two?.likeness ?? '')).toBeLessThan(5)
  expect(
    unlikeness(one?.likeness ?? '', three?.likeness ?? ''),
  ).toBeGreaterThan(15)
  expect(
    foldRepeats(rows).map(({ front, behind }) => [
      front.id,
      behind.map(({ id }) => id),
    ]),
  ).toEqual([
    ['sharp.jpg', ['shaken.jpg']],
    ['other.jpg', []],
  ])
})
