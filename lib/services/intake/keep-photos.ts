import 'server-only'
import { z } from 'zod'
import { type Result, ok, refused } from '#core/result'
import { type Instant, instant } from '#core/units'
import type { PlainSql } from '#services/database/one-connection'
import { readInPlainSql } from '#services/database/open-database'
import { type Inspection, inspectPhoto } from '#services/intake/inspect-photo'
import {
  type PhotoMetadata,
  readMetadata,
} from '#services/intake/read-metadata'
import {
  type ReceivedFile,
  type ReceivedUpload,
  discardAll,
} from '#services/intake/receive-upload'
import {
  type KeptPhoto,
  type Place,
  recordPhoto,
} from '#services/intake/record-photo'
import type { UploadFields } from '#services/intake/schema'
import {
  type Binned,
  binnedParts,
  warnOfBin,
} from '#services/intake/warn-of-bin'
import { noJob } from '#services/jobs/jobs'
import {
  isOnRecord,
  openPhotoStore,
} from '#services/photo-store/open-photo-store'
import {
  type Sending,
  fingerprintOf,
  readReceiptInPlainSql,
} from '#services/receipts/receipts'
import { queueRenditions } from '#services/renditions/renditions'
import { readWorkshopInPlainSql } from '#services/workshop/workshop'

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
 * What is sent for something in the bin is kept as well, with a warning that says until when it can be brought back.
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
  const unkept = new Set(upload.files)
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
    const placed = await readPlace(jobId, upload.fields, now)
    if (!placed.ok) return placed
    const photos: KeptPhoto[] = []
    const rejected: RejectedFile[] = []
    const settled: Promise<void>[] = []
    for (const [part, file] of upload.files.entries()) {
      const look = await looking
      looking = looksAt(upload.files[part + 1])
      const kept = await keepOne(
        file,
        look,
        placed.value,
        now,
        sending === undefined ? undefined : { ...sending, part },
        settled,
      )
      if ('reason' in kept) {
        rejected.push(kept)
      } else {
        photos.push(kept)
        unkept.delete(file)
      }
    }
    await Promise.all([
      ...settled,
      queueRenditions(photos.map((photo) => photo.sha256)),
    ])
    return ok({ photos, rejected })
  } finally {
    await looking
    await discardAll(store, [...unkept])
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
  return readInPlainSql((sql) => {
    const photos: KeptPhoto[] = []
    for (const part of files.keys()) {
      const receipt = readReceiptInPlainSql(sql, { ...sending, part })
      if (!receipt.ok) return receipt
      // Ours, as it was answered the first time.
      if (receipt.value !== undefined) photos.push(receipt.value as KeptPhoto)
    }
    return ok(photos.length === files.length ? photos : undefined)
  })
}

const jobRows = z.array(
  z.object({ title: z.string(), removedAt: z.number().nullable() }),
)

async function readPlace(
  jobId: string,
  fields: UploadFields,
  now: Instant,
): Promise<Result<Place>> {
  const read = await readInPlainSql((sql) => {
    const [job] = jobRows.parse(
      sql.rows('SELECT "title", "removedAt" FROM "Job" WHERE "id" = ?', jobId),
    )
    if (job === undefined) return noJob
    const surfaces = readSurfaces(sql, jobId, fields)
    if (!surfaces.ok) return surfaces
    return ok({
      surfaceIds: surfaces.value,
      binned: readBinned(sql, job, surfaces.value, fields.step),
      style: readWorkshopInPlainSql(sql),
    })
  })
  if (!read.ok) return read
  const { surfaceIds, binned, style } = read.value
  return ok({
    jobId,
    // A day's worth may come at once: which of it is a before is for the owner to say.
    role: fields.role ?? 'progress',
    view: fields.view ?? null,
    stepId: fields.step ?? null,
    surfaceIds,
    zone: style.zone,
    warnings: binned === undefined ? [] : [await warnOfBin(binned, now, style)],
  })
}

