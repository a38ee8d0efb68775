import type { Journal, Photo } from '#core/journal/journal'
import { views } from '#core/journal/vocabulary'

/**
 * The photos that go with a listing, in the order in which it counts them: the views of after, the front first, then
 * the photos that show flaws.
 */
export function listingPhotos({
  photos,
}: Pick<Journal, 'photos'>): readonly Photo[] {
  const flaws = photos.filter(({ flaw }) => flaw !== undefined)
  const after = photos
    .filter(({ role, flaw }) => role === 'after' && flaw === undefined)
    .toSorted((a, b) => viewRank(a) - viewRank(b))
  return [...after, ...flaws]
}

function viewRank({ view }: Photo): number {
  const rank = views.findIndex((one) => one === view)
  return rank === -1 ? views.length : rank
}
