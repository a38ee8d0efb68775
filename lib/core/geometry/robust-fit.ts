import {
  type MapModel,
  type Match,
  fewestMatches,
  fitMap,
} from '#core/geometry/fit-map'
import { type Homography, mapped } from '#core/geometry/homography'

/** A map that most matches agree on. */
export type RobustFit = {
  readonly model: MapModel
  readonly homography: Homography
  /** The matches that agree. */
  readonly inliers: readonly Match[]
  /** Squared residuals, none counted above the tolerance squared, over all matches: the smaller the better. */
  readonly cost: number
}

const samples = 400
const refinements = 5

/**
 * The map of a kind that as many matches as possible agree on, however wrong the others are: sample consensus with a
 * truncated quadratic cost, then least squares over those that agree, weighted down toward the tolerance, until it
 * settles. The samples are drawn by a fixed sequence, so the same matches give the same map.
 *
 * @param tolerance pixels beyond which a match disagrees
 * @param start a map that is tried beside the samples
 * @returns undefined when there are too few matches, or no sample settles a map
 * Sources: P. H. S. Torr and A. Zisserman, "MLESAC: a new robust estimator with application to estimating image
 * geometry", Computer Vision and Image Understanding 78 (2000) 138-156 (the truncated cost); A. E. Beaton and J. W.
 * Tukey, Technometrics 16 (1974) 147-185 (the weights); both cited from memory.
 */
export function robustFit(
  matches: readonly Match[],
  model: MapModel,
  tolerance: number,
  start?: Homography,
): RobustFit | undefined {
  const size = fewestMatches[model]
  if (matches.length < size) return undefined
  let best = start
  let bestCost =
    start === undefined ? Infinity : truncatedCost(matches, start, tolerance)
  const draw = drawing()
  for (let sample = 0; sample < samples; sample += 1) {
    const some: Match[] = []
    for (let one = 0; one < size; one += 1) {
      const match = matches[Math.floor(draw() * matches.length)]
      if (match !== undefined && !some.includes(match)) some.push(match)
    }
    if (some.length < size) continue
    const tried = fitMap(some, model)
    if (tried === undefined) continue
    const cost = truncatedCost(matches, tried, tolerance, bestCost)
    if (cost < bestCost) {
      best = tried
      bestCost = cost
    }
  }
  if (best === undefined) return undefined
  for (let round = 0; round < refinements; round += 1) {
    const current = best
    const weighted = matches.flatMap((match) => {
      const share = residual(current, match) / tolerance
      if (!(share < 1)) return []
      const weight = (match.weight ?? 1) * (1 - share * share) ** 2
      return [{ ...match, weight }]
    })
    const fitted = fitMap(weighted, model)
    if (fitted === undefined) break
    const cost = truncatedCost(matches, fitted, tolerance)
    if (cost > bestCost * 1.02) break
    best = fitted
    bestCost = Math.min(cost, bestCost)
  }
  const homography = best
  return {
    model,
    homography,
    inliers: matches.filter((match) => residual(homography, match) < tolerance),
    cost: truncatedCost(matches, homography, tolerance),
  }
}

/** How far from where it should be a map takes a match, in pixels. */
export function residual(homography: Homography, { from, to }: Match): number {
  const { x, y } = mapped(homography, from)
  return Math.hypot(x - to.x, y - to.y)
}

/**
 * Tried on hundreds of samples, most of which are wrong: it stops where the cost passes what another map has already.
 */
function truncatedCost(
  matches: readonly Match[],
  [a, b, c, d, e, f, g, h, i]: Homography,
  tolerance: number,
  enough = Infinity,
): number {
  const most = tolerance * tolerance
  let sum = 0
  for (const { from, to, weight = 1 } of matches) {
    const depth = g * from.x + h * from.y + i
    const x = (a * from.x + b * from.y + c) / depth - to.x
    const y = (d * from.x + e * from.y + f) / depth - to.y
    const square = x * x + y * y
    sum += weight * (square < most ? square : most)
    if (sum > enough) break
  }
  return sum
}

/** Numbers from 0 up to 1 in a fixed sequence: the minimal standard generator of Park and Miller (1988). */
function drawing(): () => number {
  let state = 20_251
  return () => {
    state = (state * 48_271) % 2_147_483_647
    return state / 2_147_483_647
  }
}
