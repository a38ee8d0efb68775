'use client'

import { useEffect } from 'react'

const everyMilliseconds = 60_000
/** A moment that has just passed is surely over by then. */
const graceMilliseconds = 500

/**
 * Shows the bench anew each minute while it is looked at, when something on it changes, and at once when somebody comes
 * back to it.
 */
export function KeepCurrent({
  refresh,
  changesInMilliseconds,
}: {
  readonly refresh: () => Promise<void>
  /** Until the next thing on the bench comes to pass, counted from when the page was made. */
  readonly changesInMilliseconds: number | undefined
}) {
  useEffect(() => {
    const look = () => {
      // A bench that cannot be asked stays as it was.
      if (document.visibilityState === 'visible')
        refresh().catch(() => undefined)
    }
    const timer = setInterval(look, everyMilliseconds)
    document.addEventListener('visibilitychange', look)
    return () => {
      clearInterval(timer)
      document.removeEventListener('visibilitychange', look)
    }
  }, [refresh])
  useEffect(() => {
    if (
      changesInMilliseconds === undefined ||
      changesInMilliseconds > everyMilliseconds
    )
      return
    const timer = setTimeout(() => {
      refresh().catch(() => undefined)
    }, changesInMilliseconds + graceMilliseconds)
    return () => {
      clearTimeout(timer)
    }
  }, [refresh, changesInMilliseconds])
  return null
}
