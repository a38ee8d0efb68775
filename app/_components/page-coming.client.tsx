'use client'

import { usePathname, useSearchParams } from 'next/navigation'
import { useEffect, useState } from 'react'

/** A page that comes at once needs no words. */
const patienceMilliseconds = 250
/** One that never comes is the browser's to tell of, or the note on kept pages. */
const longestMilliseconds = 30_000

/**
 * Says that a page is on its way once a link was followed and nothing has come for a moment: a thumb in a glove does not
 * feel whether it hit. Nothing on the page moves for it.
 */
export function PageComing() {
  const pathname = usePathname()
  const search = useSearchParams().toString()
  const [isComing, setComing] = useState(false)
  const here = `${pathname}?${search}`
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined
    const followed = (event: MouseEvent) => {
      if (!leadsAway(event)) return
      clearTimeout(timer)
      timer = setTimeout(() => {
        setComing(true)
        timer = setTimeout(() => {
          setComing(false)
        }, longestMilliseconds)
      }, patienceMilliseconds)
    }
    document.addEventListener('click', followed)
    return () => {
      // Another page is here.
      clearTimeout(timer)
      setComing(false)
      document.removeEventListener('click', followed)
    }
  }, [here])
  return (
    <div
      role="status"
      className="pointer-events-none fixed inset-x-0 top-0 z-50 print:hidden"
    >
      {isComing && (
        <p className="bg-press text-press-ink mx-auto w-fit rounded-b-(--radius-card) px-4 py-2 font-bold shadow-lg">
          The page is coming …
        </p>
      )}
    </div>
  )
}

/** Whether a click follows a link to another page of ours in this tab. */
function leadsAway(event: MouseEvent): boolean {
  if (event.button !== 0 || event.ctrlKey || event.metaKey || event.shiftKey)
    return false
  const link =
    event.target instanceof Element ? event.target.closest('a[href]') : null
  if (
    !(link instanceof HTMLAnchorElement) ||
    (link.target !== '' && link.target !== '_self') ||
    link.hasAttribute('download') ||
    link.hasAttribute('data-stays')
  )
    return false
  const to = new URL(link.href)
  return (
    to.origin === location.origin &&
    !to.pathname.startsWith('/api/') &&
    `${to.pathname}${to.search}` !== `${location.pathname}${location.search}`
  )
}
