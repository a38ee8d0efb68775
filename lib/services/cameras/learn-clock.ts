import 'server-only'
import { unlikeness } from '#core/photos/likeness'
import { type Result, ok, refused } from '#core/result'
import { type CameraClock, captureTime } from '#core/time/capture-time'
import {
  type ClockComparison,
  againstOtherCamera,
  againstSatellite,
  againstShownClock,
  clockError,
} from '#core/time/clock-error'
import type { Span } from '#core/time/span'
import { type Instant, millisecondsPerMinute, minutesPerDay } from '#core/units'
import { notInBin } from '#services/bin/bin'
import { cameraName, setCameraClock } from '#services/cameras/cameras'
import { cameraClock } from '#services/cameras/photo-times'
import { toInstant } from '#services/database/instants'
import { database } from '#services/database/open-database'
import { readWorkshop } from '#services/workshop/workshop'

/** A clock that was learnt, and how many photos have another time now. */
export type LearntClock = {
  readonly clock: CameraClock
  readonly photoCount: number
}

/** A camera whose clock nobody has checked, and what among the photos that are here would tell how far it is off. */
export type ClockSuggestion = {
  readonly cameraId: string
  readonly cameraName: string
  /** What it would be set to. */
  readonly clock: CameraClock
} & (
  | { readonly from: 'satellite'; readonly photoIds: readonly string[] }
  | {
      readonly from: 'same-moment'
      /** Look at both first: they look alike, and may still be of two moments. */
      readonly photoId: string
      readonly otherPhotoId: string
    }
)

/** A photo by which its camera's clock can be checked. */
export type ClockChoices = {
  readonly cameraId: string
  readonly cameraName: string
  readonly clock?: CameraClock
  /** When the photo was taken by that clock, uncorrected; in the workshop's zone where it wrote no offset. */
  readonly byItsClock: Instant
  /** Photos of other cameras that may be of the same moment and whose time is trusted, the likeliest first. */
  readonly others: readonly { readonly id: string; readonly takenAt: Instant }[]
}

/** Two phones in one hand: what is taken of the same thing with both, one after the other; common practice, no source. */
const usuallyApartSeconds = 30
/** Of 64 bits; common practice, no source. */
const mostUnlike = 6
const bitsOfLikeness = 64
const mostPhotos = 200
const mostChoices = 6
/** Zones are whole quarters of an hour apart (IANA time zone data). */
const zoneGridSeconds = 900

/**
 * Learns how far a camera's clock is off from the satellite time in its photos, and corrects all of them.
 *
 * @returns refused when none of its photos has both times, or they do not agree on one correction
 */
export async function learnClockFromSatellite(
  cameraId: string,
): Promise<Result<LearntClock>> {
  const photos = await readPhotos({ cameraId, satelliteAt: { not: null } })
  const zone = (await readWorkshop()).zone
  const clock = clockError(satelliteComparisons(photos, zone))
  if (clock === undefined) {
    return refused({
      kind: 'conflict',
      detail:
        'The photos of this camera hold no satellite time that tells how far its clock is off. Take a photo of a phone that shows the time.',
    })
  }
  return learnt(cameraId, clock)
}

/**
 * Learns how far a camera's clock is off from its photo of a clock that is right, and corrects all its photos.
 *
 * @param shown what that clock shows in the photo, and to which unit
 * @returns refused when there is no such photo or its camera wrote no time
 */
export async function learnClockFromShownTime(
  photoId: string,
  shown: { readonly at: Instant; readonly to: 'second' | 'minute' },
): Promise<Result<LearntClock>> {
  const zone = (await readWorkshop()).zone
  const [photo] = await readPhotos({ id: photoId })
  const camera = photo === undefined ? undefined : cameraTime(photo, zone)
  const cameraId = photo?.cameraId ?? undefined
  if (cameraId === undefined || camera === undefined) return refused(noClock)
  const clock = clockError([againstShownClock(camera, shown.at, shown.to)])
  return clock === undefined ? refused(noClock) : learnt(cameraId, clock)
}

/**
 * Learns how far a camera's clock is off from a photo taken at the same moment as one of another camera, whose time is
 * trusted, and corrects all its photos.
 *
 * @param apartSeconds how long the one may have been taken before or after the other
 * @returns refused when there is no such photo, both are of one camera, or its camera wrote no time
 */
