import type { StepTime } from '#core/drying/judge-gap'
import type { Journal, Photo, Step } from '#core/journal/journal'
import { type Span, exactly, firstOf, lastOf } from '#core/time/span'

/** When a step happened, and which clocks say so. */
export type StepTimes = {
  /** From typed times and photos with a trusted clock; from doubted photos when nothing else tells. */
  readonly time: StepTime
  /** With the doubted photos at face value too; the same object when that makes no difference. */
  readonly faceTime: StepTime
  /** The clocks behind `faceTime`, some perhaps twice: `typed`, ids of cameras, `unknown` for photos without a camera. */
  readonly clocks: readonly string[]
  /** The cameras with an unchecked clock among them, and {@link arrivalClock} where a photo has no time of its own. */
  readonly doubted: readonly string[]
  /** Whether `time` rests on doubted photos alone. */
  readonly isDoubtful: boolean
}

/** The clock behind typed times: the owner's own. */
export const typedClock = 'typed'

const typedAlone: readonly string[] = [typedClock]
const noPhotos: readonly Photo[] = []
const noCameras: readonly string[] = []

/** Stands for photos that only their arrival dates: they were taken before it, nobody knows how long. */
export const arrivalClock = 'arrival'

/** The clock behind a photo; of two photos that only their arrival dates, neither tells anything of the other. */
export function clockOf(photo: Photo): string {
  if (photo.basis === 'arrival') return `${arrivalClock} ${photo.id}`
  return photo.cameraId ?? 'unknown'
}

/**
 * The ids of the cameras whose clock nobody has checked, each with the number of photos it puts in doubt:
 * those that carry neither an offset nor satellite time.
 */
export function uncheckedCameras(
  journal: Pick<Journal, 'photos' | 'cameras'>,
): ReadonlyMap<string, number> {
  const unchecked = new Set(
    journal.cameras.flatMap((camera) =>
      camera.clock === undefined ? [camera.id] : [],
    ),
  )
  const photos = new Map<string, number>()
  for (const { cameraId, basis } of journal.photos) {
    if (cameraId === undefined || basis !== 'zone' || !unchecked.has(cameraId))
      continue
    photos.set(cameraId, (photos.get(cameraId) ?? 0) + 1)
  }
  return photos
}

/**
 * When a step happened: typed times win, else its first and last photos tell; undefined when neither is there.
 *
 * A step never ends before it starts: a typed end before the first photo is its start too, and so the other
 * way round.
 *
 * @param photos those of the step
 * @param unchecked ids of cameras, as `uncheckedCameras` gives them
 */
export function stepTimes(
  step: Pick<Step, 'startedAt' | 'finishedAt'>,
  photos: readonly Photo[],
  unchecked: { has(cameraId: string): boolean },
): StepTimes | undefined {
  // Photos tell nothing more where both ends were typed.
  const isTyped = step.startedAt !== undefined && step.finishedAt !== undefined
  const telling = isTyped ? noPhotos : photos
  const faceTime = timeFrom(step, telling)
  if (faceTime === undefined) return undefined
  if (telling.length === 0) {
    return {
      time: faceTime,
      faceTime,
      clocks: typedAlone,
      doubted: noCameras,
      isDoubtful: false,
    }
  }
  const doubtedPhotos = telling.filter((photo) => isDoubted(photo, unchecked))
  const clocks = telling.map(clockOf)
  if (step.startedAt !== undefined || step.finishedAt !== undefined)
    clocks.push(typedClock)
  if (doubtedPhotos.length === 0) {
    return {
      time: faceTime,
      faceTime,
      clocks,
      doubted: [],
      isDoubtful: false,
    }
  }
  const trusted = timeFrom(
    step,
    telling.filter((photo) => !isDoubted(photo, unchecked)),
  )
  return {
    time: trusted ?? faceTime,
    faceTime,
    clocks,
    doubted: [
      ...new Set(
        doubtedPhotos.flatMap((photo) =>
          photo.basis === 'arrival' ? arrivalClock : (photo.cameraId ?? []),
        ),
      ),
    ],
    isDoubtful: trusted === undefined,
  }
}

/** When a step of a journal happened, by its typed times and its photos: see {@link stepTimes}. One step; for many call that with what they share. */
export function stepTimesIn(
  journal: Pick<Journal, 'photos' | 'cameras'>,
  step: Step,
): StepTimes | undefined {
  return stepTimes(
    step,
    journal.photos.filter(({ stepId }) => stepId === step.id),
    uncheckedCameras(journal),
  )
}

function isDoubted(
  photo: Photo,
  unchecked: { has(cameraId: string): boolean },
): boolean {
  return (
    photo.basis === 'arrival' ||
    (photo.basis === 'zone' &&
      photo.cameraId !== undefined &&
      unchecked.has(photo.cameraId))
  )
}

function timeFrom(
  step: Pick<Step, 'startedAt' | 'finishedAt'>,
  photos: readonly Photo[],
): StepTime | undefined {
  if (step.startedAt !== undefined && step.finishedAt !== undefined) {
    const started = exactly(step.startedAt)
    return {
      started,
      finished:
        step.finishedAt > step.startedAt ? exactly(step.finishedAt) : started,
    }
  }
  const taken = photos.map((photo) => photo.taken)
  const start = step.startedAt === undefined ? [] : [exactly(step.startedAt)]
  const end = step.finishedAt === undefined ? [] : [exactly(step.finishedAt)]
  const starts: readonly Span[] = start.length > 0 ? start : [...taken, ...end]
  const ends: readonly Span[] =
    end.length > 0 ? [...start, ...end] : [...start, ...taken]
  if (starts.length === 0 || ends.length === 0) return undefined
  return { started: firstOf(starts), finished: lastOf(ends) }
}
