import type { Purpose } from '#core/drying/dry-check'

/**
 * By which power of the film a wait grows. The textbook limits are 1 (loss from the surface) and 2
 * (diffusion through the film); recoating lies between. Common practice, no source, for the middle.
 */
const powers: Record<Purpose, number> = { recoat: 1.5, sand: 1.5, handle: 2 }

/**
 * How many times longer a thick coat takes.
 *
 * @param filmRatio dry film laid on, divided by the dry film the label's times are for; above 0
 * @returns 1 or more: a thin coat never shortens the label's time
 * @throws RangeError unless `filmRatio` is above 0 and finite
 */
export function filmFactor(filmRatio: number, purpose: Purpose): number {
  if (!(filmRatio > 0 && Number.isFinite(filmRatio))) {
    throw new RangeError(
      `filmFactor: expected a ratio above 0, got ${filmRatio}`,
    )
  }
  return Math.max(1, filmRatio ** powers[purpose])
}
