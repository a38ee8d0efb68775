import 'server-only'
import type { LightMatch } from '#core/pairs/match-light'
import { type Result, ok, refused } from '#core/result'
import type { SheetLight } from '#core/sheets/sheet-design'
import { pictureOf } from '#services/alignment/colour-pixels'
import {
  type AlignedPictures,
  alignedPictures,
} from '#services/alignment/aligned-picture'
import type { ColourPixels } from '#services/alignment/alignment-thread'
import {
  pairLight,
  withMatchedLight,
} from '#services/alignment/match-pair-light'
import { readAcceptedPair, readPairs } from '#services/pairs/pairs'
import { inTurn } from '#services/renditions/renditions'

/** The longer side in pixels of what is shown of an aligned pair. */
const shownSide = 1440
/** Pairs whose two pictures are kept at hand: a page asks for both of each at once. */
const keptAtMost = 4

/** One picture of an aligned pair, ready to be sent: WebP, in sRGB, with no metadata. */
export type PairPicture = { readonly bytes: Buffer; readonly tag: string }

// Kept on the global object, as what is under way must be found by the request for the other side.
const kept = globalThis as typeof globalThis & {
  coatbookPairPictures?: Map<string, Promise<AlignedPictures>>
}

/**
 * The before or the after of an aligned pair, in the frame that both share.
 *
 * @param side `before` or `after`
 * @param light of the after; where it cannot be matched it stays as taken
 * @returns refused when there is no such pair or side, or the pair has no alignment
 */
export async function readPairPicture(
  jobId: string,
  pairId: string,
  side: string,
  light: SheetLight = 'as-taken',
): Promise<Result<PairPicture>> {
  if (side !== 'before' && side !== 'after') return noPicture
  const pair = await openPair(jobId, pairId)
  if (!pair.ok) return pair
  const { key, open } = pair.value
  const pictures = await open()
  // The light of the before is the measure.
  const shown =
    light === 'matched' && side === 'after'
      ? await withMatchedLight(pictures)
      : pictures
  return ok({
    bytes: await encoded(shown[side]),
    tag: `${key}_${side}_${light}`,
  })
}

/**
 * How the light of a pair's after would be brought to that of its before.
 *
 * @returns refused when there is no such pair, or it has no alignment: then nothing tells what did not change
 */
export async function readPairLight(
  jobId: string,
  pairId: string,
): Promise<Result<LightMatch>> {
  const pair = await openPair(jobId, pairId)
  return pair.ok ? ok(await pairLight(await pair.value.open())) : pair
}

const noPicture = refused({
  kind: 'not-found',
  detail: 'There is no such picture. Pairs have a before and an after.',
} as const)

/** The two pictures of an aligned pair, under a name that changes with what they are made from. */
async function openPair(
  jobId: string,
  pairId: string,
): Promise<
  Result<{
    readonly key: string
    readonly open: () => Promise<AlignedPictures>
  }>
> {
  const pair = (await readPairs(jobId)).find(({ id }) => id === pairId)
  if (pair === undefined) return noPicture
  const accepted = await readAcceptedPair(jobId, pair.before, pair.after)
  if (accepted === undefined) {
    return refused({
      kind: 'conflict',
      detail: 'This pair is not aligned. Show its two photos as they are.',
    })
  }
  const { before, after, homography } = accepted
  const key = [
    before.sha256.slice(0, 16),
    after.sha256.slice(0, 16),
    before.quarterTurns,
    after.quarterTurns,
    ...homography.map((number) => number.toPrecision(8)),
  ].join('_')
  return ok({
    key,
    open: () =>
      atHand(key, () =>
        inTurn(() => alignedPictures(before, after, homography, shownSide)),
      ),
  })
}

function atHand(
  key: string,
  make: () => Promise<AlignedPictures>,
): Promise<AlignedPictures> {
  const pictures = (kept.coatbookPairPictures ??= new Map<
    string,
    Promise<AlignedPictures>
  >())
  const known = pictures.get(key)
  if (known !== undefined) return known
  const made = make()
  made.catch(() => pictures.delete(key))
  pictures.set(key, made)
  for (const oldest of [...pictures.keys()].slice(0, -keptAtMost)) {
    pictures.delete(oldest)
  }
  return made
}

function encoded(pixels: ColourPixels): Promise<Buffer> {
  return pictureOf(pixels).webp({ quality: 82, effort: 2 }).toBuffer()
}
