import type { Photo } from '#core/journal/journal'

/** What a photo must say to be one half of a sheet. */
export type PairPhoto = Pick<Photo, 'id' | 'role' | 'view' | 'taken'>

/** A before and an after photo that belong together. */
export type SheetPair<P extends PairPhoto> = {
  readonly before: P
  readonly after: P
}

/** The views that show a piece best, best first; any other follows. */
const preferredViews = [
  'front',
  'left three quarter',
  'right three quarter',
  'three quarter',
  'top',
  'hardware',
  'inside',
]

/**
 * The before and after photos that a sheet shows: of one view, the view that shows the piece best, its earliest before
 * and its latest after. Names of views are compared without case, hyphens and underscores. Photos whose view nobody
 * named go with each other, last.
 *
 * @param chosen ids of photos that the owner wants instead; the other half then follows from the one that is chosen
 * @returns undefined when there is no such pair
 */
export function sheetPair<P extends PairPhoto>(
  photos: readonly P[],
  chosen: {
    readonly before?: string | undefined
    readonly after?: string | undefined
  } = {},
): SheetPair<P> | undefined {
  const before = photos.find((photo) => photo.id === chosen.before)
  const after = photos.find((photo) => photo.id === chosen.after)
  if (before !== undefined && after !== undefined) return { before, after }
  const befores = before === undefined ? ofRole(photos, 'before') : [before]
  const afters = after === undefined ? ofRole(photos, 'after') : [after]
  const pairs = orderedViews(befores).flatMap((view) => {
    const first = ofView(befores, view).at(0)
    const last = ofView(afters, view).at(-1)
    return first === undefined || last === undefined
      ? []
      : [{ before: first, after: last }]
  })
  return pairs[0] ?? withoutView(before, befores, after, afters)
}

/** When the owner chose one photo and no other shows its view, the other half is the first before or the last after. */
function withoutView<P extends PairPhoto>(
  before: P | undefined,
  befores: readonly P[],
  after: P | undefined,
  afters: readonly P[],
): SheetPair<P> | undefined {
  if (before === undefined && after === undefined) return undefined
  const first = befores.at(0)
  const last = afters.at(-1)
  return first === undefined || last === undefined
    ? undefined
    : { before: first, after: last }
}

function ofRole<P extends PairPhoto>(
  photos: readonly P[],
  role: Photo['role'],
): readonly P[] {
  return photos
    .filter((photo) => photo.role === role)
    .toSorted((one, other) => one.taken.at - other.taken.at)
}

function ofView<P extends PairPhoto>(
  photos: readonly P[],
  view: string,
): readonly P[] {
  return photos.filter((photo) => plainView(photo) === view)
}

function orderedViews(photos: readonly PairPhoto[]): readonly string[] {
  const views = [...new Set(photos.map(plainView))]
  return views.toSorted(
    (one, other) => rank(one) - rank(other) || (one < other ? -1 : 1),
  )
}

function rank(view: string): number {
  if (view === '') return Number.MAX_SAFE_INTEGER
  const index = preferredViews.indexOf(view)
  return index === -1 ? preferredViews.length : index
}

function plainView(photo: PairPhoto): string {
  return (photo.view ?? '')
    .toLowerCase()
    .replaceAll(/[\s_-]+/g, ' ')
    .trim()
}
