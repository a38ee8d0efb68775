import 'server-only'
import { type SheetPictures, worth } from '#core/sheets/arrange-pictures'
import { type GreyPicture, calmestCorner } from '#core/sheets/calmness'
import type { Rectangle, Size } from '#core/sheets/largest-crop'
import {
  type PaperShape,
  type PlannedPicture,
  type SheetPlan,
  type SheetShape,
  planSheet,
  scaleOf,
  sheetShapes,
  textWidth,
} from '#core/sheets/plan-sheet'
import {
  type SheetColours,
  type SheetLook,
  sheetColours,
} from '#core/sheets/sheet-design'
import type { SheetWords } from '#core/sheets/sheet-words'
import { english } from '#core/write-ups/english'
import {
  type LaidRows,
  type Row,
  type SetWords,
  fitRows,
  lineSize,
} from '#services/sheets/lay-rows'
import { type RowsBrief, footRows, headRows } from '#services/sheets/sheet-rows'
import {
  type Typesetter,
  settableWords,
  shortened,
} from '#services/sheets/typesetter'

/** A sheet with everything in its place, to be drawn or printed. */
export type LaidSheet = Size & {
  readonly colours: SheetColours
  readonly pictures: readonly PlannedPicture[]
  /** Filled with a colour, above the pictures and below the words: rules, frames, grounds of words on pictures. */
  readonly fills: readonly {
    readonly place: Rectangle
    readonly colour: string
  }[]
  readonly words: readonly SetWords[]
  /** The words of the pictures, in the order of the pictures. */
  readonly captions: readonly SetWords[]
  readonly mark?: Rectangle
}

/** What a sheet is laid from. */
export type LayingBrief = {
  readonly shape: SheetShape | PaperShape
  readonly look: Omit<SheetLook, 'light'>
  readonly pictures: SheetPictures
  /** A word for each picture. */
  readonly captions: readonly string[]
  /** Whether these words stand above their pictures whatever the design, as they change while it is looked at. */
  readonly captionsStay?: boolean
  readonly words: SheetWords
  /** The own mark as a picture, by its size. */
  readonly mark?: Size
  readonly typesetter: Typesetter
  /** What is shown of a picture, in greys at a quarter of its size there. */
  readonly grey: (
    planned: PlannedPicture,
    index: number,
  ) => Promise<GreyPicture>
}

/** The scales at which words are tried, from the designed size down, and for letters that grow with their room. */
const scales = [1, 0.92, 0.84, 0.76, 0.68, 0.6]
const growing = [2.6, 2.3, 2, 1.75, 1.5, 1.3, 1.15, ...scales]
/** Words take at most so much of the height. */
const mostText = { quiet: 0.3, bold: 0.34, 'workshop-card': 0.36 } as const
const quarter = 4

/**
 * Lays a sheet: its words are set first, the pictures get the rest. In the bold design a picture's word stands in the
 * calmest corner of it; where one of the pictures has none that is calm, all words stand above their pictures.
 */
export async function laySheet(brief: LayingBrief): Promise<LaidSheet> {
  if (brief.look.design !== 'bold' || brief.captionsStay === true) {
    return layWith(brief, 'above')
  }
  const laid = await layWith(brief, 'on-picture')
  const onPictures = await captionsOnPictures(brief, laid)
  if (onPictures === undefined) return layWith(brief, 'above')
  return {
    ...laid,
    captions: onPictures.map(({ words }) => words),
    fills: [
      ...laid.fills,
      ...onPictures.map(({ plate }) => ({
        place: plate,
        colour: laid.colours.ground,
      })),
    ],
  }
}

