import 'server-only'
import { createReadStream } from 'node:fs'
import type { Readable } from 'node:stream'
import { type Result, ok, refused } from '#core/result'
import { database } from '#services/database/open-database'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import type { ByteRange } from '#services/photo-store/photo-store'
import {
  type RenditionName,
  renditionNames,
} from '#core/photos/rendition-sizes'
import { readRendition } from '#services/renditions/renditions'

/** The bytes of a photo in one form, ready to be sent. */
export type PhotoFile = {
  readonly byteLength: number
  /** What we found it to be, never what its sender said. */
  readonly mediaType: string
  /** A name for exactly these bytes. */
  readonly tag: string
  /** Whether the photo is these bytes for good: its owner may turn what is shown of it. */
  readonly settled: boolean
  readonly open: (range?: ByteRange) => Readable
}

/**
 * A photo as its original or as one of its renditions, which is made now if need be.
 *
 * @param form `original` or the name of a rendition
 * @returns refused when there is no such photo, no such form, or the original is missing
 */
export async function readPhotoFile(
  photoId: string,
  form: string,
): Promise<Result<PhotoFile>> {
  const rendition = renditionNames.find((name) => name === form)
  if (rendition === undefined && form !== 'original') {
    return refused({
      kind: 'not-found',
      detail: `Photos come as ${renditionNames.toReversed().join(', ')} or original, not as ${form.slice(0, 40)}.`,
    })
  }
  const db = await database()
  const row = await db.photo.findUnique({
    where: { id: photoId },
    select: {
      sha256: true,
      quarterTurns: true,
      original: { select: { mediaType: true } },
    },
  })
  if (row === null) {
    return refused({
      kind: 'not-found',
      detail: 'There is no such photo. It may have been removed.',
    })
  }
  return rendition === undefined
    ? originalFile(row.sha256, row.original.mediaType)
    : renditionFile(row.sha256, rendition, row.quarterTurns)
}

async function originalFile(
  sha256: string,
  mediaType: string,
): Promise<Result<PhotoFile>> {
  const store = await openPhotoStore()
  const found = await store.stat(sha256)
  if (found === undefined) {
    return refused({
      kind: 'not-found',
      detail:
        'The photo itself is missing from the data folder. Bring it back from a backup.',
    })
  }
  return ok({
    byteLength: found.byteLength,
    mediaType,
    tag: sha256,
    settled: true,
    open: (range) => store.open(sha256, range),
  })
}

async function renditionFile(
  sha256: string,
  name: RenditionName,
  quarterTurns: number,
): Promise<Result<PhotoFile>> {
  const made = await readRendition(sha256, name, quarterTurns)
  if (!made.ok) return made
  const { path, byteLength } = made.value
  return ok({
    byteLength,
    mediaType: 'image/webp',
    tag: `${sha256}-${name}-${quarterTurns}`,
    settled: false,
    open: (range) =>
      createReadStream(
        path,
        range === undefined ? {} : { start: range.first, end: range.last },
      ),
  })
}
