import { type Match, freedom, mapModels } from '#core/geometry/fit-map'
import type { Homography } from '#core/geometry/homography'
import { type RobustFit, robustFit } from '#core/geometry/robust-fit'

/**
 * The simplest map that explains the matches: a move, or one that also turns and enlarges, or one that also tilts,
 * whichever has the smallest Bayesian information criterion, which asks for each free number that it pays.
 *
 * @param tolerance pixels beyond which a match disagrees
 * @param start a homography that is tried beside the samples
 * @returns undefined when there are too few matches for any
 * Source: G. Schwarz, "Estimating the dimension of a model", Annals of Statistics 6 (1978) 461-464, here with two
 * residuals a match and the truncated cost as their squares; cited from memory.
 */
export function simplestFit(
  matches: readonly Match[],
  tolerance: number,
  start?: Homography,
): RobustFit | undefined {
  const total = matches.reduce((sum, match) => sum + (match.weight ?? 1), 0)
  const residuals = 2 * matches.length
  // Below a hundredth of the tolerance a residual is the arithmetic's.
  const floor = (tolerance / 100) ** 2
  let best: RobustFit | undefined
  let least = Infinity
  for (const model of mapModels) {
    const fit = robustFit(
      matches,
      model,
      tolerance,
      model === 'homography' ? start : undefined,
    )
    if (fit === undefined) continue
    const misfit = residuals * Math.log(fit.cost / total + floor)
    const criterion = misfit + freedom[model] * Math.log(residuals)
    if (criterion < least) {
      best = fit
      least = criterion
    }
  }
  return best
}
