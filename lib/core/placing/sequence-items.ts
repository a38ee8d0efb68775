import type { Journal, Photo, Step } from '#core/journal/journal'
import { burstsOf } from '#core/photos/bursts'
import type { ColourGrid } from '#core/photos/colour-grid'
import { type Place, placeKey } from '#core/placing/place'
import { stepTimes, uncheckedCameras } from '#core/timeline/step-times'
import type { Instant } from '#core/units'

/** What a photo looks like, as far as that is known. */
export type PhotoLook = {
  /** As `likeness` gives it. */
  readonly likeness?: string
  /** As `sharpness` gives it. */
  readonly sharpness?: number
  readonly colours?: ColourGrid
}

/** One moment of a job's story: photos taken one right after another, or a step that only its owner dated. */
export type SequenceItem = {
  /** In order of time; none for a step without photos. */
  readonly photoIds: readonly string[]
  readonly from: Instant
  readonly until: Instant
  /** The camera whose unchecked clock it goes by, or the photo that nothing but its arrival dates. */
  readonly doubtedClock?: string
  /** Of its sharpest photo. */
  readonly look: PhotoLook
  /** Where it has been placed already. */
  readonly fixed?: Place
}

/** The story of a job in order of time, as far as photos and typed times tell it. */
export function sequenceItems(
  journal: Journal,
  looks: ReadonlyMap<string, PhotoLook>,
): readonly SequenceItem[] {
  const steps = new Map(journal.steps.map((step) => [step.id, step]))
  const unchecked = uncheckedCameras(journal)
  const fromPhotos = burstsOf(
    journal.photos.map((photo) => ({ ...photo, ...looks.get(photo.id) })),
  ).flatMap((burst) =>
    splitByPlace(burst, steps).map(([photos, fixed]) =>
      itemOf(photos, fixed, looks, unchecked),
    ),
  )
  const fromSteps = journal.steps
    .filter((step) => step.photoIds.length === 0)
    .flatMap((step): SequenceItem[] => {
      const time = stepTimes(step, [], unchecked)?.time
      if (time === undefined) return []
      return [
        {
          photoIds: [],
          from: time.started.at,
          until: time.finished.at,
          look: {},
          fixed: placeOfStep(step),
        },
      ]
    })
  return [...fromPhotos, ...fromSteps].toSorted(
    (one, other) => one.from - other.from,
  )
}

/** A step that is there, as a place for photos. */
export function placeOfStep(step: Step): Place {
  const coat = step.surfaces[0]?.coat
  return {
    as: 'step',
    kind: step.kind,
    surfaceIds: step.surfaces.map((on) => on.surfaceId),
    ...(coat === undefined ? {} : { coat }),
    stepId: step.id,
  }
}

/** The photos of a burst, those that were placed together together. */
function splitByPlace(
  burst: readonly Photo[],
  steps: ReadonlyMap<string, Step>,
): readonly (readonly [readonly Photo[], Place | undefined])[] {
  const groups = new Map<string, [Photo[], Place | undefined]>()
  for (const photo of burst) {
    const place = placeOf(photo, steps)
    const key = place === undefined ? '' : placeKey(place)
    const group = groups.get(key)
    if (group === undefined) groups.set(key, [[photo], place])
    else group[0].push(photo)
  }
  return [...groups.values()]
}

function placeOf(
  photo: Photo,
  steps: ReadonlyMap<string, Step>,
): Place | undefined {
  const step = photo.stepId === undefined ? undefined : steps.get(photo.stepId)
  if (step !== undefined) return placeOfStep(step)
  return photo.role === 'progress' ? undefined : { as: photo.role }
}

function itemOf(
  photos: readonly Photo[],
  fixed: Place | undefined,
  looks: ReadonlyMap<string, PhotoLook>,
  unchecked: { has(cameraId: string): boolean },
): SequenceItem {
  const times = photos.map((photo) => photo.taken.at)
  const seen = photos
    .flatMap((photo) => looks.get(photo.id) ?? [])
    .toSorted((one, other) => (other.sharpness ?? 0) - (one.sharpness ?? 0))
  const doubted = photos.find(
    ({ basis, cameraId }) =>
      basis === 'arrival' ||
      (basis === 'zone' && cameraId !== undefined && unchecked.has(cameraId)),
  )
  return {
    photoIds: photos.map((photo) => photo.id),
    from: Math.min(...times) as Instant,
    until: Math.max(...times) as Instant,
    ...(doubted === undefined
      ? {}
      : {
          doubtedClock:
            doubted.basis === 'arrival'
              ? doubted.id
              : (doubted.cameraId ?? doubted.id),
        }),
    look: seen[0] ?? {},
    ...(fixed === undefined ? {} : { fixed }),
  }
}
