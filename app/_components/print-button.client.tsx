'use client'

import { useState } from 'react'

/** Who waits longer for photos has them left out. */
const longestMilliseconds = 20_000

/**
 * Prints the page, as the browser does, once its photos are there; or, of the page, only the part with `data-printable`
 * that it stands in.
 */
export function PrintButton({ children }: { readonly children: string }) {
  const [isWaiting, setWaiting] = useState(false)
  const print = async (part: Element | null) => {
    part?.setAttribute('data-print-alone', '')
    // Some browsers go on before anything is printed.
    window.addEventListener(
      'afterprint',
      () => {
        part?.removeAttribute('data-print-alone')
      },
      { once: true },
    )
    // What lays itself out for paper does so now, and what paper shows is asked for: no dialogue waits for it.
    window.dispatchEvent(new Event('beforeprint'))
    const coming = [
      ...(part ?? document).querySelectorAll<HTMLImageElement>(
        'img[data-missing]',
      ),
    ]
    if (coming.length > 0) {
      setWaiting(true)
      await Promise.race([
        Promise.all(coming.map(settled)),
        new Promise((resolve) => setTimeout(resolve, longestMilliseconds)),
      ])
      setWaiting(false)
    }
    window.print()
  }
  return (
    <button
      type="button"
      className="button print:hidden"
      disabled={isWaiting}
      onClick={(event) => {
        void print(event.currentTarget.closest('[data-printable]'))
      }}
    >
      {isWaiting ? 'Fetching the photos …' : children}
    </button>
  )
}

/** Ends when the photo is there, and when it will not come. */
function settled(photo: HTMLImageElement): Promise<unknown> {
  return new Promise((resolve) => {
    photo.addEventListener('load', resolve, { once: true })
    photo.addEventListener('error', resolve, { once: true })
  })
}
