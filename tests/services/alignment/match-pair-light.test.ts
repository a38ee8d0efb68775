import path from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import { ciede2000 } from '#core/colour/ciede2000'
import { commonCrop } from '#core/geometry/common-crop'
import { composed, scaling, translation } from '#core/geometry/homography'
import type { LightGains } from '#core/pairs/match-light'
import { labOf } from '#core/photos/colour-grid'
import type { AlignedPictures } from '#services/alignment/aligned-picture'
import {
  type ColourPixels,
  endAlignmentThread,
  withAlignmentThread,
} from '#services/alignment/alignment-thread'
import {
  pairLight,
  relit,
  withMatchedLight,
} from '#services/alignment/match-pair-light'
import { readColourPixels } from '#services/alignment/read-colour-pixels'
import { newPicture, openPicture } from '#services/renditions/open-picture'
import { demoSize, readTruePairs } from '../../../lib/commands/true-pairs'

afterAll(async () => {
  await endAlignmentThread()
})

const side = 720

function read(file: string): Promise<ColourPixels> {
  return readColourPixels(path.join('prisma', 'demo', 'photos', file), side)
}

/** A pair of the demo in one frame, laid by the renderer's own geometry and not by our alignment. */
async function truePair(name: string): Promise<AlignedPictures> {
  const pair = readTruePairs().find((one) => one.pair === name)
  if (pair === undefined) throw new Error(`the demo has no pair ${name}`)
  const [before, after] = [await read(pair.before), await read(pair.after)]
  const scale = side / demoSize.width
  const truth = composed(
    scaling(scale),
    composed(pair.truth, scaling(1 / scale)),
  )
  const crop = commonCrop(truth, before, after)
  if (crop === undefined) throw new Error('they share nothing')
  const frame = {
    width: Math.floor(crop.width),
    height: Math.floor(crop.height),
  }
  const cut = translation(-crop.left, -crop.top)
  return withAlignmentThread(async (thread) => ({
    before: await thread.warp(before, cut, frame),
    after: await thread.warp(after, composed(cut, truth), frame),
  }))
}

/** The mean colour of a part of a picture, given in shares of it. */
function colourOf(
  { data, width, height }: ColourPixels,
  [left, top, right, bottom]: readonly [number, number, number, number],
) {
  const sum: [number, number, number] = [0, 0, 0]
  let count = 0
  for (let y = Math.round(top * height); y < bottom * height; y += 1) {
    for (let x = Math.round(left * width); x < right * width; x += 1) {
      const at = 3 * (y * width + x)
      sum[0] += data[at] ?? 0
      sum[1] += data[at + 1] ?? 0
      sum[2] += data[at + 2] ?? 0
      count += 1
    }
  }
  return labOf(sum[0] / count, sum[1] / count, sum[2] / count)
}

function apart(
  { before, after }: AlignedPictures,
  part: readonly [number, number, number, number],
): number {
  return ciede2000(colourOf(before, part), colourOf(after, part))
}

/**
 * The afters of the demo were rendered with another exposure than their befores, in stops: the differences that its
 * rendering script sets. They go through a film curve, so that their sign and order are known, and not their size.
 */
const exposures = [
  ['front', 0.18],
  ['left-three-quarter', -0.12],
  ['right-three-quarter', 0.1],
  ['top', 0.2],
] as const

describe('the light of the pairs of the demo', () => {
  test('is moved against the exposure that they were rendered with, the more the farther it was off', async () => {
    const found: { readonly stops: number; readonly gain: number }[] = []
    for (const [name, stops] of exposures) {
      const light = await pairLight(await truePair(name))
      if (!light.accepted) throw new Error(`${name}: ${light.doubt}`)
      found.push({ stops, gain: light.gains[1] })
      // A stop is a factor of 2; a film curve flattens it.
      const moved = -Math.log2(light.gains[1])
      expect(moved / stops).toBeGreaterThan(0.3)
      expect(moved / stops).toBeLessThan(1.2)
    }
    const byStops = found.toSorted((one, other) => one.stops - other.stops)
    const byGain = found.toSorted((one, other) => other.gain - one.gain)
    expect(byStops).toEqual(byGain)
  })

  // Parts of the wall and the floor beside the furniture, chosen by eye.
  test.each([
    ['front', 'wall', [0.05, 0.2, 0.2, 0.45]],
    ['front', 'floor', [0.3, 0.86, 0.7, 0.97]],
    ['left-three-quarter', 'wall', [0.02, 0.2, 0.2, 0.5]],
    ['right-three-quarter', 'floor', [0.03, 0.7, 0.3, 0.95]],
    ['top', 'wall', [0.3, 0.03, 0.9, 0.2]],
  ] as const)(
    'of %s is nearer on the %s once it is matched',
    async (name, _, part) => {
      const pair = await truePair(name)
      const matched = await withMatchedLight(pair)
      expect(matched.before).toBe(pair.before)
      expect(apart(matched, part)).toBeLessThan(apart(pair, part) * 0.75)
    },
  )

  test('is left where drawers fill the picture', async () => {
    const pair = await truePair('hardware')
    expect(await pairLight(pair)).toMatchObject({
      accepted: false,
      doubt: 'little-unchanged',
    })
    expect(await withMatchedLight(pair)).toBe(pair)
  })
})

