import type { Photo } from '#core/journal/journal'
import { type PairPhoto, plainView } from '#core/pairs/pair-photo'

/** A before and an after photo that belong together. */
export type SheetPair<P extends PairPhoto> = {
  readonly before: P
  readonly after: P
}

type PairIds = { readonly before: string; readonly after: string }

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
 * The before and after photos that a sheet shows: of one view that somebody named, the view that shows the piece best,
 * its earliest before and its latest after; else two that are known to belong together; else the only two there are.
 * Names of views are compared without case, hyphens and underscores. It never guesses: among several photos whose view
 * nobody named there is no pair unless one is known.
 *
 * @param chosen ids of photos that the owner wants instead; the other half then follows from the one that is chosen
 * @param known ids of photos that belong together, because the pictures or the owner say so, surest first
 * @param separated ids of photos that the owner said do not belong together: shown together only when both are chosen
 * @returns undefined when there is no such pair, or no telling which it is
 */
export function sheetPair<P extends PairPhoto>(
  photos: readonly P[],
  chosen: {
    readonly before?: string | undefined
    readonly after?: string | undefined
  } = {},
  known: readonly PairIds[] = [],
  separated: readonly PairIds[] = [],
): SheetPair<P> | undefined {
  const before = photos.find((photo) => photo.id === chosen.before)
  const after = photos.find((photo) => photo.id === chosen.after)
  if (before !== undefined && after !== undefined) return { before, after }
  const befores = before === undefined ? ofRole(photos, 'before') : [before]
  const afters = after === undefined ? ofRole(photos, 'after') : [after]
  const named = orderedViews(befores).flatMap((view) => {
    const first = ofView(befores, view).at(0)
    const last = ofView(afters, view).at(-1)
    return first === undefined || last === undefined
      ? []
      : [{ before: first, after: last }]
  })
  const belonging = known.flatMap((pair) => {
    const one = befores.find(({ id }) => id === pair.before)
    const other = afters.find(({ id }) => id === pair.after)
    return one === undefined || other === undefined
      ? []
      : [{ before: one, after: other }]
  })
  const isChosen = before !== undefined || after !== undefined
  const only = theOnlyPair(befores, afters, isChosen)
  return [...named, ...belonging, ...(only === undefined ? [] : [only])].find(
    (pair) =>
      !separated.some(
        (apart) =>
          apart.before === pair.before.id && apart.after === pair.after.id,
      ),
  )
}

/** With one photo on each side there is nothing to guess, unless their views say that they differ. */
function theOnlyPair<P extends PairPhoto>(
  befores: readonly P[],
  afters: readonly P[],
  isChosen: boolean,
): SheetPair<P> | undefined {
  const [before, ...otherBefores] = befores
  const [after, ...otherAfters] = afters
  if (before === undefined || after === undefined) return undefined
  if (otherBefores.length > 0 || otherAfters.length > 0) return undefined
  const isUnnamed = plainView(before) === '' && plainView(after) === ''
  return isChosen || isUnnamed ? { before, after } : undefined
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
  const views = [...new Set(photos.map(plainView))].filter(
    (view) => view !== '',
  )
  return views.toSorted(
    (one, other) => rank(one) - rank(other) || (one < other ? -1 : 1),
  )
}

function rank(view: string): number {
  const index = preferredViews.indexOf(view)
  return index === -1 ? preferredViews.length : index
}
