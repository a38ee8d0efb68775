import 'server-only'
import { createHash } from 'node:crypto'
import { readdir, rm, stat } from 'node:fs/promises'
import path from 'node:path'
import {
  type FinishedPicture,
  type SmallPicture,
  coloursOfPictures,
} from '#core/colour/colours-of-pictures'
import type { ColourName } from '#core/colour/colour-names'
import {
  type PictureSide,
  type ShownPiece,
  pictureSides,
  sharedPicture,
} from '#core/portfolio/shown-piece'
import { pictureOf } from '#services/alignment/colour-pixels'
import { alignedPictures } from '#services/alignment/aligned-picture'
import { openDataFolder } from '#services/database/open-database'
import { writeWhole } from '#services/files/write-whole'
import type { PictureSource } from '#services/portfolio/schema'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import { openOriginal } from '#services/renditions/open-original'
import { openPicture } from '#services/renditions/open-picture'
import { inTurn, readRendition } from '#services/renditions/renditions'
import { withCredit } from '#services/renditions/with-credit'
import { readCredit } from '#services/sheets/sheet-settings'

/** A picture's file, ready to be sent. It says nothing but whom the workshop credits. */
export type PictureFile = {
  readonly path: string
  readonly byteLength: number
  readonly mediaType: 'image/webp' | 'image/jpeg'
  /** Says nothing of what it was made from. */
  readonly tag: string
}

/** Part of a file's name, raised when pictures are made in another way. */
const edition = '1'
const [smallSide, largeSide] = pictureSides
const webp = { quality: 82, effort: 4 } as const
/** What colours are told from: few pixels, so that grain and glints are averaged away. */
const colourSize = { width: 48, height: 36 } as const

// Kept on the global object: what is being made must be found by the next request for it.
const kept = globalThis as typeof globalThis & {
  coatbookPortfolioPictures?: Map<string, Promise<void>>
}

/**
 * A picture of the portfolio in one of its sizes, made now where it is missing.
 *
 * @param pieceId whose it is: each piece has a folder of its own
 * @throws Error when an original is missing or damaged
 */
export async function readPortfolioPicture(
  pieceId: string,
  source: PictureSource,
  side: PictureSide,
): Promise<PictureFile> {
  if (
    source.of === 'photo' &&
    side === largeSide &&
    (await readCredit()) === ''
  ) {
    return described(await screenOf(source), 'image/webp', source, side)
  }
  const file = await fileOf(pieceId, source, `${side}.webp`)
  if (!(await isThere(file))) {
    await once(file, () =>
      source.of === 'photo'
        ? makePhoto(pieceId, source, side)
        : makePair(pieceId, source),
    )
  }
  return described(file, 'image/webp', source, side)
}

/**
 * The picture that is shown where the page of a piece is linked to: before beside after, or the after alone.
 *
 * @returns undefined for a piece without a picture
 */
export async function readSharedPicture(
  pieceId: string,
  { pairs, gallery }: Pick<ShownPiece, 'pairs' | 'gallery'>,
  sources: Readonly<Record<string, PictureSource>>,
): Promise<PictureFile | undefined> {
  const [pair] = pairs
  const names =
    pair === undefined
      ? gallery.slice(0, 1).map(({ name }) => name)
      : [pair.before.name, pair.after.name]
  const used = names.flatMap((name) => sources[name] ?? [])
  if (used.length === 0) return undefined
  const file = await fileOf(pieceId, used, 'shared.jpg')
  if (!(await isThere(file))) {
    await once(file, async () => {
      const width = Math.floor(sharedPicture.width / used.length)
      const halves = await Promise.all(
        used.map(async (source) =>
          openPicture(
            (await readPortfolioPicture(pieceId, source, largeSide)).path,
          )
            .resize({ width, height: sharedPicture.height, fit: 'cover' })
            .toBuffer(),
        ),
      )
      const [first = Buffer.alloc(0)] = halves
      const picture = openPicture(first)
        .resize({
          width: sharedPicture.width,
          height: sharedPicture.height,
          fit: 'contain',
          position: 'left',
          background: 'white',
        })
        .composite(
          halves.slice(1).map((input, index) => ({
            input,
            left: width * (index + 1),
            top: 0,
          })),
        )
      await keep(
        file,
        await withCredit(picture, await readCredit())
          .jpeg({ quality: 82 })
          .toBuffer(),
      )
    })
  }
  return described(file, 'image/jpeg', used, 'shared')
}

/**
 * The colours that a piece has in its pictures: in those of its pairs by what was repainted, else in those of after.
 *
 * @throws Error when an original is missing or damaged
 */
export async function readColours(
  pieceId: string,
  { pairs, gallery }: Pick<ShownPiece, 'pairs' | 'gallery'>,
  sources: Readonly<Record<string, PictureSource>>,
): Promise<readonly ColourName[]> {
  const small = async (name: string): Promise<SmallPicture | undefined> => {
    const source = sources[name]
    if (source === undefined) return undefined
    const { path: file } = await readPortfolioPicture(
      pieceId,
      source,
      smallSide,
    )
    const rgb = await openPicture(file)
      .resize({ ...colourSize, fit: 'fill' })
      .flatten({ background: 'white' })
      .toColourspace('srgb')
      .raw()
      .toBuffer()
    return { ...colourSize, rgb }
  }
  const wanted =
    pairs.length > 0
      ? pairs.map(({ after, before, aligned }) => ({
          after: after.name,
          before: aligned ? before.name : '',
        }))
      : gallery.map(({ name }) => ({ after: name, before: '' }))
  const pictures: FinishedPicture[] = []
  for (const one of wanted) {
    const after = await small(one.after)
    const before = await small(one.before)
    if (after !== undefined) pictures.push({ after, ...(before && { before }) })
  }
  return coloursOfPictures(pictures)
}

