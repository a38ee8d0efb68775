import 'server-only'
import { createHash } from 'node:crypto'
import { readFile, readdir, rm } from 'node:fs/promises'
import path from 'node:path'
import type { ColourPixels } from '#services/alignment/alignment-thread'
import { pictureOf } from '#services/alignment/colour-pixels'
import { writeWhole } from '#services/files/write-whole'
import type { AcceptedPair } from '#services/pairs/pairs'
import { isSound, removeMade } from '#services/renditions/mend-renditions'
import { isOnRecord, renditionFolder } from '#services/renditions/renditions'

/** The longer side in pixels of the pictures of a pair that are kept. */
export const keptSide = 1440
/** Part of a file's name, raised when pictures of pairs are made in another way, so that old ones are made again. */
const edition = '1'
/** In the name of each: then come so many digits of the other photo's hash. */
const withOther = '-with-'
const startDigits = 16

export const pairSides = ['before', 'after'] as const
export type PairSide = (typeof pairSides)[number]

/** What the pictures of a pair are known by: it changes with what they are made from. */
export function pairKey({ before, after, homography }: AcceptedPair): string {
  return [
    startOf(before.sha256),
    startOf(after.sha256),
    before.quarterTurns,
    after.quarterTurns,
    ...homography.map((number) => number.toPrecision(8)),
  ].join('_')
}

/** A picture of a pair as it is sent: WebP with no metadata. */
export function pairPictureBytes(pixels: ColourPixels): Promise<Buffer> {
  return pictureOf(pixels).webp({ quality: 82, effort: 2 }).toBuffer()
}

/** One picture of an aligned pair, as taken: WebP in sRGB, no longer than `keptSide`; undefined when none is kept. */
export async function readKeptPicture(
  pair: AcceptedPair,
  side: PairSide,
): Promise<Buffer | undefined> {
  const file = await pictureFile(pair, side)
  const there = await readFile(file).catch(() => undefined)
  return there !== undefined && isWhole(there) ? there : undefined
}

/** Whether one picture of an aligned pair is kept. */
export async function isPictureKept(
  pair: AcceptedPair,
  side: PairSide,
): Promise<boolean> {
  return (await readKeptPicture(pair, side)) !== undefined
}

/**
 * Whether a WebP file is as long as it says: one that a power cut or a failing disk left is empty or ends too soon.
 *
 * Source: RFC 9649, section 2.4: the size that the header gives does not count its own eight bytes.
 */
function isWhole(webp: Buffer): boolean {
  return webp.length > 8 && webp.readUInt32LE(4) + 8 === webp.length
}

/**
 * Keeps one picture of an aligned pair among the renditions of its photo, in place of what was kept of the same two photos
 * while they lay on each other in another way. Where it cannot be kept it is made again whenever it is asked for; of a photo
 * that went for good meanwhile nothing is kept.
 */
export async function keepPicture(
  pair: AcceptedPair,
  side: PairSide,
  bytes: Buffer,
): Promise<void> {
  const file = await pictureFile(pair, side)
  try {
    const { unfinished } = await renditionFolder(pair[side].sha256)
    await writeWhole(file, bytes, unfinished)
    await removeOthers(file)
  } catch {
    // Whoever asked has it all the same.
    return
  }
  // Asked last: one that goes after this takes the file along.
  const areThere = await Promise.all(
    pairSides.map((one) => isOnRecord(pair[one].sha256)),
  )
  if (areThere.includes(false)) await rm(file, { force: true })
}

async function removeOthers(file: string): Promise<void> {
  const folder = path.dirname(file)
  const own = path.basename(file)
  const ofBoth = own.slice(0, own.lastIndexOf('-') + 1)
  for (const name of await readdir(folder)) {
    if (!name.startsWith(ofBoth) || name === own) continue
    await rm(path.join(folder, name), { force: true })
  }
}

/** Removes the pictures of all pairs that one of these originals is seen by. */
export async function removePicturesOfPairs(
  gone: readonly string[],
): Promise<void> {
  const starts = new Set(gone.map(startOf))
  await removeMade((name) =>
    originalsOf(name).some((start) => starts.has(start)),
  )
}

/**
 * Removes the pictures of pairs that cannot be shown, or of which one original is not known; those that may be shown are
 * made again when they are asked for.
 *
 * @returns how many there were
 */
export async function removeStrayPicturesOfPairs(
  known: ReadonlySet<string>,
): Promise<number> {
  const starts = new Set([...known].map(startOf))
  return removeMade(async (name, file) => {
    const originals = originalsOf(name)
    return (
      originals.length > 0 &&
      (!originals.every((start) => starts.has(start)) || !(await isSound(file)))
    )
  })
}

function startOf(sha256: string): string {
  return sha256.slice(0, startDigits)
}

/** How the hashes of both photos begin, as the name of a pair's picture says; empty for any other file. */
function originalsOf(name: string): readonly string[] {
  const [own = '', other] = name.split(withOther)
  return other === undefined ? [] : [startOf(own), startOf(other)]
}

/** Its name begins with the photo's own hash, like that of all that is made of it, and says what else is seen by it. */
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
  const name = `${sha256}-${side}${withOther}${startOf(other)}`
  return path.join(folder, `${name}-${stand.slice(0, 16)}.webp`)
}
