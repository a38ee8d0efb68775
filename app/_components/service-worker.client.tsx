'use client'

import { useEffect } from 'react'

/** Has the browser keep what it sees for when there is no network, where it can: on this machine or over HTTPS. */
export function ServiceWorker() {
  useEffect(() => {
    // In development files change under the same name.
    if (process.env.NODE_ENV !== 'production') return
    // Absent where the page is not served securely, whatever the types say.
    if (!('serviceWorker' in navigator)) return
    navigator.serviceWorker
      .register('/sw.js', { updateViaCache: 'none' })
      .catch(() => undefined)
    const seeNew = () => {
      if ('kept' in document.documentElement.dataset) location.reload()
    }
    addEventListener('online', seeNew)
    return () => {
      removeEventListener('online', seeNew)
    }
  }, [])
  return null
}