/** Removes the pictures of a piece that are made from none of these any more. */
export async function removeOtherPictures(
  pieceId: string,
  sources: readonly PictureSource[],
): Promise<void> {
  const folder = await folderOf(pieceId)
  if (sources.length === 0) {
    await rm(folder, { recursive: true, force: true })
    return
  }
  const credit = await readCredit()
  const wanted = new Set(sources.map((source) => prefixOf(source, credit)))
  // Nothing was made yet where there is no folder.
  const names = await readdir(folder).catch(() => [])
  for (const name of names) {
    if (wanted.has(name.slice(0, prefixLength))) continue
    await rm(path.join(folder, name), { force: true })
  }
}

/** Removes the pictures of all pieces but these. */
export async function removePicturesOfOthers(
  pieceIds: readonly string[],
): Promise<void> {
  const { portfolio } = await openDataFolder()
  const kept = new Set(pieceIds.map(hashOf))
  // Nothing was made yet where there is no folder.
  const names = await readdir(portfolio).catch(() => [])
  for (const name of names) {
    if (kept.has(name)) continue
    await rm(path.join(portfolio, name), { recursive: true, force: true })
  }
}

async function screenOf(
  source: Extract<PictureSource, { readonly of: 'photo' }>,
): Promise<string> {
  const screen = await readRendition(
    source.sha256,
    'screen',
    source.quarterTurns,
  )
  if (!screen.ok) throw new Error(screen.refusal.detail)
  return screen.value.path
}

async function makePhoto(
  pieceId: string,
  source: Extract<PictureSource, { readonly of: 'photo' }>,
  side: PictureSide,
): Promise<void> {
  // The large one is as large as what is shown on the screen: made from that it would be encoded twice.
  const picture =
    side === largeSide
      ? await openOriginal((await openPhotoStore()).path(source.sha256), {
          failOn: 'error',
          quarterTurns: source.quarterTurns,
        })
      : openPicture(await screenOf(source))
  await keep(
    await fileOf(pieceId, source, `${side}.webp`),
    await withCredit(
      picture.resize(fitting(side)).toColourspace('srgb'),
      await readCredit(),
    )
      .webp(webp)
      .toBuffer(),
  )
}

/** Both sides of a pair at once, as warping makes both. */
async function makePair(
  pieceId: string,
  source: Extract<PictureSource, { readonly of: 'pair' }>,
): Promise<void> {
  const { before, after, homography } = source
  const credit = await readCredit()
  const pictures = await inTurn(() =>
    alignedPictures(before, after, homography, largeSide),
  )
  for (const half of ['before', 'after'] as const) {
    for (const side of pictureSides) {
      const picture = pictureOf(pictures[half])
      await keep(
        await fileOf(pieceId, { ...source, side: half }, `${side}.webp`),
        await withCredit(picture.resize(fitting(side)), credit)
          .webp(webp)
          .toBuffer(),
      )
    }
  }
}

function fitting(side: number) {
  return {
    width: side,
    height: side,
    fit: 'inside',
    withoutEnlargement: true,
  } as const
}

const hashLength = 24
const creditLength = 8
const prefixLength = hashLength + 1 + creditLength

/** What the names of all files begin with that show a source and name an author. */
function prefixOf(source: unknown, credit: string): string {
  return `${hashOf(source)}-${hashOf(credit).slice(0, creditLength)}`
}

function hashOf(source: unknown): string {
  return createHash('sha256')
    .update(`${edition} ${JSON.stringify(source)}`)
    .digest('hex')
    .slice(0, hashLength)
}

async function folderOf(pieceId: string): Promise<string> {
  const { portfolio } = await openDataFolder()
  // Ids are our own UUIDs; a hash keeps even a foreign one inside the folder.
  return path.join(portfolio, hashOf(pieceId))
}

async function fileOf(
  pieceId: string,
  source: unknown,
  ending: string,
): Promise<string> {
  return path.join(
    await folderOf(pieceId),
    `${prefixOf(source, await readCredit())}-${ending}`,
  )
}

async function described(
  file: string,
  mediaType: PictureFile['mediaType'],
  source: unknown,
  size: PictureSide | 'shared',
): Promise<PictureFile> {
  const { size: byteLength } = await stat(file)
  return {
    path: file,
    byteLength,
    mediaType,
    tag: `${hashOf([source, size, await readCredit()])}-${byteLength}`,
  }
}

async function isThere(file: string): Promise<boolean> {
  try {
    return (await stat(file)).size > 0
  } catch {
    // Not there, whatever the reason: making it tells.
    return false
  }
}

async function keep(file: string, bytes: Buffer): Promise<void> {
  const { arriving } = await openDataFolder()
  await writeWhole(file, bytes, arriving)
}

/** Makes something that several ask for at once only once. */
async function once(key: string, make: () => Promise<void>): Promise<void> {
  const underWay = (kept.coatbookPortfolioPictures ??= new Map<
    string,
    Promise<void>
  >())
  const known = underWay.get(key)
  if (known !== undefined) return known
  const made = make().finally(() => underWay.delete(key))
  underWay.set(key, made)
  return made
}
