import 'server-only'
import { Readable, finished } from 'node:stream'
import type { ReadableStream as WebStream } from 'node:stream/web'
import busboy from 'busboy'
import { type Refusal, type Result, ok, refused } from '#core/result'
import { type Instant, instant } from '#core/units'
import { type LookAhead, lookAhead } from '#services/intake/look-ahead'
import { type UploadFields, uploadFields } from '#services/intake/schema'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import type { Arrival, PhotoStore } from '#services/photo-store/photo-store'

/** One file of an upload: its bytes, or why they were not taken. */
export type ReceivedFile = {
  readonly name: string
  readonly modifiedAt?: Instant
} & (
  | { readonly arrival: Arrival; readonly ahead: LookAhead }
  | { readonly reason: string }
)

/** An upload that has arrived whole. Its files are temporary: `keepPhotos` keeps or removes them. */
export type ReceivedUpload = {
  readonly fields: UploadFields
  readonly files: readonly ReceivedFile[]
}

/** How much one upload may bring. */
export type UploadLimits = {
  readonly fileBytes: number
  readonly files: number
}

/** 50 megapixels at the best JPEG quality stay under it; a single original of more is a mistake, or a video. */
export const uploadLimits: UploadLimits = { fileBytes: 80_000_000, files: 100 }

/** Files beyond the limit are read and turned away by name, but not without end. */
const absoluteFiles = 1000
const bufferBytes = 524_288
const fieldLimits = { fieldNameSize: 100, fieldSize: 2000, fields: 400 }

const broken = refused({
  kind: 'invalid',
  detail:
    'The upload broke off or is not a form with files (multipart/form-data). Send it again.',
} as const)

/**
 * Receives a form with photos: each file streams into the photo store's temporary folder as it comes, never held whole.
 *
 * Fields may come before, between or after the files: `role`, `view`, `step`, `surface` (repeatable) and `modified`
 * (milliseconds, one for each file, in the order of the files). A file that is too large is named with its reason and
 * does not stop the others. When the upload breaks off, or a field is wrong, nothing of it stays behind.
 */
export async function receiveUpload(
  contentType: string,
  body: Readable | ReadableStream<Uint8Array> | null,
  limits: UploadLimits = uploadLimits,
): Promise<Result<ReceivedUpload>> {
  if (body === null) return broken
  const store = await openPhotoStore()
  const read = await readForm(contentType, body, store, limits)
  if (read.ok) {
    const fields = readFields(read.value.fields)
    if (fields.ok) {
      return ok({
        fields: fields.value,
        files: dated(read.value.files, read.value.fields),
      })
    }
    await discardAll(store, read.value.files)
    return fields
  }
  return read
}

/** Removes the temporary files of an upload; those that were kept are no longer among them. */
export async function discardAll(
  store: PhotoStore,
  files: readonly ReceivedFile[],
): Promise<void> {
  for (const file of files) {
    if ('arrival' in file) await store.discard(file.arrival)
  }
}

type Field = { readonly name: string; readonly value: string }
type Form = {
  readonly fields: readonly Field[]
  readonly files: readonly ReceivedFile[]
}

async function readForm(
  contentType: string,
  body: Readable | ReadableStream<Uint8Array>,
  store: PhotoStore,
  limits: UploadLimits,
): Promise<Result<Form>> {
  const parser = openParser(contentType)
  if (parser === undefined) return broken
  const fields: Field[] = []
  const arriving: Promise<ReceivedFile | undefined>[] = []
  const failures: Error[] = []

  parser.on('field', (name, value) => fields.push({ name, value }))
  for (const limit of ['filesLimit', 'fieldsLimit'] as const) {
    parser.on(limit, () => failures.push(new TooMuch(limit)))
  }
  parser.on('file', (_field, bytes, { filename }) => {
    const name = cleanName(filename)
    // Whoever reads the file hears of its breaking off; before that the event would end the process.
    bytes.on('error', () => undefined)
    if (parser.destroyed) {
      // After an error of its own it goes through what it holds already: such a file begins and never ends.
      bytes.resume()
      return
    }
    if (arriving.length >= limits.files) {
      bytes.resume()
      arriving.push(Promise.resolve({ name, reason: overMany(limits) }))
      return
    }
    const arrival = receiveFile(store, bytes, name, limits)
    arriving.push(
      arrival.catch((error: unknown) => {
        failures.push(asError(error))
        // A disk that is full must not leave the sender waiting for the rest to be read.
        parser.destroy(asError(error))
        return undefined
      }),
    )
  })

  const unreadable = await fed(body, parser)
  if (unreadable !== undefined) failures.push(unreadable)
  const files = (await Promise.all(arriving)).filter(
    (file) => file !== undefined,
  )
  if (failures.length === 0) return ok({ fields, files })
  await discardAll(store, files)
  return refusalFor(failures, limits)
}

