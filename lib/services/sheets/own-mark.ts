import 'server-only'
import { type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import { plainText } from '#core/write-ups/plain-text'
import { toDate } from '#services/database/instants'
import { database } from '#services/database/open-database'
import { contentKind } from '#services/intake/content-kind'
import { inspectPhoto } from '#services/intake/inspect-photo'
import { discardAll, receiveUpload } from '#services/intake/receive-upload'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import { openPicture } from '#services/renditions/open-picture'

/** The workshop's own mark on its sheets: a picture, else words. */
export type OwnMark = {
  readonly words?: string
  readonly picture?: {
    /** PNG, without metadata. */
    readonly bytes: Buffer
    readonly width: number
    readonly height: number
  }
}

const row = { id: 'workshop' } as const
/** Of the picture that is kept: on paper a mark is at most 585 pixels wide. */
const keptBox = { width: 800, height: 400 }
const uploadLimits = { fileBytes: 20_000_000, files: 1 }
export const markWordsAtMost = 40

/** The own mark; undefined where there is none. */
export async function readMark(): Promise<OwnMark | undefined> {
  const db = await database()
  const kept = await db.ownMark.findUnique({ where: row })
  if (kept === null) return undefined
  const words = kept.words === '' ? {} : { words: kept.words }
  if (kept.picture === null) {
    return kept.words === '' ? undefined : words
  }
  const bytes = Buffer.from(kept.picture)
  const { width, height } = await openPicture(bytes).metadata()
  return { ...words, picture: { bytes, width, height } }
}

/** Sets the mark in words; with none, it goes. The picture, where there is one, stays. */
export async function changeMarkWords(
  typed: string,
  now: Instant,
): Promise<void> {
  const words = plainText(typed).slice(0, markWordsAtMost)
  await keep({ words }, now)
}

/** Takes the picture away; words stay. */
export async function removeMarkPicture(now: Instant): Promise<void> {
  await keep({ picture: null }, now)
}

/**
 * Keeps an uploaded picture as the mark: checked as photos are, trimmed to its size on paper and written anew, so that
 * nothing of the file that came is in what leaves.
 *
 * @returns refused when it is no picture that can be taken
 */
export async function keepMarkPicture(
  contentType: string,
  body: ReadableStream<Uint8Array> | null,
  now: Instant,
): Promise<Result<{ readonly width: number; readonly height: number }>> {
  const upload = await receiveUpload(contentType, body, uploadLimits)
  if (!upload.ok) return upload
  const store = await openPhotoStore()
  try {
    const [file] = upload.value.files
    if (file === undefined) return unusable('There was no picture in it.')
    if ('reason' in file) return unusable(file.reason)
    const { path, head } = file.arrival
    const content = contentKind(head)
    if (content.kind === 'heic') {
      return unusable('A mark comes as PNG, JPEG or WebP.')
    }
    const inspected = await inspectPhoto(file.arrival, file.name, file.ahead)
    if (inspected.kind === 'refused') return unusable(inspected.reason)
    const { data, info } = await openPicture(path)
      .autoOrient()
      .resize({ ...keptBox, fit: 'inside', withoutEnlargement: true })
      .toColourspace('srgb')
      .png()
      .toBuffer({ resolveWithObject: true })
    await keep({ picture: new Uint8Array(data) }, now)
    return ok({ width: info.width, height: info.height })
  } finally {
    await discardAll(store, upload.value.files)
  }
}

function unusable(detail: string) {
  return refused({ kind: 'invalid', detail } as const)
}

async function keep(
  values: {
    readonly words?: string
    readonly picture?: Uint8Array<ArrayBuffer> | null
  },
  now: Instant,
): Promise<void> {
  const db = await database()
  await db.$transaction(async (transaction) => {
    await transaction.ownMark.upsert({
      where: row,
      create: { ...row, words: '', ...values, changedAt: toDate(now) },
      update: { ...values, changedAt: toDate(now) },
      select: { id: true },
    })
  })
}
