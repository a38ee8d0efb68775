import {
  type SheetPictures,
  arrangePictures,
} from '#core/sheets/arrange-pictures'
import {
  type Rectangle,
  type Size,
  largestCrop,
} from '#core/sheets/largest-crop'
import type { SheetDesign } from '#core/sheets/sheet-design'

/** The shapes of sheets, with their pixels. */
export const sheetShapes = {
  '1x1': { width: 1080, height: 1080 },
  '4x5': { width: 1080, height: 1350 },
  '9x16': { width: 1080, height: 1920 },
  '16x9': { width: 1920, height: 1080 },
} as const
export type SheetShape = keyof typeof sheetShapes

/**
 * Sheets to be printed, in pixels at 300 dots an inch: US letter is 8.5 x 11 in (ANSI/ASME Y14.1, size A), A4 is 210 x
 * 297 mm (ISO 216).
 */
export const paperShapes = {
  letter: { width: 2550, height: 3300 },
  a4: { width: 2480, height: 3508 },
} as const
export type PaperShape = keyof typeof paperShapes

/** So much larger than on a picture are margins and words on paper, in pixels. */
const paperScale = 2.25

/** How many pixels of a shape a length of 1 comes to: lengths and sizes of letters are given for a picture. */
export function scaleOf(shape: SheetShape | PaperShape): number {
  return isPaper(shape) ? paperScale : 1
}

/** Where one picture goes: the part of it that is shown, the place it fills, and the room for its word. */
export type PlannedPicture = {
  /** In upright pixels of the picture; fractions are kept. */
  readonly crop: Rectangle
  /** In whole pixels of the sheet. */
  readonly place: Rectangle
  /** Above the picture, as wide as it; of no height where its word stands on the picture. */
  readonly caption: Rectangle
}

/** A sheet before its words are set. */
export type SheetPlan = Size & {
  /** In the order of the pictures: before and after of each pair, or the story. */
  readonly pictures: readonly PlannedPicture[]
  /** Room for the words, below the pictures or right of them; of no height where there are none. */
  readonly text: Rectangle
  /** Room for the head above the pictures. */
  readonly head?: Rectangle
  /** The middle of a line around all. */
  readonly frame?: Rectangle
}

/** Lengths of a design, in pixels of a picture. */
type Lengths = {
  /** From the edge to the pictures, and to the words. */
  readonly margin: number
  readonly textMargin: number
  readonly gutter: number
  readonly between: number
  /** Between the pictures and the words. */
  readonly gap: number
  readonly caption: number
  readonly leeway: number
}

const designs: Readonly<Record<SheetDesign, Lengths>> = {
  quiet: {
    margin: 48,
    textMargin: 48,
    gutter: 20,
    between: 36,
    gap: 30,
    caption: 42,
    leeway: 1.4,
  },
  bold: {
    margin: 0,
    textMargin: 48,
    gutter: 8,
    between: 24,
    gap: 40,
    caption: 54,
    leeway: 1.4,
  },
  'workshop-card': {
    margin: 64,
    textMargin: 64,
    gutter: 16,
    between: 32,
    gap: 26,
    caption: 40,
    leeway: 1.25,
  },
}
/** Of a card: from the edge to the line around it, in pixels of a picture. */
const frameInset = 30

/** The least that words beside pictures have of the width. */
const wordsBeside = 0.25
/** Pictures that leave less than this at their sides stand over words that keep their own margin, in pixels of a picture. */
const seenAtSide = 24

/** What a plan is made for. */
export type SheetBrief = {
  readonly shape: SheetShape | PaperShape
  readonly design: SheetDesign
  readonly pictures: SheetPictures
  /** The least that the words need, in pixels; 0: there are none. */
  readonly textHeight: number
  /** Where the words stand; beside the pictures in the bold design only. */
  readonly textPlace?: 'below' | 'beside'
  /** What the head needs, in pixels; 0: there is none. */
  readonly headHeight?: number
  /** Whether the pictures' words stand above them, or on them where they are calm. */
  readonly captions: 'above' | 'on-picture'
}

/** How wide words may be on a sheet, in pixels. */
export function textWidth(
  shape: SheetShape | PaperShape,
  design: SheetDesign,
): number {
  const scale = scaleOf(shape)
  return (
    sizeOf(shape).width - 2 * Math.round(designs[design].textMargin * scale)
  )
}

/**
 * Where everything goes on a sheet: the pictures, the words below them, and a head above.
 *
 * In the bold design the words get what the pictures leave, which reach from side to side, or from top to bottom where the
 * words stand beside them; in the others what is left stays blank, evenly above and below, so that the whole stands in the
 * middle.
 *
 * @throws RangeError when the words leave no room for the pictures
 */
export function planSheet(brief: SheetBrief): SheetPlan {
  return brief.textPlace === 'beside' && brief.textHeight > 0
    ? planBeside(brief)
    : planBelow(brief)
}

