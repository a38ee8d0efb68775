import { afterAll, expect, test } from 'vitest'
import { translation } from '#core/geometry/homography'
import { alignedPictures } from '#services/alignment/aligned-picture'
import {
  type ColourPixels,
  endAlignmentThread,
} from '#services/alignment/alignment-thread'
import { openPicture } from '#services/renditions/open-picture'
import { makeJob } from '../../support/make-job'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()
afterAll(async () => {
  await endAlignmentThread()
})

/** Red grows from left to right and green from top to bottom, so that any place can be told from its colour. */
async function placesPhoto(): Promise<string> {
  const [width, height] = [400, 300]
  const data = Buffer.from(
    Array.from({ length: width * height }, (_, pixel) => [
      ((pixel % width) / width) * 255,
      (Math.floor(pixel / width) / height) * 255,
      128,
    ]).flat(),
  )
  const bytes = await openPicture(data, { raw: { width, height, channels: 3 } })
    .png()
    .toBuffer()
  const { photos } = await sendPhotos((await makeJob()).id, [
    ['places.png', bytes],
  ])
  return photos[0]?.sha256 ?? ''
}

/** How much more of a channel one picture has than the other, on average. */
function more(one: ColourPixels, other: ColourPixels, channel: number): number {
  let sum = 0
  for (let at = channel; at < one.data.length; at += 3) {
    sum += (one.data[at] ?? 0) - (other.data[at] ?? 0)
  }
  return sum / (one.data.length / 3)
}

test.each([
  ['as they are', 0, 1920],
  ['reduced', 0, 200],
  ['turned by hand', 1, 1920],
  ['turned by hand and reduced', 1, 200],
  ['turned over', 2, 250],
])(
  'two photos %s lie on each other to a fraction of a pixel',
  async (_name, quarterTurns, longSide) => {
    const sha256 = await placesPhoto()
    const upright =
      quarterTurns % 2 === 0
        ? { width: 400, height: 300 }
        : { width: 300, height: 400 }
    const photo = { sha256, quarterTurns, size: upright }
    const across = 13.3
    const down = 10.3
    const { before, after } = await alignedPictures(
      photo,
      photo,
      translation(across, down),
      longSide,
    )
    expect([after.width, after.height]).toEqual([before.width, before.height])
    expect(Math.max(before.width, before.height)).toBeLessThanOrEqual(longSide)
    // What the after shows at a place, the before shows so far to the right and below.
    const [red, green] = [
      [across / 400, down / 300],
      // A quarter clockwise, red grows downwards and green to the left.
      [down / 400, -across / 300],
      [-across / 400, -down / 300],
    ][quarterTurns] ?? [0, 0]
    // A pixel is 0.6 of red, and 0.8 of green; that values are whole leaves a quarter of one.
    expect(Math.abs(more(before, after, 0) - (red ?? 0) * 255)).toBeLessThan(
      0.3,
    )
    expect(Math.abs(more(before, after, 1) - (green ?? 0) * 255)).toBeLessThan(
      0.3,
    )
  },
)
