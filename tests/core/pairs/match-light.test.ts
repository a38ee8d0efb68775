import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { SmallPicture } from '#core/colour/colours-of-pictures'
import { linearLight, screenValue } from '#core/colour/linear-light'
import {
  lightDoubtSentence,
  lightWords,
  matchLight,
  relitValues,
} from '#core/pairs/match-light'

type Rgb = readonly [red: number, green: number, blue: number]

const wall: Rgb = [190, 186, 180]
const floor: Rgb = [128, 112, 96]
const oak: Rgb = [176, 112, 50]
const teal: Rgb = [31, 110, 112]
const cream: Rgb = [214, 200, 170]
const white: Rgb = [228, 224, 216]

/** 48 x 36: a wall above, a floor below, and a piece before them that takes so much of the picture each way. */
function room(
  piece: Rgb,
  share = 0.5,
  light: (x: number) => Rgb = () => [1, 1, 1],
): SmallPicture {
  const [width, height] = [48, 36]
  const rgb = Array.from({ length: width * height }, (_, pixel) => {
    const x = ((pixel % width) + 0.5) / width - 0.5
    const y = (Math.floor(pixel / width) + 0.5) / height - 0.5
    const isPiece = Math.max(Math.abs(x), Math.abs(y)) < share / 2
    const colour = isPiece ? piece : y < 0.2 ? wall : floor
    return colour.map((value, channel) =>
      Math.min(
        255,
        Math.round(
          screenValue(
            Math.min(1, linearLight(value) * (light(x)[channel] ?? 1)),
          ),
        ),
      ),
    )
  }).flat()
  return { width, height, rgb }
}

describe('the light of an after', () => {
  test.each([
    ['darker', [0.8, 0.8, 0.8]],
    ['brighter', [1.3, 1.3, 1.3]],
    ['warmer', [1.1, 1, 0.93]],
    ['cooler and darker', [0.75, 0.8, 0.86]],
  ] as const)('that is %s is told from wall and floor', (_, gains) => {
    const found = matchLight(
      room(oak),
      room(teal, 0.5, () => gains),
    )
    if (!found.accepted) throw new Error(found.doubt)
    for (const [channel, gain] of gains.entries()) {
      // Within what the rounding to whole values makes of colours this dark.
      expect((found.gains[channel] ?? 0) * gain).toBeCloseTo(1, 1.7)
    }
    expect(found.unchanged).toBeGreaterThan(0.8)
  })

  test('that falls off evenly across the picture is still told', () => {
    const found = matchLight(
      room(oak),
      room(teal, 0.5, (x) => {
        const gain = 0.8 * Math.exp(0.4 * x)
        return [gain, gain, gain]
      }),
    )
    if (!found.accepted) throw new Error(found.doubt)
    for (const gain of found.gains) expect(gain).toBeCloseTo(1 / 0.8, 1)
    expect(found.unchanged).toBeGreaterThan(0.8)
  })

  test('is left where a finish fills the picture, for it is not the light', () => {
    expect(matchLight(room(white, 1), room(cream, 1))).toMatchObject({
      accepted: false,
      doubt: 'not-around',
    })
    expect(matchLight(room(oak, 0.95), room(teal, 0.95))).toMatchObject({
      accepted: false,
      doubt: 'little-unchanged',
    })
  })

  test('is left where it is too far off, in brightness or in tint', () => {
    for (const light of [
      [0.6, 0.6, 0.6],
      [0.8, 1, 1.1],
    ] as const) {
      expect(
        matchLight(
          room(oak),
          room(teal, 0.5, () => light),
        ),
      ).toMatchObject({ accepted: false, doubt: 'too-far' })
    }
  })

  test('is left in pictures of nothing, and burnt out ones', () => {
    for (const value of [0, 255]) {
      const nothing = {
        width: 8,
        height: 6,
        rgb: Array.from({ length: 8 * 6 * 3 }, () => value),
      }
      expect(matchLight(nothing, nothing)).toEqual({
        accepted: false,
        doubt: 'little-unchanged',
        unchanged: 0,
      })
    }
  })

  test('is not compared between pictures of two sizes', () => {
    expect(() =>
      matchLight(room(oak), { width: 2, height: 2, rgb: [] }),
    ).toThrow(RangeError)
  })
})

describe('values under another light', () => {
  const anyGain = fc.double({ min: 0.5, max: 1.5, noNaN: true })

  test('keep their order, and black stays black', () => {
    fc.assert(
      fc.property(anyGain, (gain) => {
        const values = relitValues(gain)
        expect(values[0]).toBe(0)
        for (let value = 1; value < 256; value += 1) {
          expect(values[value]).toBeGreaterThanOrEqual(values[value - 1] ?? 0)
        }
      }),
    )
  })

  test('never burn out: under a gain above 1 white stays white, and nothing passes it', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 1.5, noNaN: true }), (gain) => {
        expect(relitValues(gain)[255]).toBe(255)
      }),
    )
  })

  test('are as they were under none', () => {
    expect([...relitValues(1)]).toEqual(
      Array.from({ length: 256 }, (_, n) => n),
    )
  })

  test.each([0.49, 1.51, Number.NaN])(
    'are not made for a gain of %d',
    (gain) => {
      expect(() => relitValues(gain)).toThrow(RangeError)
    },
  )
})

test('what was done, or why nothing, is said in a sentence', () => {
  expect(lightWords([0.9, 0.9, 0.9])).toBe(
    'The after is shown 10 % darker, as floor and wall were before.',
  )
  expect(lightWords([1.12, 1.1, 1.04])).toBe(
    'The after is shown 10 % lighter and a little warmer, as floor and wall were before.',
  )
  expect(lightWords([1.01, 1, 1])).toBe('The light of both was alike already.')
  expect(lightDoubtSentence('too-far')).toMatch(/left as it was/)
})
