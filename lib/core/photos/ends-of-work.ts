import type { Photo } from '#core/journal/journal'

/**
 * The photo that shows the piece as it was and the one that shows what became of it, of one view where two are named so;
 * else the first of each, as who goes round a piece begins with its front.
 *
 * @param photos in order of time
 * @returns ids
 */
export function endsOfWork(
  photos: readonly Pick<Photo, 'id' | 'role' | 'view'>[],
): { readonly before?: string; readonly after?: string } {
  const before = photos.filter(({ role }) => role === 'before')
  const after = photos.filter(({ role }) => role === 'after')
  const first =
    before.find(
      ({ view }) =>
        view !== undefined && after.some((other) => other.view === view),
    ) ?? before[0]
  const last =
    after.findLast(({ view }) => view !== undefined && view === first?.view) ??
    after[0]
  return {
    ...(first !== undefined && { before: first.id }),
    ...(last !== undefined && { after: last.id }),
  }
}
