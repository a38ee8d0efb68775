import { describe, expect, test } from 'vitest'
import type { GreyPicture } from '#core/sheets/calmness'
import type { Rectangle } from '#core/sheets/largest-crop'
import { sheetDesigns, sheetElements } from '#core/sheets/sheet-design'
import type { SheetWords } from '#core/sheets/sheet-words'
import { laySheet } from '#services/sheets/lay-sheet'
import { pictureTypesetter } from '#services/sheets/text-picture'

const short: SheetWords = {
  title: 'Oak',
  finish: 'Painted deep teal',
  dimensions: '137 x 46 x 86 cm (54 x 18 x 33 3/4 in)',
  price: '£485',
  workshop: 'Alder Yard',
  mark: 'A.Y.',
}
const long: SheetWords = {
  ...short,
  title: 'A chest of drawers with a very long name 食器棚 خزانة Комод '.repeat(
    9,
  ),
  finish:
    'Painted deep teal, with the top stained dark walnut and clear-coated. '.repeat(
      3,
    ),
  workshop: 'The workshop at the far end of the yard behind the alders',
}
const sizes = {
  wide: { width: 1600, height: 1200 },
  tall: { width: 1200, height: 1600 },
}
const calm: GreyPicture = {
  width: 200,
  height: 200,
  data: new Uint8Array(40_000).fill(90),
}
const busy: GreyPicture = {
  ...calm,
  data: Uint8Array.from({ length: 40_000 }, (_, at) => (at % 2) * 255),
}

function apart(one: Rectangle, other: Rectangle): boolean {
  return (
    one.left + one.width <= other.left ||
    other.left + other.width <= one.left ||
    one.top + one.height <= other.top ||
    other.top + other.height <= one.top
  )
}

function laid(
  design: (typeof sheetDesigns)[number],
  shape: '1x1' | '4x5' | '9x16' | '16x9' | 'letter' | 'a4',
  words: SheetWords,
  photos: keyof typeof sizes,
  pairs: number,
  grey = calm,
) {
  return laySheet({
    shape,
    look: { design, ground: 'light', elements: sheetElements },
    pictures: {
      kind: 'pairs',
      pairs: Array.from({ length: pairs }, () => [
        sizes[photos],
        sizes[photos],
      ]),
    },
    captions: Array.from({ length: pairs }, () => ['Before', 'After']).flat(),
    words,
    typesetter: pictureTypesetter(),
    grey: () => Promise.resolve(grey),
  })
}

describe.each(sheetDesigns)('in the design %s', (design) => {
  test.each([
    ['1x1', 1, 'wide'],
    ['1x1', 6, 'tall'],
    ['9x16', 1, 'tall'],
    ['16x9', 6, 'wide'],
    ['16x9', 1, 'tall'],
    ['4x5', 1, 'wide'],
    ['a4', 6, 'wide'],
  ] as const)(
    '%s with %d pairs of %s photos: words fit the sheet and touch neither pictures nor each other, short, long or missing',
    async (shape, pairs, photos) => {
      for (const words of [short, long, {}]) {
        const sheet = await laid(design, shape, words, photos, pairs, busy)
        const places = [
          ...sheet.words.map(({ place }) => place),
          ...sheet.captions.map(({ place }) => place),
          ...(sheet.mark === undefined ? [] : [sheet.mark]),
        ]
        for (const [index, place] of places.entries()) {
          expect(place.left).toBeGreaterThanOrEqual(0)
          expect(place.top).toBeGreaterThanOrEqual(0)
          expect(place.left + place.width).toBeLessThanOrEqual(sheet.width)
          expect(place.top + place.height).toBeLessThanOrEqual(sheet.height)
          for (const other of places.slice(index + 1)) {
            expect(apart(place, other)).toBe(true)
          }
          for (const picture of sheet.pictures) {
            expect(apart(place, picture.place)).toBe(true)
          }
        }
      }
    },
  )
})

test('below several lines there is as much room as below one, whether they end in a deep letter or not', async () => {
  const gaps = await Promise.all(
    ['gg', 'oo'].map(async (end) => {
      const title = `A chest of drawers from the old schoolhouse by the river ${end}`
      const sheet = await laid('quiet', '1x1', { ...short, title }, 'tall', 1)
      const head = sheet.words.find(({ role }) => role === 'title')?.place
      const next = sheet.words.find(
        ({ words }) => words === short.finish,
      )?.place
      if (head === undefined || next === undefined) throw new Error('no words')
      expect(head.height).toBeGreaterThan(80)
      return next.top - head.top
    }),
  )
  expect(gaps[0]).toBe(gaps[1])
})

describe('in the bold design', () => {
  test.each([
    ['1x1', 1, 'wide'],
    ['1x1', 2, 'tall'],
    ['4x5', 1, 'wide'],
    ['4x5', 4, 'wide'],
    ['9x16', 1, 'tall'],
    ['16x9', 1, 'tall'],
    ['16x9', 6, 'tall'],
    ['letter', 3, 'wide'],
    ['a4', 1, 'wide'],
  ] as const)(
    'a sheet %s of %d pairs cuts no more than two sevenths off %s photos, whatever is written on it',
    async (shape, pairs, photos) => {
      for (const words of [short, long, {}]) {
        for (const grey of [calm, busy]) {
          const sheet = await laid('bold', shape, words, photos, pairs, grey)
          const whole = sizes[photos].width * sizes[photos].height
          for (const { crop, place } of sheet.pictures) {
            // Places are in whole pixels.
            const pixel = 1 / Math.min(place.width, place.height)
            expect(1 - (crop.width * crop.height) / whole).toBeLessThan(
              2 / 7 + pixel,
            )
          }
        }
      }
    },
  )

  test('a title grows with its room, but never so that its longest word is broken', async () => {
    const title = 'Oak sideboard'
    const sheet = await laid('bold', '16x9', { ...short, title }, 'tall', 1)
    const [picture] = sheet.pictures
    const head = sheet.words.find(({ role }) => role === 'title')
    if (picture === undefined || head === undefined) throw new Error('no words')
    expect(head.place.left).toBeGreaterThan(picture.place.width)
    expect(head.style.size).toBeGreaterThan(62)
    expect(head.place.height).toBeLessThan(head.style.size * 2.7)
  })
})

describe('in the bold design a picture’s word', () => {
  test('stands in a corner of its picture where that is calm', async () => {
    const sheet = await laid('bold', '1x1', short, 'tall', 1)
    expect(sheet.captions).toHaveLength(2)
    for (const [index, { place }] of sheet.captions.entries()) {
      const picture = sheet.pictures[index]?.place
      expect(picture && apart(place, picture)).toBe(false)
    }
  })

  test('stands beside it where no corner is', async () => {
    const sheet = await laid('bold', '1x1', short, 'tall', 1, busy)
    for (const [index, { place }] of sheet.captions.entries()) {
      const picture = sheet.pictures[index]?.place
      expect(picture && apart(place, picture)).toBe(true)
    }
  })
})