describe('a photo whose furniture was painted and whose light was changed by so much', () => {
  // Made of a photo of the demo, so that the light is known.
  const [left, top, width, height] = [0.2, 0.3, 0.62, 0.5]

  async function made(gains: LightGains): Promise<AlignedPictures> {
    const before = await read('job-a/01-before-front.jpg')
    const raw = {
      raw: { width: before.width, height: before.height, channels: 3 },
    } as const
    const paint = await newPicture({
      create: {
        width: Math.round(width * before.width),
        height: Math.round(height * before.height),
        channels: 3,
        background: { r: 40, g: 110, b: 115 },
      },
    })
      .png()
      .toBuffer()
    const painted = await openPicture(Buffer.from(before.data), raw)
      .composite([
        {
          input: paint,
          left: Math.round(left * before.width),
          top: Math.round(top * before.height),
        },
      ])
      .removeAlpha()
      .raw()
      .toBuffer()
    const lit = Uint8Array.from(painted, (value, at) =>
      inLight(value, gains[at % 3] ?? 1),
    )
    return { before, after: { ...before, data: lit } }
  }

  test.each([
    [[0.8, 0.8, 0.8]],
    [[1.25, 1.25, 1.25]],
    [[0.92, 0.85, 0.78]],
    [[1.02, 1.08, 1.15]],
  ] as const)('has the light %j found within 2 %', async (gains) => {
    const pair = await made(gains)
    const light = await pairLight(pair)
    if (!light.accepted) throw new Error(light.doubt)
    for (const [channel, gain] of gains.entries()) {
      expect(Math.abs((light.gains[channel] ?? 0) * gain - 1)).toBeLessThan(
        0.02,
      )
    }
    const matched = await withMatchedLight(pair)
    const wall = [0.02, 0.05, 0.15, 0.4] as const
    expect(apart(pair, wall)).toBeGreaterThan(2)
    // About 1 is just seen (ciede2000.ts).
    expect(apart(matched, wall)).toBeLessThan(1)
  })

  test.each([[[0.6, 0.6, 0.6]], [[0.85, 1, 1.12]]] as const)(
    'is left as it is where that was %j: no gentle change',
    async (gains) => {
      expect(await pairLight(await made(gains))).toMatchObject({
        accepted: false,
        doubt: 'too-far',
      })
    },
  )
})

test('a picture is lit by so much light, to the nearest value', () => {
  const ramp = Uint8Array.from({ length: 188 * 3 }, (_, at) =>
    Math.floor(at / 3),
  )
  for (const gain of [0.7, 0.9, 1, 1.3]) {
    const lit = relit({ data: ramp, width: 188, height: 1 }, [gain, gain, gain])
    for (const [at, value] of ramp.entries()) {
      const expected = inLight(value, gain)
      // Above half of all light, an enlarged value is bent towards white.
      if (gain <= 1 || expected <= 187) expect(lit.data[at]).toBe(expected)
      else expect(lit.data[at]).toBeLessThanOrEqual(expected)
    }
  }
})

/** A value of a screen in so much more light. Written out here once more, from IEC 61966-2-1, 5.2 and 5.3. */
function inLight(value: number, gain: number): number {
  const share = value / 255
  const light =
    gain *
    (share <= 0.04045 ? share / 12.92 : Math.pow((share + 0.055) / 1.055, 2.4))
  const lit =
    light <= 0.0031308
      ? 12.92 * light
      : 1.055 * Math.pow(light, 1 / 2.4) - 0.055
  return Math.min(255, Math.round(255 * lit))
}
