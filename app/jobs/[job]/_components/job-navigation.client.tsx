'use client'

import Link from 'next/link'
import { usePathname } from 'next/navigation'

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

/** The ways to look at one job. On a phone they wrap, so that none is out of sight, also in large text. */
export function JobNavigation({ job }: { readonly job: string }) {
  const here = usePathname()
  return (
    <nav aria-label="This job" className="@container mb-6 print:hidden">
      <ul className="flex flex-wrap gap-2 @min-[19rem]:grid @min-[19rem]:grid-cols-3 @min-[34rem]:flex">
        {places.map((place) => {
          const current = here.startsWith(`/jobs/${job}/${place.path}`)
          return (
            <li key={place.path} className="grow @min-[34rem]:grow-0">
              <Link
                prefetch={false}
                href={`/jobs/${job}/${place.path}`}
                aria-current={current ? 'page' : undefined}
                className={`rounded-control text-small flex min-h-12 items-center justify-center border-2 px-1 font-semibold @min-[19rem]:text-(length:--text-body) @min-[34rem]:px-4 ${current ? 'border-press bg-press-soft text-press' : 'border-line bg-paper hover:bg-well'}`}
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
