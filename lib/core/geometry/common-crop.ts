import { type Homography, type Point, mapped } from '#core/geometry/homography'
import type { Rectangle, Size } from '#core/sheets/largest-crop'

/** Halvings of the interval that the best edge is in: enough for a hundredth of a pixel in any photo. */
const searches = 48

/**
 * The largest upright rectangle of the before that the after shows as well, once it is brought there.
 *
 * What both show is a convex polygon; between a left and a right edge the rectangle reaches as far up and down as it does
 * at both of them, so its area is a product of concave functions of the edges and has one summit.
 *
 * @param homography takes the after's pixels to the before's
 * @returns in pixels of the before, with fractions; undefined when they share nothing, or the map takes a corner of the
 *   after beyond the horizon
 */
export function commonCrop(
  homography: Homography,
  before: Size,
  after: Size,
): Rectangle | undefined {
  const corners = cornersOf(after)
  const [, , , , , , g, h, i] = homography
  if (corners.some(({ x, y }) => !(g * x + h * y + i > 0))) return undefined
  const shown = clipped(
    corners.map((corner) => mapped(homography, corner)),
    before,
  )
  if (shown.length < 3) return undefined
  const left = Math.min(...shown.map((point) => point.x))
  const right = Math.max(...shown.map((point) => point.x))
  const bestRight = (from: number) =>
    summit(from, right, (to) => areaOf(between(shown, from, to)))
  const from = summit(left, right, (edge) =>
    areaOf(between(shown, edge, bestRight(edge))),
  )
  const crop = between(shown, from, bestRight(from))
  return areaOf(crop) > 0 ? crop : undefined
}

/** The four corners of a picture, one after another. */
export function cornersOf({ width, height }: Size): readonly Point[] {
  return [
    { x: 0, y: 0 },
    { x: width, y: 0 },
    { x: width, y: height },
    { x: 0, y: height },
  ]
}

/**
 * The part of a convex polygon that lies in a picture.
 *
 * Source: I. E. Sutherland and G. W. Hodgman, "Reentrant polygon clipping", Communications of the ACM 17 (1974) 32-42,
 * cited from memory.
 */
function clipped(
  polygon: readonly Point[],
  { width, height }: Size,
): readonly Point[] {
  const sides: readonly ((point: Point) => number)[] = [
    ({ x }) => x,
    ({ x }) => width - x,
    ({ y }) => y,
    ({ y }) => height - y,
  ]
  return sides.reduce<readonly Point[]>(
    (kept, depth) =>
      kept.flatMap((point, index) => {
        const next = kept[(index + 1) % kept.length] ?? point
        const here = depth(point)
        const there = depth(next)
        const crossing =
          here >= 0 === there >= 0
            ? []
            : [along(point, next, here / (here - there))]
        return here >= 0 ? [point, ...crossing] : crossing
      }),
    polygon,
  )
}

function along(from: Point, to: Point, share: number): Point {
  return {
    x: from.x + share * (to.x - from.x),
    y: from.y + share * (to.y - from.y),
  }
}

/** The tallest rectangle of a convex polygon between two edges; of no height where there is none. */
function between(
  polygon: readonly Point[],
  left: number,
  right: number,
): Rectangle {
  const one = reach(polygon, left)
  const other = reach(polygon, right)
  const top = Math.max(one.top, other.top)
  const bottom = Math.min(one.bottom, other.bottom)
  return { left, top, width: right - left, height: bottom - top }
}

/** How far up and down a convex polygon reaches at a place across. */
function reach(
  polygon: readonly Point[],
  x: number,
): { readonly top: number; readonly bottom: number } {
  let top = Infinity
  let bottom = -Infinity
  for (const [index, point] of polygon.entries()) {
    const next = polygon[(index + 1) % polygon.length] ?? point
    const low = Math.min(point.x, next.x)
    const high = Math.max(point.x, next.x)
    if (x < low - 1e-9 || x > high + 1e-9) continue
    const ends =
      high - low < 1e-9
        ? [point.y, next.y]
        : [along(point, next, (x - point.x) / (next.x - point.x)).y]
    top = Math.min(top, ...ends)
    bottom = Math.max(bottom, ...ends)
  }
  return { top, bottom }
}

/** Signed, so that the way to the summit shows even where there is no rectangle. */
function areaOf({ width, height }: Rectangle): number {
  return height > 0 ? width * height : height
}

/** Where a function of one summit has it. */
function summit(
  low: number,
  high: number,
  value: (at: number) => number,
): number {
  let from = low
  let to = high
  for (let round = 0; round < searches; round += 1) {
    const one = from + (to - from) / 3
    const other = to - (to - from) / 3
    if (value(one) < value(other)) from = one
    else to = other
  }
  return (from + to) / 2
}
