import {
  type Rectangle,
  type Size,
  largestCrop,
} from '#core/sheets/largest-crop'

/** Lengths that pictures keep to, in pixels. */
export type Spacing = {
  /** Between the pictures of one pair, and of a story. */
  readonly gutter: number
  /** Between pairs. */
  readonly between: number
  /** Room above each picture for its word; 0 where it stands elsewhere. */
  readonly caption: number
  /** How far a place may go from the shape of the photos, by cutting them; what is left of the room stays blank. */
  readonly leeway: number
  /**
   * Whether places reach from side to side, or from top to bottom, of their room wherever the leeway allows it; another
   * arrangement must then show a good deal more to be taken.
   */
  readonly fills?: 'width' | 'height'
}

/** The pictures of a sheet, by their upright sizes: up to six pairs, or one story in its order. */
export type SheetPictures =
  | {
      readonly kind: 'pairs'
      readonly pairs: readonly (readonly [before: Size, after: Size])[]
    }
  | {
      readonly kind: 'story'
      readonly pictures: readonly Size[]
      /** Whether all are to be equally large; else its ends may be larger than what lies between. */
      readonly isEqual?: boolean
    }

/** The most pairs that one sheet shows. */
export const mostPairs = 6

/** Large pictures first and small ones below is a worse order than that of the work, by so much. */
const outOfOrder = 0.75
/** And pictures that stop short of the edges that they are to reach, by so much. */
const stopsShort = 0.7

/**
 * Places for the pictures of a sheet, in whole pixels, in the order of the pictures: of all arrangements the one that shows
 * most of the photos and shows it largest. It stands in the middle of the room across and at its top.
 *
 * @returns one place for each picture; before and after of all pairs are equally large
 * @throws RangeError with no picture, with more than six pairs, or in a room that is too small for them
 */
export function arrangePictures(
  room: Rectangle,
  pictures: SheetPictures,
  spacing: Spacing,
): readonly Rectangle[] {
  const sizes =
    pictures.kind === 'pairs' ? pictures.pairs.flat() : pictures.pictures
  if (sizes.length === 0) {
    throw new RangeError('arrangePictures: expected a picture, got none')
  }
  if (pictures.kind === 'pairs' && pictures.pairs.length > mostPairs) {
    throw new RangeError(
      `arrangePictures: expected at most ${mostPairs} pairs, got ${pictures.pairs.length}`,
    )
  }
  const ratio = Math.exp(
    sizes.reduce((sum, size) => sum + Math.log(size.width / size.height), 0) /
      sizes.length,
  )
  const arrangements =
    pictures.kind === 'pairs'
      ? pairArrangements(room, pictures.pairs.length, ratio, spacing)
      : storyArrangements(room, pictures, ratio, spacing)
  const best = arrangements
    .filter(({ places }) =>
      places.every(({ width, height }) => width >= 8 && height >= 8),
    )
    .map((one) => ({ ...one, worth: worth(one.places, sizes) * one.weight }))
    .toSorted((one, other) => other.worth - one.worth)
    .at(0)
  if (best === undefined) {
    throw new RangeError(
      `arrangePictures: expected room for ${sizes.length} pictures, got ${room.width} x ${room.height}`,
    )
  }
  return centred(best.places, room)
}

type Arrangement = {
  readonly places: readonly Rectangle[]
  readonly weight: number
}

