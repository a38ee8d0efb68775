'use client'

import { useEffect } from 'react'

/**
 * Photos that a page loads only when somebody comes to them are asked for when it is about to be printed. One that is not
 * there by then has `data-missing`, and paper does without it: no empty box is printed.
 */
export function PaperPhotos() {
  useEffect(() => {
    window.addEventListener('beforeprint', askForPhotos)
    return () => {
      window.removeEventListener('beforeprint', askForPhotos)
    }
  }, [])
  return null
}

function askForPhotos(): void {
  for (const photo of document.querySelectorAll('img')) {
    photo.loading = 'eager'
    // One that comes later is left out all the same: the sheet is laid already.
    photo.toggleAttribute(
      'data-missing',
      !photo.complete || photo.naturalWidth === 0,
    )
  }
}
