import {
  type Rectangle,
  type Size,
  largestCrop,
} from '#core/sheets/largest-crop'

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
export const paperScale = 2.25

/** Where one picture goes: the part of it that is shown, and the place it fills. */
export type PlannedPicture = {
  /** In upright pixels of the picture; fractions are kept. */
  readonly crop: Rectangle
  /** In whole pixels of the sheet. */
  readonly place: Rectangle
  /** The corner of the place that is left free for its word. */
  readonly label: Rectangle
}

/** A sheet before it is drawn. */
export type SheetPlan = Size & {
  readonly before: PlannedPicture
  readonly after: PlannedPicture
  /** Room for the title. */
  readonly title: Rectangle
}

/** Lengths in pixels; the gap is between the pictures and the title. */
const onScreen = {
  margin: 48,
  gutter: 20,
  gap: 30,
  titleHeight: 84,
  label: { width: 112, height: 40 },
}
type Lengths = typeof onScreen
const onPaper: Lengths = {
  margin: Math.round(onScreen.margin * paperScale),
  gutter: Math.round(onScreen.gutter * paperScale),
  gap: Math.round(onScreen.gap * paperScale),
  titleHeight: Math.round(onScreen.titleHeight * paperScale),
  label: {
    width: Math.round(onScreen.label.width * paperScale),
    height: Math.round(onScreen.label.height * paperScale),
  },
}
/** How far a place may go from the room it has towards the shape of the photos: less is cut off, more stays blank. */
const leeway = 1.15

/**
 * A before/after sheet: two pictures of equal size, side by side or one above the other, whichever cuts off less, with
 * the title below.
 *
 * @param pictures upright sizes of the two photos
 */
export function planSheet(
  shape: SheetShape | PaperShape,
  pictures: { readonly before: Size; readonly after: Size },
): SheetPlan {
  const { sheet, lengths } = isPaper(shape)
    ? { sheet: paperShapes[shape], lengths: onPaper }
    : { sheet: sheetShapes[shape], lengths: onScreen }
  const { margin, gap, titleHeight } = lengths
  const room: Rectangle = {
    left: margin,
    top: margin,
    width: sheet.width - 2 * margin,
    height: sheet.height - 2 * margin - gap - titleHeight,
  }
  const ratio = Math.sqrt(ratioOf(pictures.before) * ratioOf(pictures.after))
  const beside = arranged(room, 2, 1, ratio, lengths)
  const stacked = arranged(room, 1, 2, ratio, lengths)
  const chosen =
    worth(stacked, pictures) > worth(beside, pictures) ? stacked : beside
  const used = around(chosen.before, chosen.after)
  // What stays blank goes evenly above and below the whole, so that it stands in the middle.
  const rise = Math.floor((room.height - used.height) / 2)
  const lifted = (place: Rectangle) => ({ ...place, top: place.top + rise })
  return {
    ...sheet,
    before: planned(pictures.before, lifted(chosen.before), lengths),
    after: planned(pictures.after, lifted(chosen.after), lengths),
    title: {
      left: used.left,
      top: used.top + rise + used.height + gap,
      width: used.width,
      height: titleHeight,
    },
  }
}

/**
 * The plan with everything moved down by half of what the title leaves of its room, so that the whole stands in the
 * middle of the sheet whether the title takes one line or two.
 *
 * @param height of the title as it was set, in pixels
 */
export function centredSheet(plan: SheetPlan, height: number): SheetPlan {
  const fall = Math.max(0, Math.floor((plan.title.height - height) / 2))
  const lower = (place: Rectangle) => ({ ...place, top: place.top + fall })
  const lowered = (picture: PlannedPicture) => ({
    ...picture,
    place: lower(picture.place),
    label: lower(picture.label),
  })
  return {
    ...plan,
    before: lowered(plan.before),
    after: lowered(plan.after),
    title: { ...lower(plan.title), height: plan.title.height - fall },
  }
}

type Places = { readonly before: Rectangle; readonly after: Rectangle }

/** Two equal places in the room, in so many columns and rows, as near to the ratio as the leeway allows. */
function arranged(
  room: Rectangle,
  columns: 1 | 2,
  rows: 1 | 2,
  ratio: number,
  { gutter }: Lengths,
): Places {
  const cell = {
    width: Math.floor((room.width - (columns - 1) * gutter) / columns),
    height: Math.floor((room.height - (rows - 1) * gutter) / rows),
  }
  const own = ratioOf(cell)
  const wanted = Math.min(Math.max(ratio, own / leeway), own * leeway)
  const { width, height } = largestCrop(cell, wanted)
  const size = { width: Math.round(width), height: Math.round(height) }
  const across = size.width * columns + gutter * (columns - 1)
  const left = room.left + Math.floor((room.width - across) / 2)
  const before = { ...size, left, top: room.top }
  return {
    before,
    after: {
      ...size,
      left: columns === 2 ? left + size.width + gutter : left,
      top: rows === 2 ? room.top + size.height + gutter : room.top,
    },
  }
}

/** How much of both photos is shown, and how large. */
function worth(
  places: Places,
  pictures: { readonly before: Size; readonly after: Size },
): number {
  const kept = (picture: Size) => {
    const crop = largestCrop(picture, ratioOf(places.before))
    return (crop.width * crop.height) / (picture.width * picture.height)
  }
  const area = places.before.width * places.before.height
  return kept(pictures.before) * kept(pictures.after) * area
}

function planned(
  picture: Size,
  place: Rectangle,
  { label }: Lengths,
): PlannedPicture {
  return {
    crop: largestCrop(picture, ratioOf(place)),
    place,
    label: {
      ...label,
      left: place.left,
      top: place.top,
    },
  }
}

function around(one: Rectangle, other: Rectangle): Rectangle {
  const left = Math.min(one.left, other.left)
  const top = Math.min(one.top, other.top)
  return {
    left,
    top,
    width: Math.max(one.left + one.width, other.left + other.width) - left,
    height: Math.max(one.top + one.height, other.top + other.height) - top,
  }
}

function ratioOf(size: Size): number {
  return size.width / size.height
}

function isPaper(shape: SheetShape | PaperShape): shape is PaperShape {
  return shape in paperShapes
}