/** What of a photo's place is in the bin: its job, else all that it shows, else all that its step is on. */
function readBinned(
  sql: PlainSql,
  job: z.output<typeof jobRows>[number],
  surfaceIds: readonly string[],
  step: string | undefined,
): Binned | undefined {
  if (job.removedAt !== null) {
    return {
      kind: 'job',
      names: [job.title],
      removedAt: instant(job.removedAt),
    }
  }
  return (
    binnedParts(sql, surfaceIds) ??
    (step === undefined
      ? undefined
      : binnedParts(sql, surfacesOfStep(sql, step)))
  )
}

/** The surfaces that the photos show: those that were named, else those of the step they were taken for. */
function readSurfaces(
  sql: PlainSql,
  jobId: string,
  fields: UploadFields,
): Result<readonly string[]> {
  const named = [...new Set(fields.surfaces)]
  const isOfJob = (surface: string) =>
    sql.rows(
      'SELECT 1 FROM "Surface" JOIN "Piece" ON "Piece"."id" = "Surface"."pieceId" WHERE "Surface"."id" = ? AND "Piece"."jobId" = ?',
      surface,
      jobId,
    ).length > 0
  if (!named.every(isOfJob)) {
    return refused({
      kind: 'invalid',
      detail:
        'This job has no such surface. Choose among the surfaces of its pieces.',
    })
  }
  if (fields.step === undefined) return ok(named)
  const steps = sql.rows(
    'SELECT 1 FROM "Step" WHERE "id" = ? AND "jobId" = ?',
    fields.step,
    jobId,
  )
  if (steps.length === 0) {
    return refused({
      kind: 'invalid',
      detail: 'This job has no such step. Choose among its steps.',
    })
  }
  return ok(named.length > 0 ? named : surfacesOfStep(sql, fields.step))
}

function surfacesOfStep(sql: PlainSql, step: string): readonly string[] {
  return z
    .array(z.object({ surfaceId: z.string() }))
    .parse(
      sql.rows(
        'SELECT "surfaceId" FROM "StepSurface" WHERE "stepId" = ?',
        step,
      ),
    )
    .map((row) => row.surfaceId)
}

/** What a file was found to be, and what it says of itself; or why there is nothing to keep, or what went wrong. */
type Look =
  | { readonly picture: Picture; readonly metadata: PhotoMetadata }
  | { readonly reason: string }
  | { readonly error: unknown }

type Picture = Exclude<Inspection, { readonly kind: 'refused' }>

/** Looks at a file ahead of its turn: it never fails, as nobody may be waiting for it. */
async function looksAt(file: ReceivedFile | undefined): Promise<Look> {
  if (file === undefined) return { reason: '' }
  if ('reason' in file) return { reason: file.reason }
  try {
    const { arrival, name, ahead } = file
    const picture = await inspectPhoto(arrival, name, ahead)
    if (picture.kind === 'refused') return { reason: picture.reason }
    const said = picture.kind === 'jpeg' ? ahead.said()?.metadata : undefined
    const metadata = await (said ?? readMetadata(arrival.path, picture.kind))
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
  settled: Promise<void>[],
): Promise<KeptPhoto | RejectedFile> {
  const { name } = file
  if ('reason' in file) return { name, reason: file.reason }
  if ('reason' in look) return { name, reason: look.reason }
  if ('error' in look) throw look.error
  const { arrival } = file
  const store = await openPhotoStore()
  try {
    await store.keep(arrival)
    const kept = await recordPhoto({
      fileName: name,
      fileModifiedAt: file.modifiedAt,
      arrival,
      picture: look.picture,
      metadata: look.metadata,
      place,
      now,
      sending,
    })
    if (!kept.ok) {
      await store.takeBack(arrival, isOnRecord)
      return { name, reason: kept.refusal.detail }
    }
    // It is on record: a mark that cannot be taken away now is taken away by the next start.
    settled.push(store.settle(arrival).catch(() => undefined))
    return kept.value
  } catch (error) {
    // What went wrong is told; a file that cannot be taken back now goes at the next start.
    await store.takeBack(arrival, isOnRecord).catch(() => undefined)
    throw error
  }
}
