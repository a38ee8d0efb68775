import 'server-only'
import type { Sharp } from 'sharp'
import { photoRoles } from '#core/journal/vocabulary'
import { isSurePair } from '#core/pairs/pair-state'
import { turnedSize } from '#core/photos/turned-size'
import { type Refusal, type Result, ok, refused } from '#core/result'
import type { Size } from '#core/sheets/largest-crop'
import {
  type PaperShape,
  type PlannedPicture,
  type SheetShape,
  centredSheet,
  planSheet,
  sheetShapes,
} from '#core/sheets/plan-sheet'
import { sheetFileName } from '#core/sheets/sheet-file-name'
import { type SheetPair, sheetPair } from '#core/sheets/sheet-pair'
import { describePair } from '#core/write-ups/describe-pair'
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
import { newPicture, openPicture } from '#services/renditions/open-picture'
import { inTurn } from '#services/renditions/renditions'
import { sheetPdf } from '#services/sheets/sheet-pdf'
import {
  fittedText,
  settableWords,
  textPicture,
} from '#services/sheets/text-picture'
import { readWorkshop } from '#services/workshop/workshop'

const paper = '#f7f4ef'
const ink = '#2a2621'
const softInk = '#5a544c'
const titleSizes = [46, 42, 38, 34, 30]
const labelSize = 26
/** The longer side in pixels of aligned pictures: that of the largest sheet. */
const alignedSide = 1920
/** The same for paper: letter and A4 between their margins are narrower. */
const paperAlignedSide = 2400

/** The formats that sheets are made in, with their media types. */
export const sheetFormats = {
  jpg: 'image/jpeg',
  png: 'image/png',
  webp: 'image/webp',
} as const
export type SheetFormat = keyof typeof sheetFormats

export type Sheet = {
  readonly bytes: Buffer
  readonly mediaType: string
  readonly fileName: string
}

/** The photos that a sheet should show, by their ids; else the pair that shows the job best. */
export type ChosenPhotos = {
  readonly before?: string | undefined
  readonly after?: string | undefined
}

/** The shapes there are, for whoever asks for one: undefined when there is no such shape. */
export function sheetShape(name: string): SheetShape | undefined {
  const shapes: readonly SheetShape[] = ['1x1', '4x5', '9x16', '16x9']
  return shapes.find((shape) => shape === name)
}

/** The kinds of paper there are: undefined when there is no such kind. */
export function paperShape(name: string): PaperShape | undefined {
  const papers: readonly PaperShape[] = ['letter', 'a4']
  return papers.find((paper) => paper === name)
}

/** The format of a file's ending: undefined when sheets are not made in it. */
export function sheetFormat(ending: string): SheetFormat | undefined {
  const formats: readonly SheetFormat[] = ['jpg', 'png', 'webp']
  return formats.find((format) => format === ending)
}

/**
 * Makes the before/after sheet of a job. It carries no metadata: no place, no camera, no time.
 *
 * @returns refused when there is no such job, a chosen photo is not in it, or it has no pair of photos yet
 */
export async function makeSheet(
  jobId: string,
  shape: SheetShape,
  format: SheetFormat,
  chosen: ChosenPhotos = {},
): Promise<Result<Sheet>> {
  const read = await readSheetPair(jobId, chosen)
  if (!read.ok) return read
  const { job, pair, accepted } = read.value
  const bytes = await inTurn(async () =>
    encoded(
      await drawSheet(
        job.title,
        shape,
        await halvesOf(pair, accepted, alignedSide),
      ),
      format,
    ),
  )
  return ok({
    bytes,
    mediaType: sheetFormats[format],
    fileName: sheetFileName({
      title: job.title,
      shape,
      design: 'quiet',
      format,
    }),
  })
}

/**
 * Makes the before/after sheet of a job to be printed, as a PDF of one page with its words as text. It carries no
 * metadata of the photos; its properties name the job and the workshop.
 *
 * @returns refused as `makeSheet` is
 */
