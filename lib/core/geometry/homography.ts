/** A place in a picture, in pixels from its upper left corner; fractions are meant. */
export type Point = { readonly x: number; readonly y: number }

/** A projective map of one picture's pixels to another's: 3 x 3, row after row, known up to a factor. */
export type Homography = readonly [
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
]

/** The map that leaves everything where it is. */
export const identity: Homography = [1, 0, 0, 0, 1, 0, 0, 0, 1]

/**
 * Where a map takes a point.
 *
 * @returns infinite coordinates for a point that it takes to infinity
 */
export function mapped(homography: Homography, { x, y }: Point): Point {
  const [a, b, c, d, e, f, g, h, i] = homography
  const w = g * x + h * y + i
  return { x: (a * x + b * y + c) / w, y: (d * x + e * y + f) / w }
}

/** The map that does what `first` does and then what `second` does. */
export function composed(second: Homography, first: Homography): Homography {
  const [a, b, c, d, e, f, g, h, i] = second
  const [j, k, l, m, n, o, p, q, r] = first
  return scaledToOne([
    a * j + b * m + c * p,
    a * k + b * n + c * q,
    a * l + b * o + c * r,
    d * j + e * m + f * p,
    d * k + e * n + f * q,
    d * l + e * o + f * r,
    g * j + h * m + i * p,
    g * k + h * n + i * q,
    g * l + h * o + i * r,
  ])
}

/**
 * The map that undoes this one.
 *
 * @throws RangeError when nothing does: it presses the picture flat
 */
export function inverted(homography: Homography): Homography {
  const [a, b, c, d, e, f, g, h, i] = homography
  const determinant =
    a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)
  if (!Number.isFinite(1 / determinant)) {
    throw new RangeError(
      `inverted: expected a map that can be undone, got determinant ${determinant}`,
    )
  }
  return scaledToOne([
    e * i - f * h,
    c * h - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
    a * e - b * d,
  ])
}

/** A map that moves by so many pixels. */
export function translation(x: number, y: number): Homography {
  return [1, 0, x, 0, 1, y, 0, 0, 1]
}

/** A map that enlarges by a factor across and one down; for going from one size of a picture to another. */
export function scaling(across: number, down = across): Homography {
  return [across, 0, 0, 0, down, 0, 0, 0, 1]
}

/** The same map with 1 as its last number, which leaves its eight others to compare; one that has 0 there stays. */
function scaledToOne(homography: Homography): Homography {
  const last = homography[8]
  if (last === 0) return homography
  const [a, b, c, d, e, f, g, h] = homography
  return [
    a / last,
    b / last,
    c / last,
    d / last,
    e / last,
    f / last,
    g / last,
    h / last,
    1,
  ]
}
