import 'server-only'
import type { Journal } from '#core/journal/journal'
import { photoRoles } from '#core/journal/vocabulary'
import { isSurePair } from '#core/pairs/pair-state'
import { turnedSize } from '#core/photos/turned-size'
import { type Refusal, type Result, ok, refused } from '#core/result'
import type { SheetPictures } from '#core/sheets/arrange-pictures'
import { type SheetPair, sheetPair } from '#core/sheets/sheet-pair'
import { describePair } from '#core/write-ups/describe-pair'
import { english } from '#core/write-ups/english'
import { alignedPictures } from '#services/alignment/aligned-picture'
import type { ColourPixels } from '#services/alignment/alignment-thread'
import { notInBin } from '#services/bin/bin'
import { toInstant } from '#services/database/instants'
import { database } from '#services/database/open-database'
import { noJob } from '#services/jobs/jobs'
import { readJournal } from '#services/journal/read-journal'
import {
  type AcceptedPair,
  readAcceptedPair,
  readPairs,
  readSeparated,
} from '#services/pairs/pairs'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import { openOriginal } from '#services/renditions/open-original'
import { openPicture } from '#services/renditions/open-picture'
import type { SheetPicture } from '#services/sheets/sheet-picture'

/** The photos that a sheet should show, by their ids; else the pair that shows the job best. */
export type ChosenPhotos = {
  readonly before?: string | undefined
  readonly after?: string | undefined
}

/** What a sheet shows of a job. */
export type SheetContent = {
  readonly journal: Journal
  readonly layout: (pictures: readonly SheetPicture[]) => SheetPictures
  /**
   * Its pictures, in the order of the layout.
   *
   * @param side the longer side in pixels of pictures that are laid on each other
   */
  readonly open: (side: number) => Promise<readonly SheetPicture[]>
  /** Text alternatives, one for each picture; empty for one that an earlier one speaks for. */
  readonly alternatives: readonly string[]
}

/**
 * What is shown of a job: the two photos, with their alignment where there is one.
 *
 * @returns refused when there is no such job, a chosen photo is not in it, or it has no pair of photos yet
 */
export async function readSheetContent(
  jobId: string,
  chosen: ChosenPhotos,
): Promise<Result<SheetContent>> {
  const journal = await readJournal(jobId)
  if (journal === undefined) return noJob
  const photos = await readPhotos(jobId)
  const pair = await choosePair(jobId, photos, chosen)
  if (!pair.ok) return pair
  const { before, after } = pair.value
  const accepted = await readAcceptedPair(jobId, before.id, after.id)
  return ok({
    journal,
    layout: asPairs,
    open: (side) => halvesOf(pair.value, accepted, side),
    alternatives: [alternativeOf(journal, pair.value), ''],
  })
}

function asPairs(pictures: readonly SheetPicture[]): SheetPictures {
  const pairs = pictures.flatMap((before, index) => {
    const after = pictures[index + 1]
    return index % 2 === 0 && after !== undefined
      ? [[before.size, after.size] as const]
      : []
  })
  return { kind: 'pairs', pairs }
}

function alternativeOf(journal: Journal, pair: SheetPair<SheetPhoto>): string {
  const photo = (id: string) => journal.photos.find((one) => one.id === id)
  const before = photo(pair.before.id)
  const after = photo(pair.after.id)
  return before === undefined || after === undefined
    ? ''
    : describePair({ journal, before, after })
}

async function choosePair(
  jobId: string,
  photos: readonly SheetPhoto[],
  chosen: ChosenPhotos,
): Promise<Result<SheetPair<SheetPhoto>>> {
  for (const id of [chosen.before, chosen.after]) {
    if (id !== undefined && !photos.some((photo) => photo.id === id)) {
      return refused({
        kind: 'invalid',
        detail: 'This job has no such photo. Choose among its photos.',
      })
    }
  }
  const known = (await readPairs(jobId)).filter(isSurePair)
  const separated = await readSeparated(jobId)
  const pair = sheetPair(photos, chosen, known, separated)
  return pair === undefined ? refused(noPair(photos)) : ok(pair)
}

/** @param side the longer side in pixels of pictures that are laid on each other */
async function halvesOf(
  pair: SheetPair<SheetPhoto>,
  accepted: AcceptedPair | undefined,
  side: number,
): Promise<readonly [SheetPicture, SheetPicture]> {
  const { before, after } = english.sheet
  const asTheyAre = [
    asItIs(pair.before, before),
    asItIs(pair.after, after),
  ] as const
  if (accepted === undefined) return asTheyAre
  const pictures = await alignedPictures(
    accepted.before,
    accepted.after,
    accepted.homography,
    side,
  )
  return [asDrawn(pictures.before, before), asDrawn(pictures.after, after)]
}

function asItIs(photo: SheetPhoto, caption: string): SheetPicture {
  return {
    size: photo.size,
    caption,
    open: async () =>
      openOriginal((await openPhotoStore()).path(photo.sha256), {
        failOn: 'error',
        quarterTurns: photo.quarterTurns,
      }),
  }
}

/** One of two pictures in the frame that both share. */
function asDrawn(
  { data, width, height }: ColourPixels,
  caption: string,
): SheetPicture {
  const bytes = Buffer.from(data.buffer, data.byteOffset, data.byteLength)
  return {
    size: { width, height },
    caption,
    open: () =>
      Promise.resolve(
        openPicture(bytes, { raw: { width, height, channels: 3 } }),
      ),
  }
}

type SheetPhoto = Awaited<ReturnType<typeof readPhotos>>[number]

async function readPhotos(jobId: string) {
  const db = await database()
  const rows = await db.photo.findMany({
    where: { jobId, ...notInBin },
    orderBy: [{ takenAt: 'asc' }, { id: 'asc' }],
    select: {
      id: true,
      role: true,
      view: true,
      sha256: true,
      takenAt: true,
      takenEarliest: true,
      takenLatest: true,
      quarterTurns: true,
      original: { select: { width: true, height: true } },
    },
  })
  return rows.map((row) => ({
    id: row.id,
    role: photoRoles.find((one) => one === row.role) ?? 'progress',
    ...(row.view === null ? {} : { view: row.view }),
    sha256: row.sha256,
    quarterTurns: row.quarterTurns,
    size: turnedSize(row.original, row.quarterTurns),
    taken: {
      earliest: toInstant(row.takenEarliest),
      at: toInstant(row.takenAt),
      latest: toInstant(row.takenLatest),
    },
  }))
}

function noPair(photos: readonly SheetPhoto[]): Refusal {
  const before = photos.some((photo) => photo.role === 'before')
  const after = photos.some((photo) => photo.role === 'after')
  const missing =
    before && after
      ? 'No before and after photo are known to show the same view. Give one of each the same view, such as front, or choose two photos.'
      : before
        ? 'Take an after photo from where a before photo was taken, and give it the same view.'
        : after
          ? 'Mark a photo as before, of the same view as an after photo.'
          : 'Add a before photo and an after photo of the same view, such as front.'
  return {
    kind: 'conflict',
    detail: `There is no pair to show yet. ${missing}`,
  }
}
