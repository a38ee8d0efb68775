import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { ciede2000 } from '#core/colour/ciede2000'
import { labOf } from '#core/photos/colour-grid'
import type { PaperShape, SheetShape } from '#core/sheets/plan-sheet'
import type { SheetDesign, SheetGround } from '#core/sheets/sheet-design'
import type { SheetWords } from '#core/sheets/sheet-words'
import { openPicture } from '#services/renditions/open-picture'
import { drawSheet } from '#services/sheets/draw-sheet'
import { type LaidSheet, laySheet } from '#services/sheets/lay-sheet'
import {
  type SheetPicture,
  pictureCutter,
} from '#services/sheets/sheet-picture'
import { pictureTypesetter } from '#services/sheets/text-picture'

/**
 * Sheets held against pictures of them that somebody has looked at and found right. After a change that is meant to be
 * seen, make them anew with COATBOOK_KEEP_PICTURES=1, and look at each.
 *
 * The measure is CIEDE2000 (`ciede2000.ts`, held against its published data): both pictures are reduced to 360 pixels, and
 * of all tiles of 20 x 20 pixels the one counts that differs most on average. About 1 is just seen in one colour; pictures
 * kept as JPEG, and another edition of the image library, come to less than the bound; a title that moved by 10 pixels, or
 * in another face, to more.
 */
const bound = 2
const tile = 20
const side = 360

const folder = path.join('tests', 'services', 'sheets', 'kept-pictures')
const isKeeping = process.env['COATBOOK_KEEP_PICTURES'] === '1'

const short: SheetWords = {
  title: 'Oak sideboard',
  finish: 'Painted deep teal, with the top stained dark walnut',
  dimensions: '137 x 46 x 86 cm',
  price: '£485',
  workshop: 'Alder Yard',
}
const long: SheetWords = {
  ...short,
  title:
    'A chest of drawers with a very long name, from the old schoolhouse by the river, with its bench and two boxes',
  workshop: 'The workshop at the far end of the yard',
}
const other: SheetWords = {
  title: 'Комод и 食器棚',
  finish: 'Окрашен, верх покрыт морилкой',
  mark: 'A. Y.',
}

type Kept = {
  readonly name: string
  readonly design: SheetDesign
  readonly ground: SheetGround
  readonly shape: SheetShape | PaperShape
  readonly words: SheetWords
  readonly pairs: number
  /** Photos taken upright. */
  readonly isUpright?: boolean
  readonly isStory?: boolean
}

const sheets: readonly Kept[] = [
  {
    name: 'quiet-light-1x1',
    design: 'quiet',
    ground: 'light',
    shape: '1x1',
    words: short,
    pairs: 1,
  },
  {
    name: 'quiet-dark-9x16-upright-long',
    design: 'quiet',
    ground: 'dark',
    shape: '9x16',
    words: long,
    pairs: 1,
    isUpright: true,
  },
  {
    name: 'quiet-light-16x9-story',
    design: 'quiet',
    ground: 'light',
    shape: '16x9',
    words: short,
    pairs: 2,
    isStory: true,
  },
  {
    name: 'bold-light-4x5',
    design: 'bold',
    ground: 'light',
    shape: '4x5',
    words: short,
    pairs: 1,
  },
  {
    name: 'bold-dark-16x9-six',
    design: 'bold',
    ground: 'dark',
    shape: '16x9',
    words: long,
    pairs: 6,
  },
  {
    name: 'bold-dark-16x9-upright',
    design: 'bold',
    ground: 'dark',
    shape: '16x9',
    words: short,
    pairs: 1,
    isUpright: true,
  },
  {
    name: 'bold-light-1x1-no-words',
    design: 'bold',
    ground: 'light',
    shape: '1x1',
    words: {},
    pairs: 1,
  },
  {
    name: 'workshop-card-light-4x5-long',
    design: 'workshop-card',
    ground: 'light',
    shape: '4x5',
    words: long,
    pairs: 1,
  },
  {
    name: 'workshop-card-dark-1x1-five',
    design: 'workshop-card',
    ground: 'dark',
    shape: '1x1',
    words: short,
    pairs: 5,
  },
  {
    name: 'workshop-card-light-a4-other-scripts',
    design: 'workshop-card',
    ground: 'light',
    shape: 'a4',
    words: other,
    pairs: 2,
    isUpright: true,
  },
]

const views = [
  ['01-before-front', '30-after-front'],
  ['02-before-left-three-quarter', '31-after-left-three-quarter'],
  ['03-before-right-three-quarter', '32-after-right-three-quarter'],
  ['04-before-top', '33-after-top'],
  ['05-before-hardware', '34-after-hardware'],
  ['06-before-inside', '35-after-inside'],
] as const

/** A photo of the demo, or the upright middle of it. */
function photo(file: string, isUpright: boolean): SheetPicture {
  const open = () =>
    openPicture(
      path.join('prisma/demo/photos/job-a', `${file}.jpg`),
    ).autoOrient()
  const caption = file.includes('before') ? 'Before' : 'After'
  return isUpright
    ? {
        size: { width: 810, height: 1080 },
        caption,
        open: async () =>
          openPicture(
            await open()
              .extract({ left: 315, top: 0, width: 810, height: 1080 })
              .png()
              .toBuffer(),
          ),
      }
    : {
        size: { width: 1440, height: 1080 },
        caption,
        open: () => Promise.resolve(open()),
      }
}