export async function makePaperSheet(
  jobId: string,
  paper: PaperShape,
  chosen: ChosenPhotos = {},
): Promise<Result<Sheet>> {
  const read = await readSheetPair(jobId, chosen)
  if (!read.ok) return read
  const { job, pair, accepted } = read.value
  const [journal, workshop] = await Promise.all([
    readJournal(jobId),
    readWorkshop(),
  ])
  const photo = (id: string) => journal?.photos.find((one) => one.id === id)
  const [before, after] = [photo(pair.before.id), photo(pair.after.id)]
  if (journal === undefined || before === undefined || after === undefined) {
    return noJob
  }
  const title = settableWords(job.title) || '·'
  const bytes = await inTurn(async () => {
    const halves = await halvesOf(pair, accepted, paperAlignedSide)
    const plan = planSheet(paper, {
      before: halves.before.size,
      after: halves.after.size,
    })
    return sheetPdf({
      title,
      plan,
      pictures: {
        before: await printed(halves.before, plan.before),
        after: await printed(halves.after, plan.after),
      },
      alternative: describePair({ journal, before, after }),
      credit: workshop.name,
    })
  })
  return ok({
    bytes,
    mediaType: 'application/pdf',
    fileName: sheetFileName({
      title: job.title,
      shape: paper,
      design: 'quiet',
      format: 'pdf',
    }),
  })
}

async function printed(half: Half, planned: PlannedPicture): Promise<Buffer> {
  const { data, info } = await cutPicture(half, planned, '#ffffff')
  const { width, height, channels } = info
  return openPicture(data, { raw: { width, height, channels } })
    .jpeg({ quality: 88, chromaSubsampling: '4:4:4' })
    .toBuffer()
}

/** The job and the two photos that its sheet shows, with their alignment where there is one. */
async function readSheetPair(
  jobId: string,
  chosen: ChosenPhotos,
): Promise<
  Result<{
    readonly job: { readonly title: string }
    readonly pair: SheetPair<SheetPhoto>
    readonly accepted: AcceptedPair | undefined
  }>
> {
  const job = await readSheetJob(jobId)
  if (job === undefined) return noJob
  for (const id of [chosen.before, chosen.after]) {
    if (id !== undefined && !job.photos.some((photo) => photo.id === id)) {
      return refused({
        kind: 'invalid',
        detail: 'This job has no such photo. Choose among its photos.',
      })
    }
  }
  const known = (await readPairs(jobId)).filter(isSurePair)
  const separated = await readSeparated(jobId)
  const pair = sheetPair(job.photos, chosen, known, separated)
  if (pair === undefined) return refused(noPair(job.photos))
  const accepted = await readAcceptedPair(jobId, pair.before.id, pair.after.id)
  return ok({ job, pair, accepted })
}

/** One of the two pictures of a sheet: its size, upright, and how to open it. */
type Half = { readonly size: Size; readonly open: () => Promise<Sharp> }

function asItIs(photo: SheetPhoto): Half {
  return {
    size: photo.size,
    open: async () =>
      openOriginal((await openPhotoStore()).path(photo.sha256), {
        failOn: 'error',
        quarterTurns: photo.quarterTurns,
      }),
  }
}

type Halves = { readonly before: Half; readonly after: Half }

/** @param side the longer side in pixels of pictures that are laid on each other */
async function halvesOf(
  pair: SheetPair<SheetPhoto>,
  accepted: AcceptedPair | undefined,
  side: number,
): Promise<Halves> {
  return accepted === undefined
    ? { before: asItIs(pair.before), after: asItIs(pair.after) }
    : onEachOther(accepted, side)
}

/** The two of an aligned pair, the after brought onto the before, both cut to what both show. */
async function onEachOther(
  { before, after, homography }: AcceptedPair,
  side: number,
): Promise<Halves> {
  const pictures = await alignedPictures(before, after, homography, side)
  const half = ({ data, width, height }: ColourPixels): Half => ({
    size: { width, height },
    open: () =>
      Promise.resolve(
        openPicture(Buffer.from(data), { raw: { width, height, channels: 3 } }),
      ),
  })
  return { before: half(pictures.before), after: half(pictures.after) }
}

