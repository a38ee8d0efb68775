import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { arrangePictures } from '#core/sheets/arrange-pictures'
import type { Rectangle } from '#core/sheets/largest-crop'

const spacing = { gutter: 20, between: 36, caption: 40, leeway: 1.15 }
const room = { left: 48, top: 48, width: 984, height: 860 }
const anyRoom = fc.record({
  left: fc.integer({ min: 0, max: 100 }),
  top: fc.integer({ min: 0, max: 100 }),
  width: fc.integer({ min: 900, max: 2400 }),
  height: fc.integer({ min: 760, max: 3200 }),
})
const anySize = fc.record({
  width: fc.integer({ min: 300, max: 6000 }),
  height: fc.integer({ min: 300, max: 6000 }),
})

function apart(one: Rectangle, other: Rectangle): boolean {
  return (
    one.left + one.width <= other.left ||
    other.left + other.width <= one.left ||
    one.top + one.height <= other.top ||
    other.top + other.height <= one.top
  )
}

describe('a story', () => {
  test('of up to twelve pictures stays in its room, with room for each word, and nothing covers anything', () => {
    fc.assert(
      fc.property(
        anyRoom,
        fc.array(anySize, { minLength: 1, maxLength: 12 }),
        fc.constantFrom({}, { fills: 'width' }, { fills: 'height' } as const),
        (place, pictures, fills) => {
          const places = arrangePictures(
            place,
            { kind: 'story', pictures },
            { ...spacing, ...fills },
          )
          expect(places).toHaveLength(pictures.length)
          const withWords = places.map((one) => ({
            ...one,
            top: one.top - spacing.caption,
            height: one.height + spacing.caption,
          }))
          for (const [index, one] of withWords.entries()) {
            expect(one.left).toBeGreaterThanOrEqual(place.left)
            expect(one.top).toBeGreaterThanOrEqual(place.top)
            expect(one.left + one.width).toBeLessThanOrEqual(
              place.left + place.width,
            )
            expect(one.top + one.height).toBeLessThanOrEqual(
              place.top + place.height,
            )
            expect(Object.values(one).every(Number.isInteger)).toBe(true)
            for (const other of withWords.slice(index + 1)) {
              expect(apart(one, other)).toBe(true)
            }
          }
        },
      ),
      { numRuns: 300 },
    )
  })
})

describe('pairs', () => {
  test('are cut by no more than the leeway, whatever they are to fill', () => {
    fc.assert(
      fc.property(
        anyRoom,
        fc.integer({ min: 1, max: 6 }),
        fc.double({ min: 0.5, max: 2.2, noNaN: true }),
        fc.constantFrom({}, { fills: 'width' }, { fills: 'height' } as const),
        (place, count, ratio, fills) => {
          const size = { width: 1000 * ratio, height: 1000 }
          const places = arrangePictures(
            place,
            {
              kind: 'pairs',
              pairs: Array.from({ length: count }, () => [size, size] as const),
            },
            { ...spacing, ...fills },
          )
          for (const { width, height } of places) {
            // Places are in whole pixels.
            expect((width - 1) / (height + 1) / ratio).toBeLessThan(
              spacing.leeway,
            )
            expect((width + 1) / (height - 1) / ratio).toBeGreaterThan(
              1 / spacing.leeway,
            )
          }
        },
      ),
    )
  })

  test('that are left over for a last row stand in its middle', () => {
    const size = { width: 4, height: 3 }
    const places = arrangePictures(
      { left: 0, top: 0, width: 1000, height: 1000 },
      {
        kind: 'pairs',
        pairs: Array.from({ length: 5 }, () => [size, size] as const),
      },
      spacing,
    )
    const lowest = Math.max(...places.map(({ top }) => top))
    const middleOf = (some: readonly Rectangle[]) =>
      (Math.min(...some.map(({ left }) => left)) +
        Math.max(...some.map(({ left, width }) => left + width))) /
      2
    const last = places.filter(({ top }) => top === lowest)
    expect(last.length).toBeLessThan(places.length / 2)
    expect(Math.abs(middleOf(last) - middleOf(places))).toBeLessThanOrEqual(1)
  })
})

describe('a room', () => {
  const size = { width: 4, height: 3 }
  test.each([
    ['no picture', { kind: 'story' as const, pictures: [] }, room],
    [
      'seven pairs',
      {
        kind: 'pairs' as const,
        pairs: Array.from({ length: 7 }, () => [size, size] as const),
      },
      room,
    ],
    [
      'no height',
      { kind: 'story' as const, pictures: [size] },
      { ...room, height: 20 },
    ],
  ])('for %s is refused', (_name, pictures, place) => {
    expect(() => arrangePictures(place, pictures, spacing)).toThrow(RangeError)
  })
})