class TooMuch extends Error {}

/** @throws the failure itself when it was the machine's and not the sender's */
function refusalFor(
  failures: readonly Error[],
  limits: UploadLimits,
): ReturnType<typeof refused<Refusal>> {
  const ours = failures.find(isSystemFailure)
  if (ours !== undefined) throw ours
  if (!failures.some((failure) => failure instanceof TooMuch)) return broken
  return refused({
    kind: 'too-large',
    detail: `That is too much at once. Send at most ${limits.files} photos together.`,
  })
}

function asError(value: unknown): Error {
  return value instanceof Error ? value : new Error(String(value))
}

function openParser(contentType: string): busboy.Busboy | undefined {
  if (!/^multipart\/form-data\s*;/i.test(contentType)) return undefined
  try {
    return busboy({
      headers: { 'content-type': contentType },
      defParamCharset: 'utf8',
      // Of the body and of a file: a pause for each network packet takes longer than the photo.
      highWaterMark: bufferBytes,
      fileHwm: bufferBytes,
      limits: { ...fieldLimits, files: absoluteFiles, headerPairs: 50 },
    })
  } catch {
    // It throws on a content type without a boundary.
    return undefined
  }
}

/** Feeds the body to the parser; resolves when both are through, with the error if either broke. */
async function fed(
  body: Readable | ReadableStream<Uint8Array>,
  parser: busboy.Busboy,
): Promise<Error | undefined> {
  const bytes =
    body instanceof Readable
      ? body
      : Readable.fromWeb(body as WebStream<Uint8Array>)
  const over = new Promise<Error | undefined>((resolve) => {
    parser.on('error', (error: unknown) => {
      // It may go on waiting for the rest of a file after an error of its own.
      parser.destroy()
      resolve(asError(error))
    })
    parser.on('close', () => {
      resolve(undefined)
    })
  })
  let brokeOff: Error | undefined
  finished(bytes, { writable: false }, (error) => {
    if (error === undefined || error === null) return
    brokeOff = error
    parser.destroy(error)
  })
  bytes.pipe(parser)
  const broken = await over
  // What is left of it is read all the same: only then does its sender hear the answer.
  bytes.unpipe(parser)
  bytes.resume()
  return brokeOff ?? broken
}

async function receiveFile(
  store: PhotoStore,
  bytes: Readable,
  name: string,
  limits: UploadLimits,
): Promise<ReceivedFile> {
  const ahead = lookAhead()
  const arrival = await store.arrive(bytes, limits.fileBytes, ahead.take)
  return arrival === 'too-large'
    ? {
        name,
        reason: `The file is larger than ${limits.fileBytes / 1_000_000} MB. Send a smaller one.`,
      }
    : { name, arrival, ahead }
}

function overMany(limits: UploadLimits): string {
  return `Only ${limits.files} photos are taken at once. Send this one again with the next.`
}

/** The last part of what the sender calls the file, as it may be shown; the file itself is never called that. */
function cleanName(filename: string | undefined): string {
  const name = (filename ?? '')
    .replaceAll(/[\p{Cc}\p{Cf}]/gu, '')
    .split(/[/\\]/)
    .at(-1)
    ?.trim()
    .slice(0, 200)
  return name === undefined || name === '' ? 'photo' : name
}

function readFields(fields: readonly Field[]): Result<UploadFields> {
  const last = (name: string) =>
    fields
      .findLast((field) => field.name === name && field.value !== '')
      // Behind U+0000 nothing would be kept.
      ?.value.replaceAll('\0', '')
  const parsed = uploadFields.safeParse({
    role: last('role'),
    view: last('view'),
    step: last('step'),
    surfaces: fields
      .filter((field) => field.name === 'surface' && field.value !== '')
      .map((field) => field.value),
  })
  if (parsed.success) return ok(parsed.data)
  const first = parsed.error.issues[0]
  return refused({
    kind: 'invalid',
    detail: `${first?.path.join('.') ?? ''}: ${first?.message ?? ''}`,
  })
}

function dated(
  files: readonly ReceivedFile[],
  fields: readonly Field[],
): readonly ReceivedFile[] {
  const modified = fields.filter((field) => field.name === 'modified')
  return files.map((file, index) => {
    const milliseconds = modified[index]?.value ?? ''
    return /^\d{1,15}$/.test(milliseconds)
      ? { ...file, modifiedAt: instant(Number(milliseconds)) }
      : file
  })
}

/** Whether the machine failed, and not the sender. */
function isSystemFailure(error: Error): boolean {
  return (
    'syscall' in error &&
    'code' in error &&
    error.code !== 'ECONNRESET' &&
    error.code !== 'EPIPE'
  )
}
