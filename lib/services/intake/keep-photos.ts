import 'server-only'
import {
  type PhotoRole,
  type TimeBasis,
  timeBases,
} from '#core/journal/vocabulary'
import { turnedSize } from '#core/photos/turned-size'
import { type Result, ok, refused } from '#core/result'
import { type CameraClock, captureTime } from '#core/time/capture-time'
import type { Span } from '#core/time/span'
import type { Instant } from '#core/units'
import { takeOutOfBin } from '#services/bin/bin'
import { cameraClock } from '#services/cameras/photo-times'
import { toDate, toInstant } from '#services/database/instants'
import { newId } from '#services/database/new-id'
import { type Transaction, database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import { type Inspection, inspectPhoto } from '#services/intake/inspect-photo'
import {
  type CameraName,
  type PhotoMetadata,
  readMetadata,
} from '#services/intake/read-metadata'
import {
  type ReceivedFile,
  type ReceivedUpload,
  discardAll,
} from '#services/intake/receive-upload'
import type { UploadFields } from '#services/intake/schema'
import { noJob } from '#services/jobs/jobs'
import {
  isOnRecord,
  openPhotoStore,
} from '#services/photo-store/open-photo-store'
import type { Arrival } from '#services/photo-store/photo-store'
import {
  type Sending,
  fingerprintOf,
  readReceipt,
  writeReceipt,
} from '#services/receipts/receipts'
import { queueRenditions } from '#services/renditions/renditions'
import { placePhotosOnStep } from '#services/steps/steps'
import { readWorkshop } from '#services/workshop/workshop'

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

export type RejectedFile = { readonly name: string; readonly reason: string }

export type KeptUpload = {
  readonly photos: readonly KeptPhoto[]
  readonly rejected: readonly RejectedFile[]
}

/**
 * Keeps the photos of an upload in a job, and says which files could not be and why.
 *
 * With a sending key, an upload that comes again is answered file by file as it was the first time, also where its step is
 * gone by now; another upload under the same key is refused.
 *
 * A photo is safe when it is in the answer: its bytes lie flushed under their hash before its record is written, and
 * original, photo and what it shows are recorded together or not at all. The same bytes again are one original: in the
 * same job the photo that is there answers, in another job a new photo is recorded. Renditions are made afterwards.
 *
 * Of the upload's temporary files none is left, whatever happens.
 *
 * @returns refused, with nothing kept, when the job, the step or a surface does not exist
 */
export async function keepPhotos(
  jobId: string,
  upload: ReceivedUpload,
  now: Instant,
  sendingKey?: string,
): Promise<Result<KeptUpload>> {
  const store = await openPhotoStore()
  // The first file is looked at while its place is read, and each next one while the one before it is recorded.
  let looking = looksAt(upload.files[0])
  try {
    const sending =
      sendingKey === undefined
        ? undefined
        : { key: sendingKey, jobId, fingerprint: fingerprintOf(toldBy(upload)) }
    const before = await keptBefore(sending, upload)
    if (!before.ok) return before
    if (before.value !== undefined) {
      return ok({ photos: before.value, rejected: [] })
    }
    const placed = await readPlace(jobId, upload.fields)
    if (!placed.ok) return placed
    const photos: KeptPhoto[] = []
    const rejected: RejectedFile[] = []
    for (const [part, file] of upload.files.entries()) {
      const look = await looking
      looking = looksAt(upload.files[part + 1])
      const kept = await keepOne(
        file,
        look,
        placed.value,
        now,
        sending === undefined ? undefined : { ...sending, part },
      )
      if ('reason' in kept) rejected.push(kept)
      else photos.push(kept)
    }
    await queueRenditions(photos.map((photo) => photo.sha256))
    return ok({ photos, rejected })
  } finally {
    await looking
    await discardAll(store, upload.files)
  }
}

/** All that an upload brings and says. */
function toldBy({ fields, files }: ReceivedUpload): unknown {
  return [
    fields.role ?? null,
    fields.view ?? null,
    fields.step ?? null,
    [...fields.surfaces],
    files.map((file) => [
      file.name,
      file.modifiedAt ?? null,
      'arrival' in file ? file.arrival.sha256 : null,
    ]),
  ]
}

/**
 * The photos as they were answered when this very upload came before; undefined unless all of it did.
 *
 * @returns refused when another upload came under the same key
 */
async function keptBefore(
  sending: Omit<Sending, 'part'> | undefined,
  { files }: ReceivedUpload,
): Promise<Result<readonly KeptPhoto[] | undefined>> {
  if (sending === undefined || files.length === 0) return ok(undefined)
  const db = await database()
  return db.$transaction(async (transaction) => {
    const photos: KeptPhoto[] = []
    for (const part of files.keys()) {
      const receipt = await readReceipt(transaction, { ...sending, part })
      if (!receipt.ok) return receipt
      // Ours, as it was answered the first time.
      if (receipt.value !== undefined) photos.push(receipt.value as KeptPhoto)
    }
    return ok(photos.length === files.length ? photos : undefined)
  })
}

/** Where the photos of one upload belong, and how their times are read. */
type Place = {
  readonly jobId: string
  readonly role: PhotoRole
  readonly view: string | null
  readonly stepId: string | null
  readonly surfaceIds: readonly string[]
  readonly zone: string
}

async function readPlace(
  jobId: string,
  fields: UploadFields,
): Promise<Result<Place>> {
  const db = await database()
  const [job, workshop] = await Promise.all([
    db.job.findUnique({ where: { id: jobId }, select: { id: true } }),
    readWorkshop(),
  ])
  if (job === null) return noJob
  const surfaces = await readSurfaces(jobId, fields)
  if (!surfaces.ok) return surfaces
  return ok({
    jobId,
    // A day's worth may come at once: which of it is a before is for the owner to say.
    role: fields.role ?? 'progress',
    view: fields.view ?? null,
    stepId: fields.step ?? null,
    surfaceIds: surfaces.value,
    zone: workshop.zone,
  })
}

/** The surfaces that the photos show: those that were named, else those of the step they were taken for. */
async function readSurfaces(
  jobId: string,
  fields: UploadFields,
): Promise<Result<readonly string[]>> {
  const db = await database()
  const named = [...new Set(fields.surfaces)]
  if (named.length > 0) {
    const known = await db.surface.count({
      where: { id: { in: named }, piece: { jobId } },
    })
    if (known < named.length) {
      return refused({
        kind: 'invalid',
        detail:
          'This job has no such surface. Choose among the surfaces of its pieces.',
      })
    }
  }
  if (fields.step === undefined) return ok(named)
  const step = await db.step.findFirst({
    where: { id: fields.step, jobId },
    select: { surfaces: { select: { surfaceId: true } } },
  })
  if (step === null) {
    return refused({
      kind: 'invalid',
      detail: 'This job has no such step. Choose among its steps.',
    })
  }
  return ok(
    named.length > 0 ? named : step.surfaces.map((one) => one.surfaceId),
  )
}

/** What a file was found to be, and what it says of itself; or why there is nothing to keep, or what went wrong. */
type Look =
  | { readonly picture: Picture; readonly metadata: PhotoMetadata }
  | { readonly reason: string }
  | { readonly error: unknown }

/** Looks at a file ahead of its turn: it never fails, as nobody may be waiting for it. */
async function looksAt(file: ReceivedFile | undefined): Promise<Look> {
  if (file === undefined) return { reason: '' }
  if ('reason' in file) return { reason: file.reason }
  try {
    const picture = await inspectPhoto(file.arrival, file.name)
    if (picture.kind === 'refused') return { reason: picture.reason }
    const metadata = await readMetadata(file.arrival.path, picture.kind)
    return { picture, metadata }
  } catch (error) {
    return { error }
  }
}

async function keepOne(
  file: ReceivedFile,
  look: Look,
  place: Place,
  now: Instant,
  sending: Sending | undefined,
): Promise<KeptPhoto | RejectedFile> {
  if ('reason' in file) return { name: file.name, reason: file.reason }
  if ('reason' in look) return { name: file.name, reason: look.reason }
  if ('error' in look) throw look.error
  const { picture, metadata } = look
  const { arrival } = file
  const store = await openPhotoStore()
  try {
    await store.keep(arrival)
    const kept = await recordOnce({
      file,
      picture,
      metadata,
      place,
      now,
      arrival,
      sending,
    })
    await store.settle(arrival)
    return kept
  } catch (error) {
    // What went wrong is told; a file that cannot be taken back now goes at the next start.
    await store.takeBack(arrival, isOnRecord).catch(() => undefined)
    throw error
  }
}

type Picture = Exclude<Inspection, { readonly kind: 'refused' }>
type Keeping = {
  readonly file: ReceivedFile
  readonly arrival: Arrival
  readonly picture: Picture
  readonly metadata: PhotoMetadata
  readonly place: Place
  readonly now: Instant
  /** Under which key the upload was sent, if any, and which of its files this is. */
  readonly sending: Sending | undefined
}

async function recordOnce(keeping: Keeping): Promise<KeptPhoto | RejectedFile> {
  const { sending, now, file } = keeping
  const db = await database()
  return db.$transaction(async (transaction) => {
    if (sending === undefined) return record(transaction, keeping)
    const before = await readReceipt(transaction, sending)
    if (!before.ok) return { name: file.name, reason: before.refusal.detail }
    // Ours, as it was answered the first time.
    if (before.value !== undefined) return before.value as KeptPhoto
    const kept = await record(transaction, keeping)
    await writeReceipt(transaction, sending, kept, now)
    return kept
  })
}

async function record(
  transaction: Transaction,
  keeping: Keeping,
): Promise<KeptPhoto> {
  const { arrival, place } = keeping
  const isNew = await addOriginal(transaction, keeping)
  const before = isNew ? [] : await photosOf(transaction, arrival.sha256)
  const here = before.find((photo) => photo.jobId === place.jobId)
  if (here !== undefined) {
    const back = await takeOutOfBin(transaction, here.id)
    const moved = await moveToStep(transaction, here, place)
    if (back || moved) await touchJob(transaction, place.jobId)
    return asBefore(
      here,
      keeping.file.name,
      back ? wasInBin : moved ? isOnStep : wasHere,
    )
  }
  const photo = await createPhoto(transaction, keeping)
  await touchJob(transaction, place.jobId)
  const first = before.find((one) => one.removedAt === null)
  return first === undefined ? photo : { ...photo, duplicateOf: first.id }
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

/** Records an original unless it is on record; returns whether it was not. In plain SQL: every photo waits for it. */
async function addOriginal(
  transaction: Transaction,
  { arrival, picture, now }: Keeping,
): Promise<boolean> {
  const { mediaType, width, height } = picture
  const added = await transaction.$executeRaw`
    INSERT INTO "Original" ("sha256", "byteLength", "mediaType", "width", "height", "keptAt", "crc32")
    VALUES (${arrival.sha256}, ${arrival.byteLength}, ${mediaType}, ${width}, ${height}, ${toDate(now)}, ${BigInt(arrival.crc32)})
    ON CONFLICT DO NOTHING`
  return added > 0
}

async function photosOf(
  transaction: Transaction,
  sha256: string,
): Promise<
  readonly (Described & {
    readonly jobId: string
    readonly removedAt: Date | null
  })[]
> {
  return transaction.photo.findMany({
    where: { sha256 },
    orderBy: [{ arrivedAt: 'asc' }, { id: 'asc' }],
    select: described,
  })
}

async function createPhoto(
  transaction: Transaction,
  { file, arrival, picture, metadata, place, now }: Keeping,
): Promise<KeptPhoto> {
  const camera = await findCamera(transaction, metadata.camera, now)
  const found = captureTime({
    local: metadata.local,
    offset: metadata.offset,
    source: metadata.source,
    satelliteAt: metadata.satelliteAt,
    fileModifiedAt: file.modifiedAt,
    arrivedAt: now,
    zone: place.zone,
    clock: camera?.clock,
  })
  const id = newId()
  const warnings = [...picture.warnings, ...found.warnings]
  await transaction.photo.create({
    data: {
      id,
      jobId: place.jobId,
      sha256: arrival.sha256,
      fileName: file.name,
      arrivedAt: toDate(now),
      fileModifiedAt: dateOrNull(file.modifiedAt),
      role: place.role,
      view: place.view,
      stepId: place.stepId,
      cameraId: camera?.id ?? null,
      exifLocal: metadata.local ?? null,
      exifOffset: metadata.offset ?? null,
      timeSource: metadata.source ?? null,
      satelliteAt: dateOrNull(metadata.satelliteAt),
      takenAt: toDate(found.taken.at),
      takenEarliest: toDate(found.taken.earliest),
      takenLatest: toDate(found.taken.latest),
      takenBasis: found.basis,
      warnings: JSON.stringify(warnings),
      ...(place.surfaceIds.length === 0
        ? {}
        : {
            surfaces: {
              create: place.surfaceIds.map((surfaceId) => ({ surfaceId })),
            },
          }),
    },
    select: { id: true },
  })
  return {
    id,
    name: file.name,
    sha256: arrival.sha256,
    mediaType: picture.mediaType,
    width: picture.width,
    height: picture.height,
    taken: found.taken,
    basis: found.basis,
    warnings,
  }
}

async function findCamera(
  transaction: Transaction,
  camera: CameraName | undefined,
  now: Instant,
): Promise<
  { readonly id: string; readonly clock?: CameraClock | undefined } | undefined
> {
  if (camera === undefined) return undefined
  const { make, model, serial } = camera
  const known = await cameraOf(transaction, camera)
  if (known !== null) return { id: known.id, clock: cameraClock(known) }
  const id = newId()
  await transaction.camera.create({
    data: { id, make, model, serial, createdAt: toDate(now) },
    select: { id: true },
  })
  return { id }
}

async function cameraOf(
  transaction: Transaction,
  { make, model, serial }: CameraName,
) {
  return transaction.camera.findUnique({
    where: { make_model_serial: { make, model, serial } },
    select: {
      id: true,
      clockCorrectionSeconds: true,
      clockUncertaintySeconds: true,
    },
  })
}

const described = {
  id: true,
  jobId: true,
  stepId: true,
  removedAt: true,
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

function asBefore(row: Described, name: string, warning: string): KeptPhoto {
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
    warnings: [warning],
  }
}

function dateOrNull(at: Instant | undefined): Date | null {
  return at === undefined ? null : toDate(at)
}
