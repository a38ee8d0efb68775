'use client'

import { usePathname } from 'next/navigation'
import { useEffect, useRef } from 'react'
import { showNew } from './show-new'

/** Where whoever is not let in ends. */
const strangersPages = ['/sign-in', '/pair']
/**
 * A page comes to rest before copies are taken, its first and each that is opened from it: their making would have the
 * phone busy just when it is first touched.
 */
const restMilliseconds = 3000

/**
 * Has the browser keep what it sees for when there is no network, where it can: on this machine or over HTTPS. What it
 * keeps of the first pages and of the one that is shown is renewed as the owner goes on from page to page, since no page
 * is asked for whole then. Once this browser is let in no more, what it kept is dropped.
 */
export function ServiceWorker({ letIn }: { readonly letIn: boolean }) {
  const path = usePathname()
  // The layout is not drawn anew on the way to a page, so the page's address counts too.
  const wish = letIn && !strangersPages.includes(path) ? 'keep' : 'drop'
  const shown = useRef(path)
  const cameAt = useRef<number>(undefined)
  useEffect(() => {
    if (shown.current === path) return
    shown.current = path
    cameAt.current = Date.now()
    // A page that is gone on to comes from the workshop: without it the phone loads a kept one whole.
    delete document.documentElement.dataset['kept']
  }, [path])
  useEffect(() => {
    // In development files change under the same name.
    if (process.env.NODE_ENV !== 'production') return
    // Absent where the page is not served securely, whatever the types say.
    if (!('serviceWorker' in navigator)) return
    const register = () => {
      clearTimeout(rested)
      navigator.serviceWorker
        .register('/sw.js', { updateViaCache: 'none' })
        .catch(() => undefined)
    }
    const rested = setTimeout(register, restMilliseconds)
    // Behind the camera a page may be ended.
    document.addEventListener('visibilitychange', register, { once: true })
    const endShowing = showNew()
    return () => {
      clearTimeout(rested)
      document.removeEventListener('visibilitychange', register)
      endShowing()
    }
  }, [])
  useEffect(() => {
    if (!('serviceWorker' in navigator)) return
    let settling: ReturnType<typeof setTimeout> | undefined
    const tell = () => {
      clearTimeout(settling)
      settling = undefined
      // Never comes where none was registered.
      void navigator.serviceWorker.ready.then(({ active }) => {
        active?.postMessage(wish)
        if (wish === 'keep') {
          // A first page was asked for whole, and kept since the time at which that began.
          const since = cameAt.current ?? performance.timeOrigin
          active?.postMessage({ seen: path, since })
        }
      })
    }
    const tellOnceSettled = () => {
      clearTimeout(settling)
      settling = setTimeout(tell, restMilliseconds)
    }
    const onSight = () => {
      // A page that is looked at again may have been left yesterday; behind the camera it may be ended.
      if (document.visibilityState === 'visible') tellOnceSettled()
      else if (settling !== undefined) tell()
    }
    if (wish === 'drop') tell()
    else {
      tellOnceSettled()
      document.addEventListener('visibilitychange', onSight)
    }
    return () => {
      clearTimeout(settling)
      document.removeEventListener('visibilitychange', onSight)
    }
    // Each page that is opened counts.
  }, [wish, path])
  return null
}