export async function learnClockFromSameMoment(
  photoId: string,
  trustedPhotoId: string,
  apartSeconds: number = usuallyApartSeconds,
): Promise<Result<LearntClock>> {
  if (!(apartSeconds >= 0 && apartSeconds <= 3600)) {
    return refused({
      kind: 'invalid',
      detail: 'Give how far apart they may be in seconds, up to an hour.',
    })
  }
  const zone = (await readWorkshop()).zone
  const found = await readPhotos({ id: { in: [photoId, trustedPhotoId] } })
  const photo = found.find((one) => one.id === photoId)
  const other = found.find((one) => one.id === trustedPhotoId)
  const camera = photo === undefined ? undefined : cameraTime(photo, zone)
  const cameraId = photo?.cameraId ?? undefined
  if (cameraId === undefined || other === undefined || camera === undefined) {
    return refused(noClock)
  }
  if (other.cameraId === cameraId) {
    return refused({
      kind: 'invalid',
      detail: 'Both photos are of one camera. Choose one of another camera.',
    })
  }
  const comparison = againstOtherCamera(camera, takenOf(other), apartSeconds)
  const clock = clockError([comparison])
  return clock === undefined ? refused(noClock) : learnt(cameraId, clock)
}

/** By what a photo's camera can be checked; undefined when its camera is not named or wrote no time. */
export async function readClockChoices(
  photoId: string,
): Promise<ClockChoices | undefined> {
  const zone = (await readWorkshop()).zone
  const db = await database()
  const [photo] = await readPhotos({ id: photoId })
  const row = await db.photo.findUnique({
    where: { id: photoId },
    select: {
      jobId: true,
      camera: {
        select: {
          id: true,
          make: true,
          model: true,
          clockCorrectionSeconds: true,
          clockUncertaintySeconds: true,
        },
      },
    },
  })
  const byItsClock = photo === undefined ? undefined : cameraTime(photo, zone)
  const camera = row?.camera ?? undefined
  if (photo === undefined || camera === undefined) return undefined
  if (row === null || byItsClock === undefined) return undefined
  const others = await readPhotos({
    jobId: row.jobId,
    OR: [{ cameraId: null }, { cameraId: { not: camera.id } }],
    AND: { OR: trustedTimes },
  })
  const { likeness } = photo.original
  const unlike = (other: PhotoRow) =>
    likeness === null || other.original.likeness === null
      ? bitsOfLikeness
      : unlikeness(likeness, other.original.likeness)
  const clock = cameraClock(camera)
  return {
    cameraId: camera.id,
    cameraName: cameraName(camera.make, camera.model),
    ...(clock === undefined ? {} : { clock }),
    byItsClock: byItsClock.at,
    others: others
      .toSorted((one, other) => unlike(one) - unlike(other))
      .slice(0, mostChoices)
      .map(({ id, takenAt }) => ({ id, takenAt: toInstant(takenAt) })),
  }
}

/** Times that do not rest on a clock nobody has checked. */
const trustedTimes: NonNullable<Where>[] = [
  { takenBasis: { in: ['offset', 'gps', 'typed'] } },
  { takenBasis: 'zone', camera: { clockCorrectionSeconds: { not: null } } },
]

/**
 * The cameras whose clock nobody has checked and can be learnt from photos that are here: from satellite time, or from a
 * photo that looks like one of a camera that is trusted, taken within a day of it by their clocks.
 */
export async function suggestClocks(): Promise<readonly ClockSuggestion[]> {
  const zone = (await readWorkshop()).zone
  const db = await database()
  const cameras = await db.camera.findMany({
    where: { clockCorrectionSeconds: null },
    select: { id: true, make: true, model: true },
  })
  if (cameras.length === 0) return []
  const trusted = await readPhotos({
    takenBasis: { in: ['offset', 'gps', 'typed'] },
    original: { likeness: { not: null } },
  })
  const suggestions: ClockSuggestion[] = []
  for (const { id, make, model } of cameras) {
    const named = { cameraId: id, cameraName: cameraName(make, model) }
    const photos = await readPhotos({ cameraId: id, exifOffset: null })
    const withFix = photos.filter((photo) => photo.satelliteAt !== null)
    const clock = clockError(satelliteComparisons(withFix, zone))
    if (clock !== undefined && !couldBeZone(clock)) {
      const photoIds = withFix.map((photo) => photo.id)
      suggestions.push({ ...named, clock, from: 'satellite', photoIds })
      continue
    }
    const others = trusted.filter((photo) => photo.cameraId !== id)
    const pair = likestPair(photos, others, zone)
    if (pair !== undefined) {
      suggestions.push({ ...named, from: 'same-moment', ...pair })
    }
  }
  return suggestions
}

