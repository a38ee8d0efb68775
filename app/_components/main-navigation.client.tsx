'use client'

import Link from 'next/link'
import { usePathname } from 'next/navigation'
import { LineIcon } from './line-icon'

const places = [
  { href: '/', name: 'Bench', icon: 'M3 9h18M5 9v10M19 9v10M5 14h14' },
  {
    href: '/snap',
    name: 'Snap',
    icon: 'M4 8h3.500l1.500-2.500h6l1.500 2.500H20v11H4zM12 10a3.300 3.300 0 1 0 .1 0',
    // On a phone the snap bar stands right above.
    onDeskOnly: true,
  },
  { href: '/jobs', name: 'Jobs', icon: 'M4 7h16v12H4zM9 7V4h6v3M4 12h16' },
  {
    href: '/shelf',
    name: 'Shelf',
    icon: 'M3 20h18M6 20v-9h5v9M14 20V7h4v13M6 14h5M14 11h4',
  },
  {
    href: '/workshop',
    name: 'Workshop',
    icon: 'M3 20V10l9-6 9 6v10M9 20v-6h6v6',
  },
] as const satisfies readonly {
  readonly href: string
  readonly name: string
  readonly icon: string
  readonly onDeskOnly?: boolean
}[]

/**
 * The way to the main screens: along the bottom on a phone, within reach of a thumb; along the top on a desk. Where large
 * text leaves no room for words, the icons stand alone and keep their names for who cannot see them.
 */
export function MainNavigation() {
  const path = usePathname()
  return (
    <header className="border-line bg-paper @container fixed inset-x-0 bottom-0 z-40 border-t print:hidden sm:static sm:border-t-0 sm:border-b">
      <div className="mx-auto flex max-w-6xl items-center sm:px-6">
        <Link
          prefetch={false}
          href="/"
          className="text-lead mr-6 hidden shrink-0 items-center gap-2 py-3 font-bold tracking-tight sm:inline-flex"
          aria-label="Coatbook"
        >
          <svg viewBox="0 0 32 32" aria-hidden="true" className="size-8">
            <rect width="32" height="32" rx="7" fill="var(--press)" />
            <path d="M7 9h18v4H7z" fill="var(--press-ink)" />
            <path
              d="M7 15h18v4H7z"
              fill="var(--press-ink)"
              fillOpacity="0.72"
            />
            <path
              d="M7 21h12v4H7z"
              fill="var(--press-ink)"
              fillOpacity="0.45"
            />
          </svg>
          <span className="hidden @min-[48rem]:inline">Coatbook</span>
        </Link>
        <nav aria-label="Main" className="grow sm:grow-0">
          <ul className="flex">
            {places.map((place) => {
              const here =
                place.href === '/' ? path === '/' : path.startsWith(place.href)
              return (
                <li
                  key={place.href}
                  className={`min-w-0 grow sm:grow-0 ${'onDeskOnly' in place ? 'hidden sm:block' : ''}`}
                >
                  <Link
                    prefetch={false}
                    href={place.href}
                    aria-current={here ? 'page' : undefined}
                    className={`text-small flex min-h-(--bar) flex-col items-center justify-center gap-0.5 border-t-4 px-1 pb-1 font-semibold sm:border-t-0 sm:border-b-4 sm:px-3 sm:pt-1 sm:pb-0 @min-[40rem]:sm:flex-row @min-[40rem]:sm:gap-2 ${here ? 'border-press text-press' : 'text-ink-soft hover:text-ink border-transparent'}`}
                  >
                    <LineIcon path={place.icon} className="size-6" />
                    <span className="sr-only leading-tight @min-[17rem]:not-sr-only">
                      {place.name}
                    </span>
                  </Link>
                </li>
              )
            })}
          </ul>
        </nav>
      </div>
    </header>
  )
}
