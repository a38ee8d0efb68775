import path from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import { cornerError } from '#core/geometry/corner-error'
import { type Homography, composed, scaling } from '#core/geometry/homography'
import {
  alignPictures,
  alignmentSide,
} from '#services/alignment/align-pictures'
import { endAlignmentThread } from '#services/alignment/alignment-thread'
import { readColourPixels } from '#services/alignment/read-colour-pixels'
import {
  demoSize,
  furnitureError,
  readTruePairs,
} from '../../../lib/commands/true-pairs'
import { warpedPhoto } from '../../../lib/commands/warped-photo'

afterAll(async () => {
  await endAlignmentThread()
})

const pairs = readTruePairs()

function pixelsOf(file: string) {
  return readColourPixels(
    path.join('prisma', 'demo', 'photos', file),
    alignmentSide,
  )
}

function inFullSize(homography: Homography): Homography {
  const scale = alignmentSide / demoSize.width
  return composed(scaling(1 / scale), composed(homography, scaling(scale)))
}

describe('the pairs of the demo', () => {
  const errors: number[] = []

  // The expected places are the renderer's: prisma/demo/pairs.json, see lib/commands/true-pairs.ts.
  test.each(pairs)('$pair is brought onto its before', async (pair) => {
    const alignment = await alignPictures(
      await pixelsOf(pair.before),
      await pixelsOf(pair.after),
    )
    if (!alignment.accepted) throw new Error(`refused: ${alignment.doubt}`)
    const error = furnitureError(pair, inFullSize(alignment.homography))
    errors.push(error)
    expect(error).toBeLessThan(0.015)
    expect(error).toBeLessThan(furnitureError(pair))
  })

  test('lie within half a percent of the diagonal, the median of them', () => {
    expect(errors).toHaveLength(pairs.length)
    const sorted = errors.toSorted((one, other) => one - other)
    expect(sorted[Math.floor(sorted.length / 2)]).toBeLessThan(0.005)
  })
})

describe('a photo that was moved, refinished, lit anew and partly hidden', () => {
  test.each([
    ['job-a/03-before-right-three-quarter.jpg', 1],
    ['job-a/06-before-inside.jpg', 2],
    ['job-b/02-before-three-quarter.jpg', 4],
  ] as const)('%s comes back to where it was', async (file, seed) => {
    const before = await pixelsOf(file)
    const { picture, truth } = warpedPhoto(before, seed)
    const alignment = await alignPictures(before, picture)
    const size = Math.hypot(before.width, before.height)
    // Known truth; the mean average corner error of the field (corner-error.ts has the source).
    const error =
      alignment.accepted &&
      cornerError(alignment.homography, truth, picture) / size
    expect(error).not.toBe(false)
    expect(error).toBeLessThan(0.005)
  })
})

describe('photos of different things', () => {
  test.each([
    ['job-a/01-before-front.jpg', 'job-a/31-after-left-three-quarter.jpg'],
    ['job-a/02-before-left-three-quarter.jpg', 'job-a/30-after-front.jpg'],
    ['job-a/05-before-hardware.jpg', 'job-a/33-after-top.jpg'],
    ['job-b/01-before-front.jpg', 'job-a/30-after-front.jpg'],
  ] as const)('%s and %s are refused', async (before, after) => {
    const alignment = await alignPictures(
      await pixelsOf(before),
      await pixelsOf(after),
    )
    expect(alignment.accepted).toBe(false)
  })
})

describe('a picture that shows nothing', () => {
  test('is refused, and no error', async () => {
    const grey = {
      data: new Uint8Array(64 * 48 * 3).fill(128),
      width: 64,
      height: 48,
    }
    expect(await alignPictures(grey, grey)).toMatchObject({ accepted: false })
  })
})

describe('the bounds', () => {
  test('on time end an alignment, and the next one works again', async () => {
    const before = await pixelsOf('job-a/01-before-front.jpg')
    await expect(
      alignPictures(before, before, {
        milliseconds: 1,
        bytes: 384 * 1024 * 1024,
      }),
    ).rejects.toThrow('too long')
    expect(await alignPictures(before, before)).toMatchObject({
      accepted: true,
      model: 'translation',
    })
  })

  test('on memory end an alignment', async () => {
    const large = {
      data: new Uint8Array(5000 * 5000 * 3),
      width: 5000,
      height: 5000,
    }
    await expect(
      alignPictures(large, large, {
        milliseconds: 20_000,
        bytes: 200 * 1024 * 1024,
      }),
    ).rejects.toThrow('alignment failed')
  })
})
