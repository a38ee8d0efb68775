import { commonCrop } from '#core/geometry/common-crop'
import { fitMap } from '#core/geometry/fit-map'
import {
  type Homography,
  type Point,
  inverted,
  mapped,
  scaling,
} from '#core/geometry/homography'
import type { Size } from '#core/sheets/largest-crop'

type Four = readonly [Point, Point, Point, Point]

/** Four places of a piece in both photos, in their upright full-size pixels, in the same order. */
export type HandPoints = { readonly before: Four; readonly after: Four }

/** Why four points lay no photo on another. */
export type HandDoubt =
  'outside' | 'in-line' | 'another-order' | 'little-shared'

/** How far from the rim of what both show the points stand at first, as a share of it. */
const inset = 0.15
/** Three points that span less of a picture than this say nothing of how it is tilted; a quarter of it at a slant. */
const leastTriangle = 0.01
/** Less than this part of the before is not worth showing. Common practice, no source. */
const leastShared = 0.1

/**
 * Where the points stand before they are moved: near the corners of what both photos show.
 *
 * @param homography as it was computed, after to before; absent: the photos lie as they are
 */
export function startPoints(
  before: Size,
  after: Size,
  homography: Homography = asTheyLie(before, after),
): HandPoints {
  const known = commonCrop(homography, before, after)
  const map = known === undefined ? asTheyLie(before, after) : homography
  const { left, top, width, height } = known ?? { left: 0, top: 0, ...before }
  const [near, far] = [inset, 1 - inset]
  const ends = [
    { x: left + near * width, y: top + near * height },
    { x: left + far * width, y: top + near * height },
    { x: left + far * width, y: top + far * height },
    { x: left + near * width, y: top + far * height },
  ] as const
  const back = inverted(map)
  const [one, two, three, four] = ends
  return {
    before: ends,
    after: [
      mapped(back, one),
      mapped(back, two),
      mapped(back, three),
      mapped(back, four),
    ],
  }
}

/**
 * The map, after to before, that takes each point of the after to its like in the before: four pairs of points settle it.
 *
 * @returns a doubt where they do not, or where it would turn a picture over or leave next to nothing to show
 */
export function mapByHand(
  points: HandPoints,
  before: Size,
  after: Size,
): { readonly homography: Homography } | { readonly doubt: HandDoubt } {
  if (!isInside(points.before, before) || !isInside(points.after, after)) {
    return { doubt: 'outside' }
  }
  const one = triangles(points.before, before)
  const other = triangles(points.after, after)
  if ([...one, ...other].some((area) => Math.abs(area) < leastTriangle)) {
    return { doubt: 'in-line' }
  }
  // Seen from its front, nothing changes the side on which a point stands of the line through two others.
  if (one.some((area, index) => area * (other[index] ?? 0) < 0)) {
    return { doubt: 'another-order' }
  }
  const homography = fitMap(
    points.after.map((from, index) => ({
      from,
      to: points.before[index] ?? from,
    })),
    'homography',
  )
  if (homography === undefined) return { doubt: 'in-line' }
  const shared = commonCrop(homography, before, after)
  const isEnough =
    shared !== undefined &&
    shared.width * shared.height > leastShared * before.width * before.height
  return isEnough ? { homography } : { doubt: 'little-shared' }
}

/**
 * The same places of the pieces after the photos were turned.
 *
 * @param sizes of the photos before they were turned, upright
 * @param turns of each, in quarters clockwise; negative turns back
 */
export function turnedPoints(
  points: HandPoints,
  sizes: { readonly before: Size; readonly after: Size },
  turns: { readonly before: number; readonly after: number },
): HandPoints {
  const turned = (side: 'before' | 'after'): Four => {
    const quarters = ((turns[side] % 4) + 4) % 4
    const [one, two, three, four] = points[side]
    const to = (point: Point) => turnedPoint(point, sizes[side], quarters)
    return [to(one), to(two), to(three), to(four)]
  }
  return { before: turned('before'), after: turned('after') }
}

function turnedPoint({ x, y }: Point, size: Size, quarters: number): Point {
  return quarters === 0
    ? { x, y }
    : turnedPoint(
        { x: size.height - y, y: x },
        { width: size.height, height: size.width },
        quarters - 1,
      )
}

/** What is wrong with the points, and what helps, for the owner. */
export function handDoubtSentence(doubt: HandDoubt): string {
  switch (doubt) {
    case 'outside':
      return 'A point stands outside its photo. Move it back.'
    case 'in-line':
      return 'Three points stand nearly in one line. Move them farther apart, best to the corners of the piece.'
    case 'another-order':
      return 'The points stand in another order on the two photos. Each number marks the same place on both.'
    case 'little-shared':
      return 'Laid on each other like this, the photos would share too little. Look whether each number marks the same place on both.'
  }
}

function asTheyLie(before: Size, after: Size): Homography {
  return scaling(before.width / after.width, before.height / after.height)
}

function isInside(points: Four, { width, height }: Size): boolean {
  return points.every(
    ({ x, y }) => x >= 0 && x <= width && y >= 0 && y <= height,
  )
}

/** Twice the areas of the four triangles of four points, with the sign of their turn, as shares of the picture. */
function triangles([a, b, c, d]: Four, { width, height }: Size) {
  const area = (p: Point, q: Point, r: Point) =>
    ((q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x)) / (width * height)
  return [area(a, b, c), area(a, b, d), area(a, c, d), area(b, c, d)]
}
