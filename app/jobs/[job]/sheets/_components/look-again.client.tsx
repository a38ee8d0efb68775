'use client'

import { useEffect } from 'react'

const everyMilliseconds = 3_000

/** Shows the page anew every few seconds while pairs are being found. */
export function LookAgain({ look }: { readonly look: () => Promise<void> }) {
  useEffect(() => {
    const timer = setInterval(() => {
      // A page that cannot be asked stays as it was.
      if (document.visibilityState === 'visible') look().catch(() => undefined)
    }, everyMilliseconds)
    return () => {
      clearInterval(timer)
    }
  }, [look])
  return null
}
