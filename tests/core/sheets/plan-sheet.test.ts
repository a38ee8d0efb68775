import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Rectangle, Size } from '#core/sheets/largest-crop'
import {
  type PaperShape,
  type SheetShape,
  paperShapes,
  planSheet,
  sheetShapes,
} from '#core/sheets/plan-sheet'
import { sheetDesigns } from '#core/sheets/sheet-design'

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

const anyDesign = fc.constantFrom(...sheetDesigns)
const anyBrief = fc.record({
  shape: anyShape,
  design: anyDesign,
  pairs: fc.array(fc.tuple(anyPicture, anyPicture), {
    minLength: 1,
    maxLength: 6,
  }),
  textShare: fc.double({ min: 0, max: 0.35, noNaN: true }),
  captions: fc.constantFrom('above' as const, 'on-picture' as const),
})

function pairOf(shape: SheetShape | PaperShape, size: Size) {
  return planSheet({
    shape,
    design: 'quiet',
    pictures: { kind: 'pairs', pairs: [[size, size]] },
    textHeight: 84,
    captions: 'above',
  })
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
  expect(pairOf(shape, { width: 4032, height: 3024 })).toMatchObject({
    width,
    height,
  })
})

describe('whatever the photos, the design and the words', () => {
  test('pictures are equally large, in whole pixels, inside the sheet, and cover neither each other nor words', () => {
    fc.assert(
      fc.property(anyBrief, ({ shape, pairs, textShare, ...brief }) => {
        const sheet = sizes[shape]
        const plan = planSheet({
          ...brief,
          shape,
          pictures: { kind: 'pairs', pairs },
          textHeight: Math.round(sheet.height * textShare),
        })
        expect(plan.pictures).toHaveLength(pairs.length * 2)
        const [first] = plan.pictures
        for (const { place } of plan.pictures) {
          expect(place).toMatchObject({
            width: first?.place.width,
            height: first?.place.height,
          })
        }
        const taken = plan.pictures.flatMap(({ place, caption }) =>
          caption.height > 0 ? [place, caption] : [place],
        )
        const parts = plan.text.height > 0 ? [...taken, plan.text] : taken
        for (const [index, part] of parts.entries()) {
          expect(inside(part, sheet)).toBe(true)
          expect(Object.values(part).every(Number.isInteger)).toBe(true)
          for (const other of parts.slice(index + 1)) {
            expect(apart(part, other)).toBe(true)
          }
        }
      }),
      { numRuns: 300 },
    )
  })

  test('nothing is stretched: what is cut out has the shape of its place and lies in the photo', () => {
    fc.assert(
      fc.property(anyBrief, ({ shape, pairs, ...brief }) => {
        const plan = planSheet({
          ...brief,
          shape,
          pictures: { kind: 'pairs', pairs },
          textHeight: 100,
        })
        for (const [index, size] of pairs.flat().entries()) {
          const planned = plan.pictures[index]
          if (planned === undefined) throw new Error('no place for it')
          const { crop, place } = planned
          expect(crop.width / crop.height).toBeCloseTo(
            place.width / place.height,
            6,
          )
          expect(
            inside(crop, {
              width: size.width + 1e-6,
              height: size.height + 1e-6,
            }),
          ).toBe(true)
        }
      }),
    )
  })

  test('no more than two sevenths of a photo are cut off, and the bold design reaches from side to side unless more would be', () => {
    fc.assert(
      fc.property(
        anyBrief,
        anyPicture,
        fc.constantFrom('below' as const, 'beside' as const),
        ({ shape, design, pairs, textShare, captions }, size, textPlace) => {
          const sheet = sizes[shape]
          const isBeside = textPlace === 'beside' && sheet.width > sheet.height
          const plan = planSheet({
            shape,
            design: isBeside ? 'bold' : design,
            pictures: {
              kind: 'pairs',
              pairs: pairs.map(() => [size, size] as const),
            },
            textHeight: Math.round(sheet.height * textShare),
            ...(isBeside && { textPlace }),
            captions,
          })
          const lefts = plan.pictures.map(({ place }) => place.left)
          const rights = plan.pictures.map(
            ({ place }) => place.left + place.width,
          )
          const blank = sheet.width - Math.max(...rights) + Math.min(...lefts)
          for (const { crop, place } of plan.pictures) {
            const cut =
              1 - (crop.width * crop.height) / (size.width * size.height)
            // Places are in whole pixels.
            const pixel = 1 / Math.min(place.width, place.height)
            expect(cut).toBeLessThan(2 / 7 + pixel)
            if (design === 'bold' && !isBeside && blank > 12) {
              expect(cut).toBeGreaterThan(2 / 7 - pixel)
            }
          }
        },
      ),
      { numRuns: 300 },
    )
  })
})

test('beside the words the pictures of the bold design reach from the left edge on, and from top to bottom', () => {
  const size = { width: 3024, height: 4032 }
  const { pictures, text, width, height } = planSheet({
    shape: '16x9',
    design: 'bold',
    pictures: { kind: 'pairs', pairs: [[size, size]] },
    textHeight: 300,
    textPlace: 'beside',
    captions: 'on-picture',
  })
  const [before, after] = pictures.map(({ place }) => place)
  expect(before).toMatchObject({ left: 0, top: 0, height })
  expect(after).toMatchObject({ top: 0, height })
  const right = (after?.left ?? 0) + (after?.width ?? 0)
  expect(text.left).toBeGreaterThan(right)
  expect(text.width).toBeGreaterThanOrEqual(width / 4)
})

test('wide photos stand one above the other on a square sheet, tall ones side by side', () => {
  const wide = pairOf('1x1', { width: 4032, height: 3024 }).pictures
  const tall = pairOf('1x1', { width: 3024, height: 4032 }).pictures
  const places = (pictures: typeof wide) => pictures.map(({ place }) => place)
  const [above, below] = places(wide)
  expect(above?.left).toBe(below?.left)
  expect(above?.top).toBeLessThan(below?.top ?? 0)
  const [left, right] = places(tall)
  expect(left?.top).toBe(right?.top)
  expect(left?.left).toBeLessThan(right?.left ?? 0)
})
