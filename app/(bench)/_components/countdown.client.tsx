'use client'

import { useEffect, useState } from 'react'
import { lengthOfTime } from '#core/time/length-of-time'

/** Below this it counts by the second. */
const closeMilliseconds = 10 * 60_000
const slowTickMilliseconds = 15_000

/**
 * How long it is until a moment, counting down by itself. It goes by how long the page has been looked at, not by the
 * clock of the phone, which may be wrong. Not announced: a screen reader reads it where it stands.
 */
export function Countdown({
  milliseconds,
  rounding,
}: {
  /** Left when the page was made. */
  readonly milliseconds: number
  /** `up` for a wait, `down` for a window that closes: never too hopeful. */
  readonly rounding: 'up' | 'down'
}) {
  const [left, setLeft] = useState(milliseconds)
  useEffect(() => {
    const began = performance.now()
    let timer: ReturnType<typeof setTimeout>
    const tick = () => {
      const now = milliseconds - (performance.now() - began)
      setLeft(now)
      if (now <= 0) return
      timer = setTimeout(
        tick,
        now > closeMilliseconds + slowTickMilliseconds
          ? slowTickMilliseconds
          : 1000,
      )
    }
    tick()
    return () => {
      clearTimeout(timer)
    }
  }, [milliseconds])
  return (
    // One line that never wraps keeps everything else in its place.
    <span
      role="timer"
      aria-live="off"
      className="block whitespace-nowrap tabular-nums"
    >
      {words(left, rounding)}
    </span>
  )
}

function words(milliseconds: number, rounding: 'up' | 'down'): string {
  if (milliseconds <= 0) return 'now'
  if (milliseconds >= closeMilliseconds) {
    return `in ${lengthOfTime(milliseconds / 60_000, rounding)}`
  }
  const seconds =
    rounding === 'up'
      ? Math.ceil(milliseconds / 1000)
      : Math.floor(milliseconds / 1000)
  return `in ${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')} min`
}
