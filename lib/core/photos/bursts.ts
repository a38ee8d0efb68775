import { unlikeness } from '#core/photos/likeness'
import type { Span } from '#core/time/span'
import { millisecondsPerSecond } from '#core/units'

/** What is known of a photo that may be one of several of the same thing. */
export type BurstPhoto = {
  readonly id: string
  readonly cameraId?: string
  readonly taken: Span
  /** As `likeness` gives it. */
  readonly likeness?: string
  /** As `sharpness` gives it. */
  readonly sharpness?: number
}

/** Photos of one view taken one after another: one to look at, and the others behind it. */
export type Fold<P> = { readonly front: P; readonly behind: readonly P[] }

/** Somebody who takes several shots of one thing takes them within this of each other; common practice, no source. */
const longestGapSeconds = 15
/** Of 64 bits, pictures of the same view differ in at most so many; common practice, no source. */
const mostUnlike = 10

/**
 * The bursts among photos: runs of one camera, each photo taken within a quarter of a minute of the one before. A photo
 * alone is a burst of one.
 *
 * @returns in order of time; the photos of each likewise
 */
export function burstsOf<P extends BurstPhoto>(
  photos: readonly P[],
): readonly (readonly P[])[] {
  const bursts: P[][] = []
  const open = new Map<string, P[]>()
  const inOrder = photos.toSorted(
    (one, other) =>
      one.taken.at - other.taken.at || (one.id < other.id ? -1 : 1),
  )
  for (const photo of inOrder) {
    const camera = photo.cameraId ?? ''
    const burst = open.get(camera)
    const before = burst?.at(-1)
    const near =
      before !== undefined &&
      photo.taken.at - before.taken.at <=
        longestGapSeconds * millisecondsPerSecond
    if (burst !== undefined && near) {
      burst.push(photo)
    } else {
      const begun = [photo]
      bursts.push(begun)
      open.set(camera, begun)
    }
  }
  return bursts
}

/**
 * Folds what looks the same in each burst: the sharpest in front, the others behind it. Nothing is left out, and a photo
 * whose looks are not known stands alone.
 *
 * @returns in order of the time of the first photo of each
 */
export function foldRepeats<P extends BurstPhoto>(
  photos: readonly P[],
): readonly Fold<P>[] {
  return burstsOf(photos)
    .flatMap(foldBurst)
    .toSorted((one, other) => firstAt(one) - firstAt(other))
}

function foldBurst<P extends BurstPhoto>(burst: readonly P[]): Fold<P>[] {
  // The sharpest first: every other photo then joins the sharpest that it looks like.
  const bySharpness = burst.toSorted(
    (one, other) => (other.sharpness ?? -1) - (one.sharpness ?? -1),
  )
  const folds: { readonly front: P; readonly behind: P[] }[] = []
  for (const photo of bySharpness) {
    const like = folds.find(({ front }) => looksLike(front, photo))
    if (like === undefined) folds.push({ front: photo, behind: [] })
    else like.behind.push(photo)
  }
  return folds
}

function looksLike(one: BurstPhoto, other: BurstPhoto): boolean {
  return (
    one.likeness !== undefined &&
    other.likeness !== undefined &&
    unlikeness(one.likeness, other.likeness) <= mostUnlike
  )
}

function firstAt<P extends BurstPhoto>({ front, behind }: Fold<P>): number {
  return Math.min(...[front, ...behind].map((photo) => photo.taken.at))
}