/**
 * Whether another time zone would explain it: a camera that is right and was taken abroad. Satellite time settles its
 * photos one by one already.
 */
function couldBeZone({
  correctionSeconds,
  uncertaintySeconds,
}: CameraClock): boolean {
  const nearest = Math.round(correctionSeconds / zoneGridSeconds)
  const apart = Math.abs(correctionSeconds - nearest * zoneGridSeconds)
  return apart <= uncertaintySeconds
}

const noClock = {
  kind: 'not-found',
  detail:
    'There is no such photo, or its camera wrote no time into it. Choose a photo with a time.',
} as const

async function learnt(
  cameraId: string,
  clock: CameraClock,
): Promise<Result<LearntClock>> {
  const set = await setCameraClock(cameraId, clock)
  return set.ok ? ok({ clock, photoCount: set.value.photoCount }) : set
}

type Where = NonNullable<
  Parameters<Awaited<ReturnType<typeof database>>['photo']['findMany']>[0]
>['where']

/** The newest photos of a kind: a clock drifts, and may have been set since the oldest. */
async function readPhotos(where: Where) {
  const db = await database()
  return db.photo.findMany({
    where: { ...where, ...notInBin },
    orderBy: { takenAt: 'desc' },
    take: mostPhotos,
    select: {
      id: true,
      cameraId: true,
      stepId: true,
      exifLocal: true,
      exifOffset: true,
      satelliteAt: true,
      takenAt: true,
      takenEarliest: true,
      takenLatest: true,
      takenBasis: true,
      original: { select: { likeness: true } },
    },
  })
}

type PhotoRow = Awaited<ReturnType<typeof readPhotos>>[number]

/** What the camera's clock said, uncorrected: in its own offset, else in the workshop's zone; no satellite helps it. */
function cameraTime(photo: PhotoRow, zone: string): Span | undefined {
  if (photo.exifLocal === null) return undefined
  return captureTime({
    local: photo.exifLocal,
    offset: photo.exifOffset ?? undefined,
    // Of a clock that runs ahead nothing is held back.
    arrivedAt: distantFuture,
    zone,
  }).taken
}

const distantFuture: Instant = toInstant(new Date('9000-01-01T00:00:00Z'))

function takenOf(photo: PhotoRow): Span {
  return {
    earliest: toInstant(photo.takenEarliest),
    at: toInstant(photo.takenAt),
    latest: toInstant(photo.takenLatest),
  }
}

function satelliteComparisons(
  photos: readonly PhotoRow[],
  zone: string,
): readonly ClockComparison[] {
  return photos.flatMap((photo) => {
    const camera = cameraTime(photo, zone)
    return camera === undefined || photo.satelliteAt === null
      ? []
      : [againstSatellite(camera, toInstant(photo.satelliteAt))]
  })
}

function likestPair(
  photos: readonly PhotoRow[],
  others: readonly PhotoRow[],
  zone: string,
):
  | {
      readonly photoId: string
      readonly otherPhotoId: string
      readonly clock: CameraClock
    }
  | undefined {
  const day = minutesPerDay * millisecondsPerMinute
  let best: { photo: PhotoRow; other: PhotoRow; bits: number } | undefined
  for (const photo of photos) {
    const { likeness } = photo.original
    if (likeness === null || photo.exifLocal === null) continue
    for (const other of others) {
      // The course of one piece of work looks alike from end to end, and two works are two moments.
      if (photo.stepId !== null && other.stepId !== null) continue
      const near =
        Math.abs(other.takenAt.getTime() - photo.takenAt.getTime()) <= day
      if (!near || other.original.likeness === null) continue
      const bits = unlikeness(likeness, other.original.likeness)
      if (bits <= mostUnlike && (best === undefined || bits < best.bits)) {
        best = { photo, other, bits }
      }
    }
  }
  if (best === undefined) return undefined
  const camera = cameraTime(best.photo, zone)
  if (camera === undefined) return undefined
  const clock = clockError([
    againstOtherCamera(camera, takenOf(best.other), usuallyApartSeconds),
  ])
  return clock === undefined
    ? undefined
    : { photoId: best.photo.id, otherPhotoId: best.other.id, clock }
}
