import type { Homography } from '#core/geometry/homography'
import { mapped } from '#core/geometry/homography'

/** Width and height, in pixels. */
type Size = { readonly width: number; readonly height: number }

/**
 * How far apart two maps take the corners of a picture, on average, in pixels of where they take them.
 *
 * Source: D. DeTone, T. Malisiewicz and A. Rabinovich, "Deep image homography estimation", arXiv:1606.03798 (2016),
 * section 3 (mean average corner error), cited from memory.
 */
export function cornerError(
  one: Homography,
  other: Homography,
  { width, height }: Size,
): number {
  const corners = [
    { x: 0, y: 0 },
    { x: width, y: 0 },
    { x: width, y: height },
    { x: 0, y: height },
  ]
  const distances = corners.map((corner) => {
    const a = mapped(one, corner)
    const b = mapped(other, corner)
    return Math.hypot(a.x - b.x, a.y - b.y)
  })
  return distances.reduce((sum, distance) => sum + distance, 0) / 4
}
