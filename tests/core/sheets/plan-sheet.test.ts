import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Rectangle } from '#core/sheets/largest-crop'
import {
  type PaperShape,
  type SheetShape,
  centredSheet,
  paperShapes,
  planSheet,
  sheetShapes,
} from '#core/sheets/plan-sheet'

const sizes = { ...sheetShapes, ...paperShapes }
const anyShape = fc.constantFrom<SheetShape | PaperShape>(
  '1x1',
  '4x5',
  '9x16',
  '16x9',
  'letter',
  'a4',
)
const anyPicture = fc.record({
  width: fc.integer({ min: 200, max: 8000 }),
  height: fc.integer({ min: 200, max: 8000 }),
})

function inside(part: Rectangle, whole: { width: number; height: number }) {
  return (
    part.left >= 0 &&
    part.top >= 0 &&
    part.left + part.width <= whole.width &&
    part.top + part.height <= whole.height
  )
}

function apart(one: Rectangle, other: Rectangle): boolean {
  return (
    one.left + one.width <= other.left ||
    other.left + other.width <= one.left ||
    one.top + one.height <= other.top ||
    other.top + other.height <= one.top
  )
}

// Common practice, no source: the pixels of square and wide pictures for listings.
test.each([
  ['1x1', 1080, 1080],
  ['4x5', 1080, 1350],
  ['9x16', 1080, 1920],
  ['16x9', 1920, 1080],
  // 8.5 x 11 in and 210 x 297 mm at 300 dots an inch; 210 / 25.4 * 300 = 2480.3, 297 / 25.4 * 300 = 3507.9.
  ['letter', 2550, 3300],
  ['a4', 2480, 3508],
] as const)('a sheet %s has %d x %d pixels', (shape, width, height) => {
  const size = { width: 4032, height: 3024 }
  expect(planSheet(shape, { before: size, after: size })).toMatchObject({
    width,
    height,
  })
})

describe('whatever the photos', () => {
  test('both pictures are equally large, inside the sheet, and cover neither each other nor the title', () => {
    fc.assert(
      fc.property(anyShape, anyPicture, anyPicture, (shape, before, after) => {
        const plan = planSheet(shape, { before, after })
        const sheet = sizes[shape]
        const { place } = plan.before
        expect(plan.after.place).toMatchObject({
          width: place.width,
          height: place.height,
        })
        const parts = [place, plan.after.place, plan.title]
        for (const part of parts) {
          expect(inside(part, sheet)).toBe(true)
          expect(Object.values(part).every(Number.isInteger)).toBe(true)
        }
        expect(apart(place, plan.after.place)).toBe(true)
        expect(apart(place, plan.title)).toBe(true)
        expect(apart(plan.after.place, plan.title)).toBe(true)
      }),
    )
  })

  test('nothing is stretched: what is cut out has the shape of its place', () => {
    fc.assert(
      fc.property(anyShape, anyPicture, anyPicture, (shape, before, after) => {
        const plan = planSheet(shape, { before, after })
        for (const { crop, place } of [plan.before, plan.after]) {
          expect(crop.width / crop.height).toBeCloseTo(
            place.width / place.height,
            6,
          )
        }
        expect(
          inside(plan.before.crop, {
            width: before.width + 1e-6,
            height: before.height + 1e-6,
          }),
        ).toBe(true)
      }),
    )
  })

  test('photos of one size are shown at one scale', () => {
    fc.assert(
      fc.property(anyShape, anyPicture, (shape, size) => {
        const plan = planSheet(shape, { before: size, after: size })
        expect(plan.before.crop).toEqual(plan.after.crop)
      }),
    )
  })

  test('a title that needs less room lets all sink a little, and nothing leaves the sheet', () => {
    fc.assert(
      fc.property(
        anyShape,
        anyPicture,
        fc.integer({ min: 0, max: 84 }),
        (shape, size, height) => {
          const plan = planSheet(shape, { before: size, after: size })
          const centred = centredSheet(plan, height)
          const fall = centred.before.place.top - plan.before.place.top
          expect(fall).toBeGreaterThanOrEqual(0)
          expect(centred.title.top - plan.title.top).toBe(fall)
          expect(centred.title.height).toBeGreaterThanOrEqual(height)
          expect(inside(centred.title, sizes[shape])).toBe(true)
        },
      ),
    )
  })
})

test('wide photos stand one above the other on a square sheet, tall ones side by side', () => {
  const wide = { width: 4032, height: 3024 }
  const tall = { width: 3024, height: 4032 }
  const above = planSheet('1x1', { before: wide, after: wide })
  expect(above.before.place.left).toBe(above.after.place.left)
  expect(above.before.place.top).toBeLessThan(above.after.place.top)
  const beside = planSheet('1x1', { before: tall, after: tall })
  expect(beside.before.place.top).toBe(beside.after.place.top)
  expect(beside.before.place.left).toBeLessThan(beside.after.place.left)
})
