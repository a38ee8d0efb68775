import 'server-only'
import { z } from 'zod'
import {
  type PhotoRole,
  type TimeBasis,
  timeBases,
} from '#core/journal/vocabulary'
import { turnedSize } from '#core/photos/turned-size'
import { type Result, ok } from '#core/result'
import { type CameraClock, captureTime } from '#core/time/capture-time'
import type { Span } from '#core/time/span'
import type { Instant } from '#core/units'
import { takeOutOfBin } from '#services/bin/bin'
import { cameraClock } from '#services/cameras/photo-times'
import { toInstant } from '#services/database/instants'
import { insertRow } from '#services/database/insert-row'
import { newId } from '#services/database/new-id'
import type { PlainSql } from '#services/database/one-connection'
import {
  type Transaction,
  database,
  writeInPlainSql,
} from '#services/database/open-database'
import { touchJob, touchJobInPlainSql } from '#services/database/touch-job'
import type { Inspection } from '#services/intake/inspect-photo'
import type { CameraName, PhotoMetadata } from '#services/intake/read-metadata'
import type { Arrival } from '#services/photo-store/photo-store'
import {
  type Sending,
  readReceipt,
  readReceiptInPlainSql,
  writeReceipt,
  writeReceiptInPlainSql,
} from '#services/receipts/receipts'
import { placePhotosOnStep } from '#services/steps/steps'

/** A photo that is kept, as its sender is told. */
export type KeptPhoto = {
  readonly id: string
  readonly name: string
  readonly sha256: string
  readonly mediaType: string
  /** Upright pixels. */
  readonly width: number
  readonly height: number
  readonly taken: Span
  readonly basis: TimeBasis
  /** The photo that these very bytes came as before; this photo itself when that was in the same job. */
  readonly duplicateOf?: string
  readonly warnings: readonly string[]
}

/** Where a photo belongs, how its time is read, and what its sender is told of that place. */
export type Place = {
  readonly jobId: string
  readonly role: PhotoRole
  readonly view: string | null
  readonly stepId: string | null
  readonly surfaceIds: readonly string[]
  readonly zone: string
  /** Of the moment, such as that it is in the bin: they stand in the answer and not on the photo. */
  readonly warnings: readonly string[]
}

/** All that is known of a photo whose original is in the store. */
export type Keeping = {
  readonly fileName: string
  readonly fileModifiedAt: Instant | undefined
  readonly arrival: Arrival
  readonly picture: Exclude<Inspection, { readonly kind: 'refused' }>
  readonly metadata: PhotoMetadata
  readonly place: Place
  readonly now: Instant
  /** Under which key the upload was sent, if any, and which of its files this is. */
  readonly sending: Sending | undefined
}

/**
 * Records a photo, its original and what it shows, together or not at all. The same bytes again in the same job are the
 * photo that is there; under a sending key that came before, what was answered then.
 *
 * @returns refused when another upload came under the same key
 */
export async function recordPhoto(
  keeping: Keeping,
): Promise<Result<KeptPhoto>> {
  const db = await database()
  for (;;) {
    const made = await writeInPlainSql((sql) => recordNew(sql, keeping))
    if (made !== undefined) return made
    const found = await db.$transaction((transaction) =>
      recordAgain(transaction, keeping),
    )
    // Where it was taken away meanwhile it is new after all.
    if (found !== undefined) return found
  }
}

/** In plain SQL, as every photo waits for it; undefined, with nothing written, when the job has the photo already. */
function recordNew(
  sql: PlainSql,
  keeping: Keeping,
): Result<KeptPhoto> | undefined {
  const { arrival, place, sending, now } = keeping
  const before = sending && readReceiptInPlainSql(sql, sending)
  if (before !== undefined && isAnswered(before)) return asAnswered(before)
  const others = addOriginal(sql, keeping) ? [] : photosOf(sql, arrival.sha256)
  if (others.some((one) => one.jobId === place.jobId)) return undefined
  const photo = addPhoto(sql, keeping)
  touchJobInPlainSql(sql, place.jobId)
  const first = others.find((one) => one.removedAt === null)
  const kept = {
    ...photo,
    ...(first === undefined ? {} : { duplicateOf: first.id }),
    warnings: [...photo.warnings, ...place.warnings],
  }
  if (sending !== undefined) writeReceiptInPlainSql(sql, sending, kept, now)
  return ok(kept)
}

/** The photo that the job has already: out of the bin, and on the step that it was sent for. */
async function recordAgain(
  transaction: Transaction,
  { arrival, place, sending, now, fileName }: Keeping,
): Promise<Result<KeptPhoto> | undefined> {
  const before = sending && (await readReceipt(transaction, sending))
  if (before !== undefined && isAnswered(before)) return asAnswered(before)
  const here = await transaction.photo.findUnique({
    where: {
      jobId_sha256: { jobId: place.jobId, sha256: arrival.sha256 },
    },
    select: described,
  })
  if (here === null) return undefined
  const back = await takeOutOfBin(transaction, here.id)
  const moved = await moveToStep(transaction, here, place)
  if (back || moved) await touchJob(transaction, place.jobId)
  const kept = asBefore(here, fileName, [
    back ? wasInBin : moved ? isOnStep : wasHere,
    ...place.warnings,
  ])
  if (sending !== undefined) {
    await writeReceipt(transaction, sending, kept, now)
  }
  return ok(kept)
}

/** Whether an upload under this key needs no more: it was answered, or another one was. */
function isAnswered(receipt: Result<unknown>): boolean {
  return !receipt.ok || receipt.value !== undefined
}