function planBelow({
  shape,
  design,
  pictures,
  textHeight,
  headHeight = 0,
  captions,
}: SheetBrief): SheetPlan {
  const sheet = sizeOf(shape)
  const lengths = scaled(designs[design], scaleOf(shape))
  const { margin, textMargin } = lengths
  const gap = textHeight > 0 ? lengths.gap : 0
  const headGap = headHeight > 0 ? lengths.gap : 0
  const foot = textHeight > 0 ? textMargin : margin
  const room: Rectangle = {
    left: margin,
    top: margin + headHeight + headGap,
    width: sheet.width - 2 * margin,
    height:
      sheet.height - margin - headHeight - headGap - gap - textHeight - foot,
  }
  const caption = captions === 'above' ? lengths.caption : 0
  const places = arrangePictures(room, pictures, {
    ...lengths,
    caption,
    ...(design === 'bold' && { fills: 'width' }),
  })
  const bottom = Math.max(...places.map(({ top, height }) => top + height))
  const spare = room.top + room.height - bottom
  const rise = design === 'bold' && textHeight > 0 ? 0 : Math.floor(spare / 2)
  const lifted = places.map((place) => ({ ...place, top: place.top + rise }))
  const left = Math.min(...lifted.map((place) => place.left))
  const right = Math.max(...lifted.map((place) => place.left + place.width))
  const textTop = bottom + rise + gap
  const isFull = left < seenAtSide * scaleOf(shape)
  const text = {
    left: isFull ? textMargin : left,
    top: textTop,
    width: isFull ? sheet.width - 2 * textMargin : right - left,
    height: design === 'bold' ? sheet.height - foot - textTop : textHeight,
  }
  return {
    ...sheet,
    pictures: planned(lifted, pictures, caption),
    text: textHeight > 0 ? text : { ...text, height: 0 },
    ...(headHeight > 0 && {
      head: {
        left,
        top: margin + rise,
        width: right - left,
        height: headHeight,
      },
    }),
    ...(design === 'workshop-card' && { frame: frameOf(shape) }),
  }
}

/** Pictures from the left edge on, as high as the sheet, and the words right of them. */
function planBeside({
  shape,
  design,
  pictures,
  captions,
}: SheetBrief): SheetPlan {
  const sheet = sizeOf(shape)
  const lengths = scaled(designs[design], scaleOf(shape))
  const { margin, textMargin } = lengths
  const least = Math.round(sheet.width * wordsBeside)
  const caption = captions === 'above' ? lengths.caption : 0
  const room: Rectangle = {
    left: margin,
    top: margin,
    width: sheet.width - margin - 2 * textMargin - least,
    height: sheet.height - 2 * margin,
  }
  const places = arrangePictures(room, pictures, {
    ...lengths,
    caption,
    fills: 'height',
  })
  const aside = Math.min(...places.map(({ left }) => left)) - room.left
  const above =
    Math.max(...places.map(({ top, height }) => top + height)) - room.top
  const moved = places.map((place) => ({
    ...place,
    left: place.left - aside,
    top: place.top + Math.floor((room.height - above) / 2),
  }))
  const right = Math.max(...moved.map(({ left, width }) => left + width))
  const left = right + textMargin
  return {
    ...sheet,
    pictures: planned(moved, pictures, caption),
    text: {
      left,
      top: textMargin,
      width: sheet.width - textMargin - left,
      height: sheet.height - 2 * textMargin,
    },
  }
}

function planned(
  places: readonly Rectangle[],
  pictures: SheetPictures,
  caption: number,
): readonly PlannedPicture[] {
  const sizes =
    pictures.kind === 'pairs' ? pictures.pairs.flat() : pictures.pictures
  return places.map((place, index) => ({
    crop: largestCrop(sizes[index] ?? place, place.width / place.height),
    place,
    caption: {
      left: place.left,
      top: place.top - caption,
      width: place.width,
      height: caption,
    },
  }))
}

function frameOf(shape: SheetShape | PaperShape): Rectangle {
  const { width, height } = sizeOf(shape)
  const inset = Math.round(frameInset * scaleOf(shape))
  return {
    left: inset,
    top: inset,
    width: width - 2 * inset,
    height: height - 2 * inset,
  }
}

function scaled(lengths: Lengths, scale: number): Lengths {
  return {
    margin: Math.round(lengths.margin * scale),
    textMargin: Math.round(lengths.textMargin * scale),
    gutter: Math.round(lengths.gutter * scale),
    between: Math.round(lengths.between * scale),
    gap: Math.round(lengths.gap * scale),
    caption: Math.round(lengths.caption * scale),
    leeway: lengths.leeway,
  }
}

function sizeOf(shape: SheetShape | PaperShape): Size {
  return isPaper(shape) ? paperShapes[shape] : sheetShapes[shape]
}

function isPaper(shape: SheetShape | PaperShape): shape is PaperShape {
  return shape in paperShapes
}
