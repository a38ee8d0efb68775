import {
  type Homography,
  type Point,
  composed,
  inverted,
  mapped,
} from '#core/geometry/homography'
import { solveLinear } from '#core/geometry/solve-linear'

/** A point of one picture and the same point in another. */
export type Match = {
  readonly from: Point
  readonly to: Point
  /** How much it counts, above 0; 1 when absent. */
  readonly weight?: number
}

/** What a map may do, from least to most: move; also turn and enlarge; also tilt. */
export const mapModels = ['translation', 'similarity', 'homography'] as const
export type MapModel = (typeof mapModels)[number]

/** Matches that settle a map, if no three of them stand in one line. */
export const fewestMatches: Readonly<Record<MapModel, number>> = {
  translation: 1,
  similarity: 2,
  homography: 4,
}

/** The numbers that each is free to choose. */
export const freedom: Readonly<Record<MapModel, number>> = {
  translation: 2,
  similarity: 4,
  homography: 8,
}

/**
 * The map of a kind that takes the matches' first points nearest to their second, by weighted least squares.
 *
 * A homography is found by the normalised direct linear transformation, once more with each equation divided by its
 * depth, which brings its residuals to pixels.
 *
 * @returns undefined when the matches do not settle one: too few, or in one line
 * Source: R. Hartley and A. Zisserman, "Multiple View Geometry in Computer Vision", 2nd ed. (2004), sections 4.1 and
 * 4.4.4 (algorithm 4.2), cited from memory.
 */
export function fitMap(
  matches: readonly Match[],
  model: MapModel,
): Homography | undefined {
  if (matches.length < fewestMatches[model]) return undefined
  switch (model) {
    case 'translation':
      return fitTranslation(matches)
    case 'similarity':
      return fitSimilarity(matches)
    case 'homography':
      return fitHomography(matches)
  }
}

function fitTranslation(matches: readonly Match[]): Homography {
  const from = centroid(matches, (match) => match.from)
  const to = centroid(matches, (match) => match.to)
  return [1, 0, to.x - from.x, 0, 1, to.y - from.y, 0, 0, 1]
}

/** In complex numbers: to = a from + b, with a and b by least squares about the centroids. */
function fitSimilarity(matches: readonly Match[]): Homography | undefined {
  const from = centroid(matches, (match) => match.from)
  const to = centroid(matches, (match) => match.to)
  let real = 0
  let imaginary = 0
  let spread = 0
  for (const match of matches) {
    const weight = match.weight ?? 1
    const u = match.from.x - from.x
    const v = match.from.y - from.y
    const x = match.to.x - to.x
    const y = match.to.y - to.y
    real += weight * (u * x + v * y)
    imaginary += weight * (u * y - v * x)
    spread += weight * (u * u + v * v)
  }
  if (!(spread > 1e-9)) return undefined
  const a = real / spread
  const b = imaginary / spread
  return [
    a,
    -b,
    to.x - a * from.x + b * from.y,
    b,
    a,
    to.y - b * from.x - a * from.y,
    0,
    0,
    1,
  ]
}

function fitHomography(matches: readonly Match[]): Homography | undefined {
  const before = normalising(matches, (match) => match.from)
  const after = normalising(matches, (match) => match.to)
  if (before === undefined || after === undefined) return undefined
  const normalised = matches.map((match) => ({
    from: mapped(before, match.from),
    to: mapped(after, match.to),
    weight: match.weight ?? 1,
  }))
  const first = solveDirectly(normalised)
  if (first === undefined) return undefined
  if (matches.length === fewestMatches.homography) {
    // Nothing is left over that could be divided.
    return composed(inverted(after), composed(first, before))
  }
  const [, , , , , , g, h] = first
  const refined = solveDirectly(
    normalised.map((match) => {
      const depth = g * match.from.x + h * match.from.y + 1
      return { ...match, weight: match.weight / Math.max(depth * depth, 1e-6) }
    }),
  )
  return composed(inverted(after), composed(refined ?? first, before))
}

/** Normal equations of the eight unknowns; the ninth is 1, which no map of one photo to another forbids. */
function solveDirectly(
  matches: readonly (Match & { readonly weight: number })[],
): Homography | undefined {
  const normal = Array.from({ length: 8 }, () => new Array<number>(9).fill(0))
  for (const { from, to, weight } of matches) {
    const { x, y } = from
    add(normal, [x, y, 1, 0, 0, 0, -to.x * x, -to.x * y, to.x], weight)
    add(normal, [0, 0, 0, x, y, 1, -to.y * x, -to.y * y, to.y], weight)
  }
  const solution = solveLinear(normal)
  if (solution === undefined) return undefined
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = solution
  return [a, b, c, d, e, f, g, h, 1]
}

function add(
  normal: readonly number[][],
  equation: readonly number[],
  weight: number,
): void {
  for (const [index, row] of normal.entries()) {
    const factor = weight * (equation[index] ?? 0)
    if (factor === 0) continue
    for (let k = 0; k < 9; k += 1) {
      row[k] = (row[k] ?? 0) + factor * (equation[k] ?? 0)
    }
  }
}

/** Moves the centroid of the points to the origin and their mean distance from it to the root of two. */
function normalising(
  matches: readonly Match[],
  side: (match: Match) => Point,
): Homography | undefined {
  const centre = centroid(matches, side)
  let distance = 0
  let total = 0
  for (const match of matches) {
    const weight = match.weight ?? 1
    const { x, y } = side(match)
    distance += weight * Math.hypot(x - centre.x, y - centre.y)
    total += weight
  }
  const scale = (Math.SQRT2 * total) / distance
  return Number.isFinite(scale)
    ? [scale, 0, -scale * centre.x, 0, scale, -scale * centre.y, 0, 0, 1]
    : undefined
}

function centroid(
  matches: readonly Match[],
  side: (match: Match) => Point,
): Point {
  let x = 0
  let y = 0
  let total = 0
  for (const match of matches) {
    const weight = match.weight ?? 1
    x += weight * side(match).x
    y += weight * side(match).y
    total += weight
  }
  return { x: x / total, y: y / total }
}
