import 'server-only'
import { type Result, ok, refused } from '#core/result'
import {
  type CameraClock,
  captureTime,
  captureTimeWarning,
  timeSources,
} from '#core/time/capture-time'
import { type Span, span } from '#core/time/span'
import { whyNotThen } from '#core/time/when-it-was'
import { type Instant, instant, millisecondsPerSecond } from '#core/units'
import { keepChange } from '#services/changes/changes'
import { now } from '#services/clock'
import { toDate, toInstant } from '#services/database/instants'
import { type Transaction, database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import { readWorkshop } from '#services/workshop/workshop'

/** A time as the owner typed it, and how far it may be off either way. */
export type TypedTime = {
  readonly at: Instant
  readonly uncertaintySeconds?: number
}

/** The columns of a photo that its capture time is worked out from. */
export const evidenceColumns = {
  id: true,
  jobId: true,
  exifLocal: true,
  exifOffset: true,
  timeSource: true,
  satelliteAt: true,
  fileModifiedAt: true,
  arrivedAt: true,
  warnings: true,
} as const

export type EvidenceRow = {
  readonly id: string
  readonly exifLocal: string | null
  readonly exifOffset: string | null
  readonly timeSource: string | null
  readonly satelliteAt: Date | null
  readonly fileModifiedAt: Date | null
  readonly arrivedAt: Date
  readonly warnings: string
}

const clockColumns = {
  clockCorrectionSeconds: true,
  clockUncertaintySeconds: true,
} as const

/** A camera's clock from its row; undefined while nobody has checked it. */
export function cameraClock(row: {
  readonly clockCorrectionSeconds: number | null
  readonly clockUncertaintySeconds: number | null
}): CameraClock | undefined {
  if (row.clockCorrectionSeconds === null) return undefined
  return {
    correctionSeconds: row.clockCorrectionSeconds,
    uncertaintySeconds: row.clockUncertaintySeconds ?? 0,
  }
}

/**
 * Sets the time of a photo to what its owner says, or, with null, back to what the photo itself says. The original and
 * what was read from it stay as they are.
 *
 * @returns refused when there is no such photo
 */
export async function typePhotoTime(
  photoId: string,
  typed: TypedTime | null,
): Promise<Result<Span>> {
  const reason = typed === null ? undefined : whyNotThen(typed.at, now())
  if (reason !== undefined) return refused({ kind: 'invalid', detail: reason })
  const zone = (await readWorkshop()).zone
  const db = await database()
  const typedAt = now()
  return db.$transaction(async (transaction) => {
    const row = await transaction.photo.findUnique({
      where: { id: photoId },
      select: { ...evidenceColumns, camera: { select: clockColumns } },
    })
    if (row === null) {
      return refused({
        kind: 'not-found',
        detail: 'There is no such photo. It may have been removed.',
      } as const)
    }
    return keepChange(
      transaction,
      { jobId: row.jobId, kind: 'photo-timed', now: typedAt },
      { stepIds: [], photoIds: [], timesOf: [row.id] },
      async () => {
        const taken =
          typed === null
            ? await workOutAgain(
                transaction,
                row,
                zone,
                row.camera === null ? undefined : cameraClock(row.camera),
              )
            : await writeTyped(transaction, row, typed)
        await touchJob(transaction, row.jobId)
        return ok(taken)
      },
    )
  })
}

/** Works out a photo's capture time again from what its file said, and writes it down with its warnings. */
export async function workOutAgain(
  transaction: Transaction,
  row: EvidenceRow,
  zone: string,
  clock: CameraClock | undefined,
): Promise<Span> {
  const found = captureTime({
    local: row.exifLocal ?? undefined,
    offset: row.exifOffset ?? undefined,
    source: timeSources.find((one) => one === row.timeSource),
    satelliteAt: instantOrNone(row.satelliteAt),
    fileModifiedAt: instantOrNone(row.fileModifiedAt),
    arrivedAt: toInstant(row.arrivedAt),
    zone,
    clock,
  })
  await writeTime(transaction, row, found.taken, found.basis, found.warnings)
  return found.taken
}

/**
 * Writes down a camera's clock, or, with null, that nobody knows it, and works out the times of all its photos again, save
 * those their owner typed.
 *
 * @returns how many photos that are
 */
export async function writeClock(
  transaction: Transaction,
  cameraId: string,
  clock: CameraClock | null,
  zone: string,
): Promise<number> {
  await transaction.camera.update({
    where: { id: cameraId },
    data: {
      clockCorrectionSeconds: clock?.correctionSeconds ?? null,
      clockUncertaintySeconds: clock?.uncertaintySeconds ?? null,
    },
    select: { id: true },
  })
  const photos = await transaction.photo.findMany({
    where: { cameraId, takenBasis: { not: 'typed' } },
    select: evidenceColumns,
  })
  for (const photo of photos) {
    await workOutAgain(transaction, photo, zone, clock ?? undefined)
  }
  for (const jobId of new Set(photos.map((photo) => photo.jobId))) {
    await touchJob(transaction, jobId)
  }
  return photos.length
}

async function writeTyped(
  transaction: Transaction,
  row: EvidenceRow,
  typed: TypedTime,
): Promise<Span> {
  const unsure = (typed.uncertaintySeconds ?? 0) * millisecondsPerSecond
  const taken = span(
    instant(typed.at - unsure),
    typed.at,
    instant(typed.at + unsure),
  )
  await writeTime(transaction, row, taken, 'typed', [])
  return taken
}

async function writeTime(
  transaction: Transaction,
  row: EvidenceRow,
  taken: Span,
  basis: string,
  warnings: readonly string[],
): Promise<void> {
  const others = otherWarnings(row.warnings)
  await transaction.photo.update({
    where: { id: row.id },
    data: {
      takenAt: toDate(taken.at),
      takenEarliest: toDate(taken.earliest),
      takenLatest: toDate(taken.latest),
      takenBasis: basis,
      warnings: JSON.stringify([...others, ...warnings]),
    },
    select: { id: true },
  })
}

/** What was said about the file and not about its time. */
function otherWarnings(json: string): readonly string[] {
  const values: unknown = JSON.parse(json)
  return Array.isArray(values)
    ? values.filter(
        (value): value is string =>
          typeof value === 'string' && !value.startsWith(captureTimeWarning),
      )
    : []
}

function instantOrNone(date: Date | null): Instant | undefined {
  return date === null ? undefined : toInstant(date)
}