async function layWith(
  brief: LayingBrief,
  captions: 'above' | 'on-picture',
): Promise<LaidSheet> {
  const { shape, look, typesetter } = brief
  const { design } = look
  const pixels = scaleOf(shape)
  const colours = sheetColours(look, !(shape in sheetShapes))
  const rowsBrief: RowsBrief = {
    design,
    colours,
    words: settable(brief.words),
    ...(brief.mark !== undefined && { mark: brief.mark }),
    pixels,
    names: {
      finish: english.sheet.finishHead,
      dimensions: english.sheet.sizeHead,
      price: english.sheet.priceHead,
    },
  }
  const foot = (scale: number) => footRows(rowsBrief, scale)
  const head = (scale: number) => headRows(rowsBrief, scale)
  const rule = Math.max(1, Math.round(1.5 * pixels))
  const { height } = planSheet({
    shape,
    design,
    pictures: brief.pictures,
    textHeight: 0,
    captions,
  })
  const most = Math.round(height * mostText[design])
  const setIn = (
    rows: (scale: number) => readonly Row[],
    box: Rectangle,
    tried: readonly number[] = scales,
  ) => fitRows(rows, tried, box, typesetter, rule)
  const draft = (width: number, part: (scale: number) => readonly Row[]) =>
    setIn(part, { left: 0, top: 0, width, height: most })
  const planned = (headHeight: number, textHeight: number) =>
    planSheet({
      shape,
      design,
      pictures: brief.pictures,
      textHeight,
      headHeight,
      captions,
    })
  const width = textWidth(shape, design)
  let heights = {
    head: (await draft(width, head)).height,
    text: (await draft(width, foot)).height,
  }
  let plan = planned(heights.head, heights.text)
  // Narrower pictures make narrower lines, and more of them.
  for (let round = 0; round < 2 && plan.text.width < width; round += 1) {
    heights = {
      head: (await draft(plan.text.width, head)).height,
      text: (await draft(plan.text.width, foot)).height,
    }
    plan = planned(heights.head, heights.text)
  }
  if (design === 'bold' && plan.width > plan.height) {
    const beside = planSheet({
      shape,
      design,
      pictures: brief.pictures,
      textHeight: heights.text,
      textPlace: 'beside',
      captions,
    })
    if (shown(beside, brief.pictures) > shown(plan, brief.pictures)) {
      plan = beside
    }
  }
  const above = plan.head === undefined ? noRows : await setIn(head, plan.head)
  const below =
    plan.text.height === 0
      ? noRows
      : await setIn(
          foot,
          plan.text,
          design === 'bold'
            ? await growingFor(
                rowsBrief.words.title,
                foot(1),
                plan.text.width,
                typesetter,
              )
            : scales,
        )
  const mark = below.picture ?? above.picture
  return {
    width: plan.width,
    height: plan.height,
    colours,
    pictures: plan.pictures,
    fills: [...above.rules, ...below.rules, ...framed(plan, rule)].map(
      (place) => ({ place, colour: colours.line }),
    ),
    words: [...above.words, ...inMiddle(below, plan, design === 'bold').words],
    captions:
      captions === 'above'
        ? await captionsAbove(brief, plan, colours, pixels)
        : [],
    ...(mark !== undefined && {
      mark:
        below.picture === undefined
          ? mark
          : (inMiddle(below, plan, design === 'bold').picture ?? mark),
    }),
  }
}

/** How much a plan shows of the pictures, and how large. */
function shown(plan: SheetPlan, pictures: SheetPictures): number {
  return worth(
    plan.pictures.map(({ place }) => place),
    pictures.kind === 'pairs' ? pictures.pairs.flat() : pictures.pictures,
  )
}

/** A long title has no use for the largest letters, and no title for letters that break its longest word. */
async function growingFor(
  title = '',
  rows: readonly Row[],
  width: number,
  typesetter: Typesetter,
): Promise<readonly number[]> {
  const style = rows
    .flatMap((row) =>
      row.kind === 'ends' && row.left !== undefined && 'role' in row.left
        ? row.left
        : [],
    )
    .find(({ role }) => role === 'title')?.style
  const words = Array.from(
    new Intl.Segmenter(undefined, { granularity: 'word' }).segment(title),
    ({ segment }) => segment,
  )
  const longest = words.toSorted((one, other) => other.length - one.length)[0]
  const widest =
    style === undefined || longest === undefined
      ? 0
      : (await lineSize({ words: longest, style, role: 'title' }, typesetter))
          .width
  return growing.filter(
    (scale) =>
      scale <= 1 || (scale * title.length <= 90 && scale * widest <= width),
  )
}

const noRows: LaidRows = { height: 0, words: [], rules: [] }

/** Rows moved to the middle of a box that they do not fill. */
function inMiddle(
  rows: LaidRows,
  { text }: SheetPlan,
  isCentred: boolean,
): LaidRows {
  const fall = isCentred
    ? Math.max(0, Math.floor((text.height - rows.height) / 2))
    : 0
  const lower = (place: Rectangle) => ({ ...place, top: place.top + fall })
  return {
    ...rows,
    words: rows.words.map((one) => ({ ...one, place: lower(one.place) })),
    ...(rows.picture !== undefined && { picture: lower(rows.picture) }),
  }
}