/** Pairs in columns and rows; before and after beside each other or one above the other. */
function pairArrangements(
  room: Rectangle,
  count: number,
  ratio: number,
  spacing: Spacing,
): readonly Arrangement[] {
  const { gutter, between } = spacing
  return upTo(count).flatMap((columns) =>
    [true, false].map((beside) => {
      const rows = Math.ceil(count / columns)
      const [across, down] = beside ? [2, 1] : [1, 2]
      const cell = cellOf(
        {
          width:
            (room.width -
              (columns - 1) * between -
              columns * (across - 1) * gutter) /
            (columns * across),
          height:
            (room.height - (rows - 1) * between - rows * (down - 1) * gutter) /
            (rows * down),
        },
        ratio,
        spacing,
      )
      const step = across * cell.width + (across - 1) * gutter + between
      const places = upTo(count).flatMap((one) => {
        const row = Math.floor((one - 1) / columns)
        const column = (one - 1) % columns
        // A row that is not full stands in the middle.
        const missing = Math.max(0, (row + 1) * columns - count)
        const left = column * step + Math.floor((missing * step) / 2)
        const top =
          row * (down * cell.outer + (down - 1) * gutter + between) +
          spacing.caption
        const { width, height } = cell
        return [
          { left, top, width, height },
          beside
            ? { left: left + width + gutter, top, width, height }
            : { left, top: top + cell.outer + gutter, width, height },
        ]
      })
      return {
        places,
        weight: (count / (rows * columns)) ** 2 * cell.weight,
      }
    }),
  )
}

/** A story in rows; or its ends large and what lies between small. */
function storyArrangements(
  room: Rectangle,
  story: Extract<SheetPictures, { kind: 'story' }>,
  ratio: number,
  spacing: Spacing,
): readonly Arrangement[] {
  const count = story.pictures.length
  const grids = upTo(count).map((columns) =>
    gridOf(room, count, columns, ratio, spacing),
  )
  if (count < 3 || story.isEqual === true) return grids
  return [
    ...grids,
    { places: endsAbove(room, count, ratio, spacing), weight: 1 },
    { places: endsBeside(room, count, ratio, spacing), weight: 1 },
    { places: endsFirst(room, count, ratio, spacing), weight: outOfOrder },
  ]
}

function gridOf(
  room: Size,
  count: number,
  columns: number,
  ratio: number,
  spacing: Spacing,
): Arrangement {
  const { gutter, caption } = spacing
  const rows = Math.ceil(count / columns)
  const { width, height, outer, weight } = cellOf(
    {
      width: (room.width - (columns - 1) * gutter) / columns,
      height: (room.height - (rows - 1) * gutter) / rows,
    },
    ratio,
    spacing,
  )
  return {
    places: upTo(count).map((one) => ({
      left: ((one - 1) % columns) * (width + gutter),
      top: Math.floor((one - 1) / columns) * (outer + gutter) + caption,
      width,
      height,
    })),
    // A row that is not full leaves a hole.
    weight: (count / (rows * columns)) ** 4 * weight,
  }
}

/** The first above, the last below, both across the whole; between them the others in a row. */
function endsAbove(
  room: Size,
  count: number,
  ratio: number,
  { gutter, caption, leeway }: Spacing,
): readonly Rectangle[] {
  const middle = count - 2
  const wide = ratio * leeway
  const free =
    room.height -
    2 * gutter -
    3 * caption +
    ((middle - 1) * gutter) / (middle * wide)
  const width = Math.floor(
    Math.min(room.width, (free * wide) / (2 + 1 / middle)),
  )
  const small = Math.floor((width - (middle - 1) * gutter) / middle)
  const smallHeight = Math.floor(small / wide)
  const height = Math.floor(
    Math.min(
      width / (ratio / leeway),
      (room.height - 2 * gutter - 3 * caption - smallHeight) / 2,
    ),
  )
  const second = height + caption + gutter
  const third = second + smallHeight + caption + gutter
  const end = { left: 0, width, height }
  return [
    { ...end, top: caption },
    ...upTo(middle).map((one) => ({
      left: (one - 1) * (small + gutter),
      top: second + caption,
      width: small,
      height: smallHeight,
    })),
    { ...end, top: third + caption },
  ]
}

