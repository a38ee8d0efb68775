import { z } from 'zod'

/** Ten years. */
const mostSeconds = 10 * 366 * 86_400
const correction = 'Give the correction in whole seconds, up to ten years.'
const uncertainty = 'Give the uncertainty in whole seconds, not less than 0.'

/** How far a camera's clock is off, and how well that is known. */
export const knownClock = z.object({
  correctionSeconds: z
    .int(correction)
    .min(-mostSeconds, correction)
    .max(mostSeconds, correction),
  uncertaintySeconds: z
    .int(uncertainty)
    .min(0, uncertainty)
    .max(mostSeconds, uncertainty),
})
