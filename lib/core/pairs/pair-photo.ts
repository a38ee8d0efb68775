import type { Photo } from '#core/journal/journal'

/** What a photo must say to be one half of a pair. */
export type PairPhoto = Pick<Photo, 'id' | 'role' | 'view' | 'taken'>

/** The view typed on a photo, as views are compared: without case, hyphens and underscores; empty without a view. */
export function plainView(photo: PairPhoto): string {
  return (photo.view ?? '')
    .toLowerCase()
    .replaceAll(/[\s_-]+/g, ' ')
    .trim()
}
