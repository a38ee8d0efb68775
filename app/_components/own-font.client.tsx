'use client'

import { useEffect } from 'react'
import { ownFontCookie } from '../_own-font'

/** As the styles name it. */
const ownFont = 'Atkinson Hyperlegible Next'

const year = 31_536_000

/**
 * Fetches the app's own font once all of the first page is there, for the pages that are asked for from then on: a font that
 * is on its way holds up what is to be read, and one that comes late moves it.
 */
export function OwnFont() {
  useEffect(() => {
    // A page that is shown anew while it is looked at, such as the bench each minute, keeps the font that it began with.
    document.documentElement.dataset['firstSight'] = ''
    const bring = () => {
      document.fonts
        .load(`1em "${ownFont}"`)
        .then((faces) => {
          if (faces.length === 0) return
          document.cookie = `${ownFontCookie}=here; path=/; max-age=${String(year)}; samesite=strict`
        })
        // The page is read as well without it.
        .catch(() => undefined)
    }
    if (document.readyState === 'complete') {
      bring()
      return undefined
    }
    addEventListener('load', bring, { once: true })
    return () => {
      removeEventListener('load', bring)
    }
  }, [])
  return null
}
