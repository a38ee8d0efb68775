'use client'

import { useRouter } from 'next/navigation'
import { useEffect } from 'react'

const everyMilliseconds = 3_000

/** How many photos have no small pictures yet; the page is shown anew while there are some, with what is proposed by them. */
export function PicturesWaiting({ waiting }: { readonly waiting: number }) {
  const router = useRouter()
  useEffect(() => {
    const timer = setInterval(() => {
      if (document.visibilityState === 'visible') router.refresh()
    }, everyMilliseconds)
    return () => {
      clearInterval(timer)
    }
  }, [router])
  return (
    <p className="text-ink-soft mt-2">
      {waiting === 1
        ? 'Of one photo the small pictures are'
        : `Of ${waiting} photos the small pictures are`}{' '}
      still being made. All are kept already; they appear here one by one.
    </p>
  )
}