/** The four sides of a line around all. */
function framed({ frame }: SheetPlan, thickness: number): readonly Rectangle[] {
  if (frame === undefined) return []
  const { left, top, width, height } = frame
  const across = { left, width, height: thickness }
  const down = { top, width: thickness, height }
  return [
    { ...across, top },
    { ...across, top: top + height - thickness },
    { ...down, left },
    { ...down, left: left + width - thickness },
  ]
}

const captionSize = 24
/** More are never wider than a sheet. */
const captionLetters = 120
const captionPadding = 12

async function captionsAbove(
  { captions, typesetter, look }: LayingBrief,
  plan: SheetPlan,
  colours: SheetColours,
  pixels: number,
): Promise<readonly SetWords[]> {
  const indent = look.design === 'bold' ? captionPadding * pixels : 0
  return Promise.all(
    plan.pictures.map(async ({ caption }, index) => {
      const words = await fittingLine(
        captions[index] ?? '',
        caption.width - 2 * indent,
        colours.softInk,
        typesetter,
        pixels,
      )
      return {
        ...words,
        place: {
          ...words.place,
          left: Math.round(caption.left + indent),
          top: Math.round(
            caption.top + caption.height - words.place.height - 8 * pixels,
          ),
        },
      }
    }),
  )
}

/** Each word in the calmest corner of its picture, on a ground of its own; undefined where one has none. */
async function captionsOnPictures(
  { captions, typesetter, grey, shape }: LayingBrief,
  laid: LaidSheet,
): Promise<
  readonly { readonly words: SetWords; readonly plate: Rectangle }[] | undefined
> {
  const pixels = scaleOf(shape)
  const padding = Math.round(captionPadding * pixels)
  const found: { words: SetWords; plate: Rectangle }[] = []
  for (const [index, planned] of laid.pictures.entries()) {
    const { place } = planned
    const words = await fittingLine(
      captions[index] ?? '',
      place.width - 2 * padding,
      laid.colours.ink,
      typesetter,
      pixels,
    )
    const size = {
      width: words.place.width + 2 * padding,
      height: words.place.height + 2 * padding,
    }
    const corner = calmestCorner(await grey(planned, index), {
      width: size.width / quarter,
      height: size.height / quarter,
    })
    if (corner === undefined) return undefined
    const plate = {
      ...size,
      left:
        corner.left === 0 ? place.left : place.left + place.width - size.width,
      top:
        corner.top === 0 ? place.top : place.top + place.height - size.height,
    }
    found.push({
      plate,
      words: {
        ...words,
        place: {
          ...words.place,
          left: plate.left + padding,
          top: plate.top + padding,
        },
      },
    })
  }
  return found
}

/** One line of a caption, with fewer letters where it is wider than its picture. */
async function fittingLine(
  caption: string,
  width: number,
  colour: string,
  typesetter: Typesetter,
  pixels: number,
): Promise<SetWords> {
  const style = {
    face: 'sans' as const,
    size: Math.round(captionSize * pixels),
    colour,
  }
  let words = settableWords(caption).slice(0, captionLetters) || '·'
  for (let round = 0; round < 40; round += 1) {
    const line = { words, style, role: 'text' as const }
    const size = await lineSize(line, typesetter)
    if (size.width <= width || words.length < 3) {
      return { ...line, place: { left: 0, top: 0, ...size } }
    }
    words = shortened(words)
  }
  throw new RangeError(`fittingLine: expected room for a line, got ${width}`)
}

function settable(words: SheetWords): SheetWords {
  return Object.fromEntries(
    Object.entries(words)
      .map(([element, said]) => [element, cutTo(settableWords(said))] as const)
      .filter(([, said]) => said !== ''),
  )
}

/** No sheet has room for more, and the text engine none for lines without end. */
const mostLetters = 220

function cutTo(words: string): string {
  if (words.length <= mostLetters) return words
  const letters = Array.from(
    new Intl.Segmenter().segment(words.slice(0, 4 * mostLetters)),
    ({ segment }) => segment,
  )
  return `${letters.slice(0, mostLetters).join('').trimEnd()}…`
}
