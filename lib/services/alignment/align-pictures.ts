import 'server-only'
import { commonCrop } from '#core/geometry/common-crop'
import { cornerError } from '#core/geometry/corner-error'
import type { MapModel, Match } from '#core/geometry/fit-map'
import { type Homography, scaling } from '#core/geometry/homography'
import {
  type AlignmentDoubt,
  judgeAlignment,
} from '#core/geometry/judge-alignment'
import { mutualInformation } from '#core/geometry/mutual-information'
import { type RobustFit, residual, robustFit } from '#core/geometry/robust-fit'
import { simplestFit } from '#core/geometry/simplest-fit'
import {
  type AlignmentLimits,
  type AlignmentThread,
  type ColourPixels,
  type PatchMatch,
  withAlignmentThread,
} from '#services/alignment/alignment-thread'

/** How the after lies over the before, or why that could not be told. */
export type Alignment =
  | {
      readonly accepted: true
      readonly confidence: number
      readonly model: MapModel
      /** Takes the after's pixels to the before's, counted from the upper left corner of the pictures given. */
      readonly homography: Homography
    }
  | {
      readonly accepted: false
      readonly confidence: number
      readonly doubt: AlignmentDoubt
    }

/** The longer side in pixels that pictures are best given in: more adds time and no accuracy that is seen. */
export const alignmentSide = 720

/** Longer sides of the reduced pictures that the first matching, features and mutual information are looked for in. */
const coarseSide = 360
const featureSide = 540
const informationSide = 240

/** How far a patch may lie from where the map says and still agree, as shares of the longer side. */
const tolerances = {
  features: 0.006,
  rough: 0.017,
  coarse: 0.006,
  fine: 0.0035,
  last: 0.003,
} as const

/** Patches that look less alike than this say nothing. */
const leastLikeness = 0.3
/** The piece is what changed colour: such a patch counts up to four times one of the floor or the wall. */
const changedCountsMore = 3
/** Fewer places than this fit any two pictures by chance. */
const fewest = 12
/** With this many patches and this part of them agreeing the first start is good enough. */
const goodPatches = 60
const goodShare = 0.6
/** How many of the possible maps are looked at closely, and how far behind the first one may be. */
const finalists = 3
const leastOfFirst = 0.35
/** Nearer than this, as a share of the diagonal, two maps are one. */
const sameMap = 0.004

/** A map that may be the right one, with the weight of the patches that agree on it. */
type Contender = {
  readonly homography: Homography
  readonly weight: number
  readonly share: number
  readonly patches: number
}

/**
 * Finds how one photo lies over another of the same view, taken later, after colours, finish, hardware and light have
 * changed.
 *
 * The rough position is found by laying the edges of one over those of the other, and, where that leaves doubt, by binary
 * features. Small patches of edges are then found again, at two sizes, and a map is fitted to them that most agree on; where
 * two planes offer two maps, that of the piece wins, for the piece is what changed colour. What comes out is judged by
 * witnesses of its own (`judgeAlignment`), and refused when in doubt.
 *
 * @param before and after, upright, best with the longer side at `alignmentSide`
 * @throws Error when it takes more time or memory than the limits
 */
export function alignPictures(
  before: ColourPixels,
  after: ColourPixels,
  limits?: AlignmentLimits,
): Promise<Alignment> {
  return withAlignmentThread(async (thread) => {
    await thread.open(before, after)
    const unit = Math.max(before.width, before.height)
    const contenders = await findContenders(thread, unit)
    const patches = await settle(
      thread,
      unit,
      distinct(contenders, after, Math.hypot(before.width, before.height)),
    )
    const fit =
      patches === undefined
        ? undefined
        : simplestFit(patches.all, unit * tolerances.last, patches.start)
    if (patches === undefined || fit === undefined) {
      return { accepted: false, confidence: 0, doubt: 'few-places' }
    }
    return judged(thread, before, after, fit, patches.all)
  }, limits)
}

async function findContenders(
  thread: AlignmentThread,
  unit: number,
): Promise<readonly Contender[]> {
  const [first, second] = await thread.search()
  const found =
    first === undefined ? [] : await grown(thread, unit, first.homography)
  const best = found[0]
  if (
    best !== undefined &&
    best.patches > goodPatches &&
    best.share > goodShare
  ) {
    return found
  }
  const matches = await thread.features(featureSide)
  const fit = robustFit(matches, 'homography', unit * tolerances.features)
  return [
    ...found,
    ...(second === undefined
      ? []
      : await grown(thread, unit, second.homography)),
    ...(fit === undefined || fit.inliers.length < fewest
      ? []
      : await grown(thread, unit, fit.homography)),
  ]
}