/** Ours, as it was answered the first time. */
function asAnswered(receipt: Result<unknown>): Result<KeptPhoto> {
  return receipt.ok ? ok(receipt.value as KeptPhoto) : receipt
}

/** Who sends a photo again for a step says what it shows. */
async function moveToStep(
  transaction: Transaction,
  { id, stepId }: Described,
  place: Place,
): Promise<boolean> {
  if (place.stepId === null || place.stepId === stepId) return false
  await placePhotosOnStep(transaction, place.stepId, place.surfaceIds, [id])
  return true
}

/** Records an original unless it is on record; returns whether it was not. */
function addOriginal(
  sql: PlainSql,
  { arrival, picture, now }: Keeping,
): boolean {
  const added = sql.run(
    `INSERT INTO "Original" ("sha256", "byteLength", "mediaType", "width", "height", "keptAt", "crc32")
    VALUES (?, ?, ?, ?, ?, ?, ?)
    ON CONFLICT DO NOTHING`,
    arrival.sha256,
    arrival.byteLength,
    picture.mediaType,
    picture.width,
    picture.height,
    now,
    arrival.crc32,
  )
  return added > 0
}

const samePhotos = z.array(
  z.object({
    id: z.string(),
    jobId: z.string(),
    removedAt: z.number().nullable(),
  }),
)

/** The photos of one original, the one that came first in front. */
function photosOf(sql: PlainSql, sha256: string): z.infer<typeof samePhotos> {
  return samePhotos.parse(
    sql.rows(
      'SELECT "id", "jobId", "removedAt" FROM "Photo" WHERE "sha256" = ? ORDER BY "arrivedAt", "id"',
      sha256,
    ),
  )
}

function addPhoto(sql: PlainSql, keeping: Keeping): KeptPhoto {
  const { fileName, fileModifiedAt, arrival, picture, metadata } = keeping
  const { place, now } = keeping
  const camera = metadata.camera && findCamera(sql, metadata.camera, now)
  const found = captureTime({
    local: metadata.local,
    offset: metadata.offset,
    source: metadata.source,
    satelliteAt: metadata.satelliteAt,
    fileModifiedAt,
    arrivedAt: now,
    zone: place.zone,
    clock: camera?.clock,
  })
  const id = newId()
  const warnings = [...picture.warnings, ...found.warnings]
  insertRow(sql, 'Photo', {
    id,
    jobId: place.jobId,
    sha256: arrival.sha256,
    fileName,
    arrivedAt: now,
    fileModifiedAt: fileModifiedAt ?? null,
    role: place.role,
    view: place.view,
    stepId: place.stepId,
    cameraId: camera?.id ?? null,
    exifLocal: metadata.local ?? null,
    exifOffset: metadata.offset ?? null,
    timeSource: metadata.source ?? null,
    satelliteAt: metadata.satelliteAt ?? null,
    takenAt: found.taken.at,
    takenEarliest: found.taken.earliest,
    takenLatest: found.taken.latest,
    takenBasis: found.basis,
    warnings: JSON.stringify(warnings),
  })
  for (const surfaceId of place.surfaceIds) {
    insertRow(sql, 'PhotoSurface', { photoId: id, surfaceId })
  }
  return {
    id,
    name: fileName,
    sha256: arrival.sha256,
    mediaType: picture.mediaType,
    width: picture.width,
    height: picture.height,
    taken: found.taken,
    basis: found.basis,
    warnings,
  }
}

const cameras = z.array(
  z.object({
    id: z.string(),
    clockCorrectionSeconds: z.number().nullable(),
    clockUncertaintySeconds: z.number().nullable(),
  }),
)

/** The camera by that name, recorded where it is new. */
function findCamera(
  sql: PlainSql,
  { make, model, serial }: CameraName,
  now: Instant,
): { readonly id: string; readonly clock?: CameraClock | undefined } {
  const [known] = cameras.parse(
    sql.rows(
      'SELECT "id", "clockCorrectionSeconds", "clockUncertaintySeconds" FROM "Camera" WHERE "make" = ? AND "model" = ? AND "serial" = ?',
      make,
      model,
      serial,
    ),
  )
  if (known !== undefined) return { id: known.id, clock: cameraClock(known) }
  const id = newId()
  insertRow(sql, 'Camera', { id, make, model, serial, createdAt: now })
  return { id }
}

const described = {
  id: true,
  stepId: true,
  sha256: true,
  takenAt: true,
  takenEarliest: true,
  takenLatest: true,
  takenBasis: true,
  quarterTurns: true,
  original: { select: { mediaType: true, width: true, height: true } },
} as const

type Described = {
  readonly id: string
  readonly stepId: string | null
  readonly sha256: string
  readonly takenAt: Date
  readonly takenEarliest: Date
  readonly takenLatest: Date
  readonly takenBasis: string
  readonly quarterTurns: number
  readonly original: {
    readonly mediaType: string
    readonly width: number
    readonly height: number
  }
}

const wasHere = 'This photo is in the job already; it is kept once.'
const isOnStep =
  'This photo is in the job already; it is kept once, and belongs to the step now.'
const wasInBin = 'This photo was in the bin; it is back in the job.'

function asBefore(
  row: Described,
  name: string,
  warnings: readonly string[],
): KeptPhoto {
  return {
    id: row.id,
    name,
    sha256: row.sha256,
    mediaType: row.original.mediaType,
    ...turnedSize(row.original, row.quarterTurns),
    taken: {
      earliest: toInstant(row.takenEarliest),
      at: toInstant(row.takenAt),
      latest: toInstant(row.takenLatest),
    },
    basis: timeBases.find((one) => one === row.takenBasis) ?? 'arrival',
    duplicateOf: row.id,
    warnings,
  }
}
