'use client'

import { useEffect } from 'react'
import { pageIsAlive } from '../_page-alive'

/** Says when the page has come alive, so that taps which came before are done (`app/_scripts-after-paint.ts`). */
export function PageAlive() {
  useEffect(() => {
    window.dispatchEvent(new Event(pageIsAlive))
  }, [])
  return null
}