/** Draws a sheet as it is, or as something makes it. */
async function drawn(
  kept: Kept,
  change: (laid: LaidSheet) => LaidSheet = (laid) => laid,
): Promise<Buffer> {
  const { design, ground, shape, words, pairs, isStory = false } = kept
  const pictures = views
    .slice(0, pairs)
    .flat()
    .map((file) => photo(file, kept.isUpright ?? false))
  const cutter = pictureCutter(pictures, '#ffffff')
  const typesetter = pictureTypesetter()
  const sizes = pictures.map(({ size }) => size)
  const laid = await laySheet({
    shape,
    look: { design, ground, elements: [] },
    pictures: isStory
      ? { kind: 'story', pictures: sizes }
      : {
          kind: 'pairs',
          pairs: sizes.flatMap((size, index) => {
            const next = sizes[index + 1]
            return index % 2 === 0 && next !== undefined
              ? [[size, next] as const]
              : []
          }),
        },
    captions: pictures.map(({ caption }) => caption),
    words,
    typesetter,
    grey: cutter.grey,
  })
  const sheet = await drawSheet(change(laid), { cutter, typesetter })
  return sheet.png().toBuffer()
}

async function reduced(picture: Buffer) {
  const { data, info } = await openPicture(picture)
    .resize({ width: side, height: side, fit: 'inside' })
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true })
  return { data, width: info.width, height: info.height }
}

/** How different two pictures look where they differ most; infinite for pictures of two sizes. */
async function apart(one: Buffer, another: Buffer): Promise<number> {
  const [first, second] = [await reduced(one), await reduced(another)]
  const { width, height } = first
  if (width !== second.width || height !== second.height) return Infinity
  const lab = ({ data }: typeof first, at: number) =>
    labOf(data[at] ?? 0, data[at + 1] ?? 0, data[at + 2] ?? 0)
  let most = 0
  for (let top = 0; top < height; top += tile) {
    for (let left = 0; left < width; left += tile) {
      let sum = 0
      let count = 0
      for (let y = top; y < Math.min(top + tile, height); y += 1) {
        for (let x = left; x < Math.min(left + tile, width); x += 1) {
          const at = 3 * (y * width + x)
          sum += ciede2000(lab(first, at), lab(second, at))
          count += 1
        }
      }
      most = Math.max(most, sum / count)
    }
  }
  return most
}

function kept(name: string): string {
  return path.join(folder, `${name}.jpg`)
}

describe('a sheet looks as it was found right', () => {
  test.each(sheets)('$name', async (sheet) => {
    const picture = await drawn(sheet)
    if (isKeeping) {
      mkdirSync(folder, { recursive: true })
      writeFileSync(
        kept(sheet.name),
        await openPicture(picture)
          .resize({ width: side, height: side, fit: 'inside' })
          .jpeg({ quality: 97, chromaSubsampling: '4:4:4', mozjpeg: true })
          .toBuffer(),
      )
    }
    expect(await apart(picture, readFileSync(kept(sheet.name)))).toBeLessThan(
      bound,
    )
  })
})

describe('a change that can be seen is beyond the bound', () => {
  const titled = (
    laid: LaidSheet,
    change: (title: LaidSheet['words'][number]) => LaidSheet['words'][number],
  ): LaidSheet => ({
    ...laid,
    words: laid.words.map((one) => (one.role === 'title' ? change(one) : one)),
  })
  const lower =
    (pixels: number) =>
    (laid: LaidSheet): LaidSheet =>
      titled(laid, (title) => ({
        ...title,
        place: { ...title.place, top: title.place.top + pixels },
      }))
  const changes: readonly (readonly [
    string,
    (laid: LaidSheet) => LaidSheet,
  ])[] = [
    ['a title moved down by 10 pixels', lower(10)],
    [
      'a title in another face',
      (laid) =>
        titled(laid, (title) => ({
          ...title,
          style: { ...title.style, face: 'sans' },
        })),
    ],
    [
      'a title a tenth smaller',
      (laid) =>
        titled(laid, (title) => ({
          ...title,
          style: { ...title.style, size: Math.round(title.style.size * 0.9) },
        })),
    ],
    [
      'a ground of another colour',
      (laid) => ({ ...laid, colours: { ...laid.colours, ground: '#ecece6' } }),
    ],
    [
      'a picture moved across by 12 pixels',
      (laid) => ({
        ...laid,
        pictures: laid.pictures.map((one) => ({
          ...one,
          place: { ...one.place, left: one.place.left + 12 },
        })),
      }),
    ],
    ['no word on the pictures', (laid) => ({ ...laid, captions: [] })],
  ]

  test.each(changes)('%s', async (_, change) => {
    const [sheet] = sheets
    if (sheet === undefined) throw new Error('there is no sheet')
    const picture = await drawn(sheet, change)
    expect(
      await apart(picture, readFileSync(kept(sheet.name))),
    ).toBeGreaterThan(bound)
  })

  test('and one that cannot is within it: the same sheet as JPEG', async () => {
    const [sheet] = sheets
    if (sheet === undefined) throw new Error('there is no sheet')
    const jpeg = await openPicture(await drawn(sheet))
      .jpeg({ quality: 94, chromaSubsampling: '4:4:4' })
      .toBuffer()
    expect(await apart(jpeg, readFileSync(kept(sheet.name)))).toBeLessThan(
      bound,
    )
  })
})
