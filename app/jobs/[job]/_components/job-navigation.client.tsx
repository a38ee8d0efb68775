'use client'

import Link from 'next/link'
import { usePathname } from 'next/navigation'
import { useLayoutEffect, useRef } from 'react'

const places = [
  { path: 'timeline', name: 'Timeline' },
  { path: 'photos', name: 'Photos' },
  { path: 'materials', name: 'Materials' },
  { path: 'sheets', name: 'Sheets' },
  { path: 'write-ups', name: 'Write-ups' },
  { path: 'portfolio', name: 'Portfolio' },
  { path: 'money', name: 'Money' },
  { path: 'details', name: 'Details' },
] as const

/** The ways to look at one job: one row, which is pushed sideways where it is too long, with the present one in sight. */
export function JobNavigation({ job }: { readonly job: string }) {
  const here = usePathname()
  const row = useRef<HTMLUListElement>(null)
  const present = places.find(({ path }) =>
    here.startsWith(`/jobs/${job}/${path}`),
  )?.path
  useLayoutEffect(() => {
    const list = row.current
    const link = list?.querySelector<HTMLElement>('[aria-current]')
    if (!list || !link) return
    bringToMiddle(list, link)
    // The phone may be turned, and the text made larger.
    const watch = new ResizeObserver(() => {
      bringToMiddle(list, link)
    })
    watch.observe(list)
    watch.observe(link)
    return () => {
      watch.disconnect()
    }
  }, [present])
  return (
    <nav aria-label="This job" className="mb-5 print:hidden">
      <ul
        ref={row}
        className="sideways-row relative -mx-4 flex gap-2 px-4 py-1"
      >
        {places.map((place) => {
          const current = place.path === present
          return (
            <li
              key={place.path}
              className="shrink-0"
              {...(current && { 'data-first-seen': '' })}
            >
              <Link
                prefetch={false}
                href={`/jobs/${job}/${place.path}`}
                aria-current={current ? 'page' : undefined}
                onFocus={({ currentTarget }) => {
                  // By keys alone: under a finger the row stays where it is.
                  if (row.current && currentTarget.matches(':focus-visible'))
                    bringToMiddle(row.current, currentTarget)
                }}
                className={`rounded-control flex min-h-12 items-center justify-center border-2 px-3 font-semibold sm:px-4 ${current ? 'border-press bg-press-soft text-press' : 'border-line bg-paper hover:bg-well'}`}
              >
                {place.name}
              </Link>
            </li>
          )
        })}
      </ul>
    </nav>
  )
}

/** By hand, because bringing it into view would move the page too. */
function bringToMiddle(row: HTMLElement, link: HTMLElement): void {
  const middle = link.offsetLeft + link.offsetWidth / 2
  row.scrollLeft = middle - row.clientWidth / 2
}