type SheetPhoto = Awaited<ReturnType<typeof readPhotos>>[number]

async function readSheetJob(jobId: string) {
  const db = await database()
  const job = await db.job.findUnique({
    where: { id: jobId, ...notInBin },
    select: { title: true },
  })
  return job === null
    ? undefined
    : { title: job.title, photos: await readPhotos(jobId) }
}

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

async function drawSheet(
  title: string,
  shape: SheetShape,
  pair: Halves,
): Promise<Sharp> {
  const drafted = planSheet(shape, {
    before: pair.before.size,
    after: pair.after.size,
  })
  // A sheet without a title is still a sheet.
  const words = await fittedText(
    settableWords(title) || '·',
    { font: 'title', colour: ink, width: drafted.title.width },
    titleSizes,
    drafted.title.height,
  )
  const plan = centredSheet(drafted, words.height)
  const layers = [
    ...(await pictureLayers(pair.before, plan.before, 'Before')),
    ...(await pictureLayers(pair.after, plan.after, 'After')),
  ]
  const { width, height } = sheetShapes[shape]
  return newPicture({
    create: { width, height, channels: 3, background: paper },
  }).composite([
    ...layers,
    { input: words.pixels, left: plan.title.left, top: plan.title.top },
  ])
}

/** The part of a picture that is shown, as large as its place, in sRGB. */
async function cutPicture(
  photo: Half,
  { crop, place }: PlannedPicture,
  background: string,
) {
  const scale = place.width / crop.width
  const left = Math.round(crop.left * scale)
  const top = Math.round(crop.top * scale)
  const picture = await photo.open()
  return (
    picture
      // The whole is reduced first and cut afterwards: a JPEG is then decoded small.
      .resize({
        width: Math.max(Math.round(photo.size.width * scale), place.width),
        height: Math.max(Math.round(photo.size.height * scale), place.height),
        fit: 'fill',
      })
      .extract({
        left: fitting(left, photo.size.width * scale, place.width),
        top: fitting(top, photo.size.height * scale, place.height),
        width: place.width,
        height: place.height,
      })
      .flatten({ background })
      .toColourspace('srgb')
      .raw()
      .toBuffer({ resolveWithObject: true })
  )
}

/** A picture in its place, the corner cut out of it, and the word in the corner. */
async function pictureLayers(
  photo: Half,
  planned: PlannedPicture,
  word: string,
) {
  const { place, label } = planned
  const { data, info } = await cutPicture(photo, planned, paper)
  const corner = newPicture({
    create: {
      width: label.width,
      height: label.height,
      channels: 3,
      background: paper,
    },
  })
  const text = await textPicture(word, {
    font: 'label',
    size: labelSize,
    colour: softInk,
    width: label.width,
  })
  const { width, height, channels } = info
  return [
    {
      input: data,
      raw: { width, height, channels },
      left: place.left,
      top: place.top,
    },
    {
      input: await corner.png().toBuffer(),
      left: label.left,
      top: label.top,
    },
    {
      input: text.pixels,
      left: label.left + Math.round((label.width - text.width) / 2),
      top: label.top + Math.round((label.height - text.height) / 2),
    },
  ]
}

/** Rounding must not push the cut past the edge. */
function fitting(offset: number, whole: number, part: number): number {
  return Math.max(0, Math.min(offset, Math.max(Math.round(whole), part) - part))
}

async function encoded(sheet: Sharp, format: SheetFormat): Promise<Buffer> {
  switch (format) {
    case 'jpg':
      return sheet.jpeg({ quality: 88, chromaSubsampling: '4:4:4' }).toBuffer()
    case 'png':
      return sheet.png().toBuffer()
    case 'webp':
      return sheet.webp({ quality: 86, effort: 2 }).toBuffer()
  }
}
