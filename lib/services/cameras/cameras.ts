import 'server-only'
import { type Result, ok, refused } from '#core/result'
import type { CameraClock } from '#core/time/capture-time'
import type { Instant } from '#core/units'
import { notInBin } from '#services/bin/bin'
import { cameraClock, writeClock } from '#services/cameras/photo-times'
import {
  keepWorkshopChange,
  manyPhotosPatience,
} from '#services/changes/workshop-changes'
import { knownClock } from '#services/cameras/schema'
import { now } from '#services/clock'
import { toInstant } from '#services/database/instants'
import { database } from '#services/database/open-database'
import { readWorkshop } from '#services/workshop/workshop'

/** A camera or phone that has taken photos here. */
export type CameraSummary = {
  readonly id: string
  /** Make and model as one name. */
  readonly name: string
  /** Tells two of the same model apart; empty when the camera keeps it to itself. */
  readonly serial: string
  readonly clock?: CameraClock
  readonly photoCount: number
  /** How many of them rest on this clock alone: they hold no offset and no satellite time. */
  readonly clockOnlyCount: number
  readonly lastTakenAt?: Instant
}

/** The cameras that have taken photos here, by name. */
export async function readCameras(): Promise<readonly CameraSummary[]> {
  const db = await database()
  const clockOnly = await db.photo.groupBy({
    by: ['cameraId'],
    where: { takenBasis: 'zone', ...notInBin },
    _count: true,
  })
  const counts = new Map(clockOnly.map((row) => [row.cameraId, row._count]))
  const rows = await db.camera.findMany({
    orderBy: [{ make: 'asc' }, { model: 'asc' }, { serial: 'asc' }],
    select: {
      id: true,
      make: true,
      model: true,
      serial: true,
      clockCorrectionSeconds: true,
      clockUncertaintySeconds: true,
      _count: { select: { photos: { where: notInBin } } },
      photos: {
        where: notInBin,
        orderBy: { takenAt: 'desc' },
        take: 1,
        select: { takenAt: true },
      },
    },
  })
  return rows.map((row) => {
    const clock = cameraClock(row)
    const last = row.photos[0]
    return {
      id: row.id,
      name: cameraName(row.make, row.model),
      serial: row.serial,
      photoCount: row._count.photos,
      clockOnlyCount: counts.get(row.id) ?? 0,
      ...(clock === undefined ? {} : { clock }),
      ...(last === undefined ? {} : { lastTakenAt: toInstant(last.takenAt) }),
    }
  })
}

/**
 * Writes down how far a camera's clock is off, or, with null, that nobody knows; then works out the times of all its
 * photos again, earlier ones too, save those their owner typed. Originals are never touched.
 *
 * @returns how many photos have another time now; refused when there is no such camera or the clock is no number
 */
export async function setCameraClock(
  cameraId: string,
  clock: CameraClock | null,
): Promise<Result<{ readonly photoCount: number }>> {
  const read = knownClock.nullable().safeParse(clock)
  if (!read.success) {
    const detail = read.error.issues[0]?.message ?? 'That is no clock.'
    return refused({ kind: 'invalid', detail })
  }
  const zone = (await readWorkshop()).zone
  const db = await database()
  return db.$transaction(async (transaction) => {
    const camera = await transaction.camera.findUnique({
      where: { id: cameraId },
      select: { id: true },
    })
    if (camera === null) {
      return refused({
        kind: 'not-found',
        detail: 'There is no such camera.',
      } as const)
    }
    return keepWorkshopChange(
      transaction,
      { kind: 'clock-set', now: now() },
      { cameraIds: [cameraId] },
      async () =>
        ok({
          photoCount: await writeClock(transaction, cameraId, clock, zone),
        }),
    )
  }, manyPhotosPatience)
}

/** Make and model as one name: many models begin with their make already. */
export function cameraName(make: string, model: string): string {
  if (model.toLowerCase().startsWith(make.toLowerCase())) return model
  return `${make} ${model}`.trim()
}
