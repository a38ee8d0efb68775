import 'server-only'
import type { LightMatch } from '#core/pairs/match-light'
import { type Result, ok, refused } from '#core/result'
import type { SheetLight } from '#core/sheets/sheet-design'
import {
  type AlignedPictures,
  alignedPictures,
} from '#services/alignment/aligned-picture'
import {
  pairLight,
  withMatchedLight,
} from '#services/alignment/match-pair-light'
import {
  type PairSide,
  isPictureKept,
  keepPicture,
  keptSide,
  pairKey,
  pairPictureBytes,
  pairSides,
  readKeptPicture,
} from '#services/pairs/kept-pair-pictures'
import {
  type AcceptedPair,
  readAcceptedPair,
  readPairs,
} from '#services/pairs/pairs'
import { inTurn } from '#services/renditions/renditions'

/** Pairs whose two pictures are kept at hand: a page asks for both of each at once, and for their light. */
const keptAtMost = 4

/** One picture of an aligned pair, ready to be sent: WebP, in sRGB, with no metadata. */
export type PairPicture = { readonly bytes: Buffer; readonly tag: string }

// Kept on the global object: a development server loads modules anew.
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
  const { accepted, lay } = pair.value
  // The light of the before is the measure.
  const bytes =
    light === 'matched' && side === 'after'
      ? await pairPictureBytes((await withMatchedLight(await lay())).after)
      : ((await readKeptPicture(accepted, side)) ??
        (await makeAndKeep(accepted, side, await lay())))
  return ok({ bytes, tag: `${pairKey(accepted)}_${side}_${light}` })
}

/**
 * Makes those pictures of an aligned pair that are not kept yet, when there is nothing more urgent; nothing where there is no
 * such pair.
 */
export async function readyPairPictures(
  jobId: string,
  pairId: string,
): Promise<void> {
  const pair = await openPair(jobId, pairId)
  if (!pair.ok) return
  const { accepted } = pair.value
  const isKept = await Promise.all(
    pairSides.map((side) => isPictureKept(accepted, side)),
  )
  if (!isKept.includes(false)) return
  const laid = await layInTurn(accepted, false)
  for (const side of pairSides) await makeAndKeep(accepted, side, laid)
}

async function makeAndKeep(
  pair: AcceptedPair,
  side: PairSide,
  laid: AlignedPictures,
): Promise<Buffer> {
  const bytes = await pairPictureBytes(laid[side])
  await keepPicture(pair, side, bytes)
  return bytes
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
  return pair.ok ? ok(await pairLight(await pair.value.lay())) : pair
}

const noPicture = refused({
  kind: 'not-found',
  detail: 'There is no such picture. Pairs have a before and an after.',
} as const)

/** A pair that is aligned, and its two pictures laid on each other. */
async function openPair(
  jobId: string,
  pairId: string,
): Promise<
  Result<{
    readonly accepted: AcceptedPair
    readonly lay: () => Promise<AlignedPictures>
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
  return ok({
    accepted,
    lay: () => atHand(pairKey(accepted), () => layInTurn(accepted, true)),
  })
}

function layInTurn(
  { before, after, homography }: AcceptedPair,
  urgent: boolean,
): Promise<AlignedPictures> {
  return inTurn(
    () => alignedPictures(before, after, homography, keptSide),
    urgent,
  )
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
