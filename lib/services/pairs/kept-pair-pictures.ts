import 'server-only'
import { createHash } from 'node:crypto'
import { readFile, readdir, rm } from 'node:fs/promises'
import path from 'node:path'
import type { AlignedPictures } from '#services/alignment/aligned-picture'
import type { ColourPixels } from '#services/alignment/alignment-thread'
import { pictureOf } from '#services/alignment/colour-pixels'
import { writeWhole } from '#services/files/write-whole'
import type { AcceptedPair } from '#services/pairs/pairs'
import { renditionFolder } from '#services/renditions/renditions'

/** The longer side in pixels of the pictures of a pair that are kept. */
export const keptSide = 1440
/** Part of a file's name, raised when pictures of pairs are made in another way, so that old ones are made again. */
const edition = '1'

export type PairSide = 'before' | 'after'

type Pictures = Readonly<Record<PairSide, Buffer>>

// Kept on the global object, as what is under way must be found by the request for the other side.
const kept = globalThis as typeof globalThis & {
  coatbookPairPicturesUnderWay?: Map<string, Promise<Pictures>>
}

/** What the pictures of a pair are known by: it changes with what they are made from. */
export function pairKey({ before, after, homography }: AcceptedPair): string {
  return [
    before.sha256.slice(0, 16),
    after.sha256.slice(0, 16),
    before.quarterTurns,
    after.quarterTurns,
    ...homography.map((number) => number.toPrecision(8)),
  ].join('_')
}

/**
 * One picture of an aligned pair, as taken: WebP, in sRGB, with no metadata, no longer than `keptSide`. Kept among the
 * renditions of its photo, and goes with them; made, and the other with it, where it is not there.
 *
 * @param lay lays the two on each other in that size
 * @throws what `lay` throws
 */
export async function keptPairPicture(
  pair: AcceptedPair,
  side: PairSide,
  lay: () => Promise<AlignedPictures>,
): Promise<Buffer> {
  const file = await pictureFile(pair, side)
  const there = await readFile(file).catch(() => undefined)
  // An empty one is what a power cut leaves.
  if (there !== undefined && there.length > 0) return there
  const underWay = (kept.coatbookPairPicturesUnderWay ??= new Map<
    string,
    Promise<Pictures>
  >())
  const key = pairKey(pair)
  const made =
    underWay.get(key) ??
    makeBoth(pair, lay).finally(() => {
      underWay.delete(key)
    })
  underWay.set(key, made)
  return (await made)[side]
}

async function makeBoth(
  pair: AcceptedPair,
  lay: () => Promise<AlignedPictures>,
): Promise<Pictures> {
  const laid = await lay()
  const pictures = {
    before: await pairPictureBytes(laid.before),
    after: await pairPictureBytes(laid.after),
  }
  for (const side of ['before', 'after'] as const) {
    const { unfinished } = await renditionFolder(pair[side].sha256)
    const file = await pictureFile(pair, side)
    await writeWhole(file, pictures[side], unfinished)
    await removeOthers(file)
  }
  return pictures
}

/** Removes what was made of the same two photos while they lay on each other in another way. */
async function removeOthers(file: string): Promise<void> {
  const folder = path.dirname(file)
  const own = path.basename(file)
  const ofBoth = own.slice(0, own.lastIndexOf('-') + 1)
  for (const name of await readdir(folder)) {
    if (!name.startsWith(ofBoth) || name === own) continue
    await rm(path.join(folder, name), { force: true })
  }
}

/** It begins with the photo's own hash, like all that is made of it. */
async function pictureFile(
  pair: AcceptedPair,
  side: PairSide,
): Promise<string> {
  const { sha256 } = pair[side]
  const other = pair[side === 'before' ? 'after' : 'before'].sha256
  const stand = createHash('sha256')
    .update(`${edition} ${keptSide} ${pairKey(pair)}`)
    .digest('hex')
  const { folder } = await renditionFolder(sha256)
  return path.join(
    folder,
    `${sha256}-${side}-with-${other.slice(0, 16)}-${stand.slice(0, 16)}.webp`,
  )
}

/** A picture of a pair as it is sent: WebP with no metadata. */
export function pairPictureBytes(pixels: ColourPixels): Promise<Buffer> {
  return pictureOf(pixels).webp({ quality: 82, effort: 2 }).toBuffer()
}