/** The maps that patches around a rough position agree on: the one that most do, and the one that most others do. */
async function grown(
  thread: AlignmentThread,
  unit: number,
  start: Homography,
): Promise<readonly Contender[]> {
  const near = { side: coarseSide, half: 12 }
  const first = weighted(await thread.patches(start, { ...near, radius: 12 }))
  const rough = robustFit(first, 'similarity', unit * tolerances.rough, start)
  if (rough === undefined) return []
  const all = weighted(
    await thread.patches(rough.homography, { ...near, radius: 10 }),
  )
  const tolerance = unit * tolerances.coarse
  const found: Contender[] = []
  let left = all
  for (let plane = 0; plane < 2; plane += 1) {
    const fit = robustFit(left, 'homography', tolerance)
    if (fit === undefined || fit.inliers.length < fewest) break
    const weight = weightOf(fit.inliers)
    found.push({
      homography: fit.homography,
      weight,
      share: weight / weightOf(all),
      patches: all.length,
    })
    left = left.filter((match) => residual(fit.homography, match) > tolerance)
  }
  return found
}

/** The weightiest contenders, none of which is another over again. */
function distinct(
  contenders: readonly Contender[],
  after: ColourPixels,
  diagonal: number,
): readonly Contender[] {
  const kept: Contender[] = []
  const byWeight = contenders.toSorted(
    (one, other) => other.weight - one.weight,
  )
  for (const contender of byWeight) {
    const first = kept[0]
    if (kept.length === finalists) break
    if (first !== undefined && contender.weight < first.weight * leastOfFirst) {
      break
    }
    const known = kept.some(
      ({ homography }) =>
        cornerError(homography, contender.homography, after) <
        diagonal * sameMap,
    )
    if (!known) kept.push(contender)
  }
  return kept
}

/** Looks at each contender in the full size; gives the patches around the one with most weight behind it. */
async function settle(
  thread: AlignmentThread,
  unit: number,
  contenders: readonly Contender[],
): Promise<
  | { readonly all: readonly PatchMatch[]; readonly start: Homography }
  | undefined
> {
  const near = { side: alignmentSide, half: 16 }
  let best: RobustFit | undefined
  for (const { homography } of contenders) {
    const all = weighted(
      await thread.patches(homography, { ...near, radius: 8 }),
    )
    const fit = robustFit(all, 'homography', unit * tolerances.fine)
    if (
      fit !== undefined &&
      (best === undefined || weightOf(fit.inliers) > weightOf(best.inliers))
    ) {
      best = fit
    }
  }
  if (best === undefined) return undefined
  const start = best.homography
  return {
    all: weighted(await thread.patches(start, { ...near, radius: 5 })),
    start,
  }
}

async function judged(
  thread: AlignmentThread,
  before: ColourPixels,
  after: ColourPixels,
  fit: RobustFit,
  patches: readonly PatchMatch[],
): Promise<Alignment> {
  const diagonal = Math.hypot(before.width, before.height)
  const unaligned = scaling(
    before.width / after.width,
    before.height / after.height,
  )
  const crop = commonCrop(fit.homography, before, after)
  const aligned = await thread.overlap(fit.homography, informationSide)
  const judgement = judgeAlignment({
    agreeing: fit.inliers.length,
    halvesApart: halvesApart(fit, patches, before, after) / diagonal,
    moved: cornerError(fit.homography, unaligned, after) / diagonal,
    shared:
      crop === undefined
        ? 0
        : (crop.width * crop.height) / (before.width * before.height),
    information: {
      aligned: mutualInformation(aligned),
      unaligned: mutualInformation(
        await thread.overlap(unaligned, informationSide),
      ),
      displaced: Math.max(
        ...displacements.map((shift) => mutualInformation(aligned, shift)),
      ),
    },
  })
  return judgement.accepted
    ? { ...judgement, model: fit.model, homography: fit.homography }
    : judgement
}

/** Some 3 % of the longer side, every way. */
const displacements = [
  { x: 8, y: 0 },
  { x: -8, y: 0 },
  { x: 0, y: 8 },
  { x: 0, y: -8 },
  { x: 6, y: 6 },
  { x: -6, y: 6 },
  { x: 6, y: -6 },
  { x: -6, y: -6 },
]

/** How far apart the maps of two halves of the patches take the corners: dark and light squares of a board of six. */
function halvesApart(
  fit: RobustFit,
  patches: readonly PatchMatch[],
  before: ColourPixels,
  after: ColourPixels,
): number {
  const unit = Math.max(before.width, before.height)
  const square = unit / 6
  const [dark, light] = [0, 1].map((colour) =>
    robustFit(
      patches.filter(
        ({ to }) =>
          (Math.floor(to.x / square) + Math.floor(to.y / square)) % 2 ===
          colour,
      ),
      fit.model,
      unit * tolerances.last,
    ),
  )
  return dark === undefined || light === undefined
    ? Infinity
    : cornerError(dark.homography, light.homography, after)
}

function weighted(patches: readonly PatchMatch[]): readonly PatchMatch[] {
  return patches
    .filter((patch) => patch.likeness > leastLikeness)
    .map((patch) => ({
      ...patch,
      weight: (1 + changedCountsMore * patch.changed) * patch.likeness,
    }))
}

function weightOf(matches: readonly Match[]): number {
  return matches.reduce((sum, match) => sum + (match.weight ?? 1), 0)
}
