/**
 * The addresses that answer whoever is not let in, as no word of the journal is in them. All tests of who is turned away
 * go by this list: what is not on it must refuse a stranger.
 */
export const openAddresses = [
  '/api/health',
  '/sign-in',
  '/pair',
  '/manifest.webmanifest',
  '/icon.svg',
  '/apple-icon.png',
] as const

/** Under it lies what the owner has published, piece by piece, and nothing else. */
const published = '/portfolio'

/** Whether a stranger is answered at this path. */
export function isOpenAddress(path: string): boolean {
  return (
    openAddresses.some((open) => open === path) ||
    path === published ||
    path.startsWith(`${published}/`)
  )
}