/** The first on the left, the last on the right; between them the others one above the other. */
function endsBeside(
  room: Size,
  count: number,
  ratio: number,
  { gutter, caption, leeway }: Spacing,
): readonly Rectangle[] {
  const middle = count - 2
  const narrow = ratio / leeway
  // Heights without captions: the ends have one, each of the others has its own.
  const lost = (middle - 1) * (gutter + caption)
  const height = Math.floor(
    Math.min(
      room.height - caption,
      ((room.width - 2 * gutter) / narrow + lost / middle) / (2 + 1 / middle),
    ),
  )
  const smallHeight = Math.floor((height - lost) / middle)
  const small = Math.floor(smallHeight * narrow)
  const width = Math.floor(
    Math.min(height * ratio * leeway, (room.width - 2 * gutter - small) / 2),
  )
  const end = { top: caption, width, height }
  return [
    { ...end, left: 0 },
    ...upTo(middle).map((one) => ({
      left: width + gutter,
      top: caption + (one - 1) * (smallHeight + gutter + caption),
      width: small,
      height: smallHeight,
    })),
    { ...end, left: width + small + 2 * gutter },
  ]
}

/** The first and the last side by side, and the others small in a row below. */
function endsFirst(
  room: Size,
  count: number,
  ratio: number,
  { gutter, caption, leeway }: Spacing,
): readonly Rectangle[] {
  const middle = count - 2
  const wide = ratio * leeway
  const free = room.height - gutter - 2 * caption
  const width = Math.floor(
    Math.min(
      room.width,
      (free * wide + gutter / 2 + ((middle - 1) * gutter) / middle) /
        (1 / 2 + 1 / middle),
    ),
  )
  const large = Math.floor((width - gutter) / 2)
  const small = Math.floor((width - (middle - 1) * gutter) / middle)
  const smallHeight = Math.floor(small / wide)
  const height = Math.floor(
    Math.min(large / (ratio / leeway), free - smallHeight),
  )
  return [
    { left: 0, top: caption, width: large, height },
    ...upTo(middle).map((one) => ({
      left: (one - 1) * (small + gutter),
      top: caption + height + gutter + caption,
      width: small,
      height: smallHeight,
    })),
    { left: large + gutter, top: caption, width: large, height },
  ]
}

/** The largest place in a cell, as near to the ratio as the leeway allows, and its height with its caption. */
function cellOf(
  cell: Size,
  ratio: number,
  { caption, leeway, fills }: Spacing,
): Size & { readonly outer: number; readonly weight: number } {
  const inner = { width: cell.width, height: cell.height - caption }
  if (!(inner.width > 0 && inner.height > 0)) {
    return { width: 0, height: 0, outer: 0, weight: 0 }
  }
  const own = inner.width / inner.height
  const wanted = Math.min(Math.max(own, ratio / leeway), ratio * leeway)
  const { width, height } = largestCrop(inner, wanted)
  const whole = { width: Math.floor(width), height: Math.floor(height) }
  const isShort =
    (fills === 'width' && wanted < own) || (fills === 'height' && wanted > own)
  return {
    ...whole,
    outer: whole.height + caption,
    weight: isShort ? stopsShort : 1,
  }
}

/** How much of the photos is shown, and how large: more is better, in pixels of the sheet. */
export function worth(
  places: readonly Rectangle[],
  pictures: readonly Size[],
): number {
  return places.reduce((sum, place, index) => {
    const picture = pictures[index] ?? place
    const crop = largestCrop(picture, place.width / place.height)
    const kept = (crop.width * crop.height) / (picture.width * picture.height)
    return sum + kept ** 2 * place.width * place.height
  }, 0)
}

/** Moved from the origin into the room, in the middle across. */
function centred(
  places: readonly Rectangle[],
  room: Rectangle,
): readonly Rectangle[] {
  const right = Math.max(...places.map(({ left, width }) => left + width))
  const aside = room.left + Math.floor((room.width - right) / 2)
  return places.map((place) => ({
    ...place,
    left: aside + place.left,
    top: room.top + place.top,
  }))
}

function upTo(count: number): readonly number[] {
  return Array.from({ length: count }, (_, index) => index + 1)
}
