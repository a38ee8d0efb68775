import { type Instant, instant } from '#core/units'

/** The present moment: the one place where the clock is read. A page or handler reads it once and passes it down. */
export function now(): Instant {
  return instant(Date.now())
}
