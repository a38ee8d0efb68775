import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { likeness, unlikeness } from '#core/photos/likeness'
import { sharpness } from '#core/photos/sharpness'

const anyGrey = fc.array(fc.integer({ min: 0, max: 200 }), {
  minLength: 72,
  maxLength: 72,
})
const digits = fc
  .array(fc.constantFrom(...Array.from('0123456789abcdef')), {
    minLength: 16,
    maxLength: 16,
  })
  .map((one) => one.join(''))

describe('likeness', () => {
  test('of a picture that grows lighter everywhere is all ones, of an even one all noughts', () => {
    const rising = Array.from({ length: 72 }, (_, index) => (index % 9) * 10)
    expect(likeness(rising)).toBe('ffffffffffffffff')
    expect(likeness(rising.map(() => 7))).toBe('0000000000000000')
    expect(() => likeness([1, 2, 3])).toThrow(RangeError)
  })

  test('does not change with the light', () => {
    fc.assert(
      fc.property(anyGrey, fc.integer({ min: 1, max: 50 }), (grey, more) => {
        expect(likeness(grey.map((one) => one + more))).toBe(likeness(grey))
      }),
    )
  })

  test('differs by the number of bits that differ', () => {
    fc.assert(
      fc.property(digits, digits, (one, other) => {
        const bits = (BigInt(`0x${one}`) ^ BigInt(`0x${other}`))
          .toString(2)
          .replaceAll('0', '').length
        expect(unlikeness(one, other)).toBe(bits)
        expect(unlikeness(other, one)).toBe(bits)
        expect(unlikeness(one, one)).toBe(0)
      }),
    )
  })
})

describe('sharpness', () => {
  test('of a dot on an even ground is what the mask gives by hand', () => {
    // A dot of 1 in the middle of 5 x 5: the Laplacian inside is -4 once, 1 four times, 0 four times; mean 0.
    const grey = Array.from({ length: 25 }, (_, index) =>
      index === 12 ? 1 : 0,
    )
    expect(sharpness(grey, 5, 5)).toBeCloseTo((16 + 4) / 9, 12)
  })

  test('of an even picture or an even slope is nothing', () => {
    const slope = Array.from({ length: 42 }, (_, index) => (index % 7) * 5)
    expect(sharpness(slope, 7, 6)).toBe(0)
  })

  test('grows with the square of the contrast', () => {
    fc.assert(
      fc.property(anyGrey, (grey) => {
        const plain = sharpness(grey, 9, 8)
        const doubled = sharpness(
          grey.map((one) => one * 2),
          9,
          8,
        )
        expect(doubled).toBeCloseTo(plain * 4, 6)
      }),
    )
  })

  test('needs an inside', () => {
    expect(() => sharpness([1, 2, 3, 4], 2, 2)).toThrow(RangeError)
  })
})
