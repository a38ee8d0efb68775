'use client'

import { useEffect } from 'react'

const everyMilliseconds = 60_000

/** Shows the bench anew each minute while it is looked at, and at once when somebody comes back to it. */
export function KeepCurrent({
  refresh,
}: {
  readonly refresh: () => Promise<void>
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
  return null
}
