import type { CameraClock } from '#core/time/capture-time'
import { lengthOfTime } from '#core/time/length-of-time'
import type { Span } from '#core/time/span'

const secondsPerMinute = 60
/** Up to here seconds matter to whoever sets a clock. */
const longestInSeconds = 3600

/**
 * How far a camera's clock is off, as the end of a sentence: `is right, to within 31 s`, `is 67 min slow, to within 31 s`.
 * A clock that may as well be right is called right.
 */
export function clockWords(clock: CameraClock): string {
  return `${guessedClockWords(clock)}, to within ${secondsInWords(clock.uncertaintySeconds)}`
}

/** The same of a clock that is only guessed at: how closely would say more than is known. */
export function guessedClockWords({
  correctionSeconds,
  uncertaintySeconds,
}: CameraClock): string {
  const off = Math.abs(correctionSeconds)
  if (off <= uncertaintySeconds) return 'is right'
  // What is added to a clock's times is what it lags behind.
  const direction = correctionSeconds > 0 ? 'slow' : 'fast'
  return `is ${secondsInWords(off)} ${direction}`
}

/** How finely a capture time is known: `to the second`, `to within 12 min`. */
export function spanWidthWords({ earliest, latest }: Span): string {
  const seconds = Math.ceil((latest - earliest) / 1000)
  return seconds <= 1 ? 'to the second' : `to within ${secondsInWords(seconds)}`
}

function secondsInWords(seconds: number): string {
  if (seconds < secondsPerMinute) return `${seconds} s`
  const rest = seconds % secondsPerMinute
  if (rest === 0 || seconds > longestInSeconds) {
    return lengthOfTime(seconds / secondsPerMinute)
  }
  return `${Math.floor(seconds / secondsPerMinute)} min ${rest} s`
}
