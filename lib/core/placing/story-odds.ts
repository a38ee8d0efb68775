import { countsCoats } from '#core/journal/coats'
import { type StepKind, stepKinds } from '#core/journal/vocabulary'
import { bell } from '#core/placing/picture-evidence'
import {
  type Spot,
  type Standing,
  type Story,
  stepsOfKind,
} from '#core/placing/story'
import { isFinished, untouched } from '#core/placing/step-order'
import type { SurfaceSet } from '#core/placing/surface-sets'
import { minutesBetween } from '#core/units'

/** How photos of a step usually go on and how one step gives way to another; all common practice, no source. */
const habits = {
  first: { before: 0.75, after: 0.02, step: 0.23 },
  /** That the next burst shows the same again. A piece is gone round before and after; a step gets a photo or two. */
  goesOn: { before: 0.75, after: 0.8, step: 0.4 },
  /** Once something else is shown: before the work, after all that was begun is finished, and in between. */
  then: {
    untouched: { before: 0, after: 0.02, step: 0.98 },
    finished: { before: 0.01, after: 0.3, step: 0.69 },
    unfinished: { before: 0.01, after: 0.03, step: 0.96 },
  },
  /** Minutes between two views of a piece that is gone round, two photos of a step, and two steps; log-normal. */
  gapRound: { middle: 1.5, spread: 1.1 },
  gapSame: { middle: 5, spread: 1.4 },
  gapNext: { middle: 100, spread: 1.7 },
  /** The gap means this much where a clock is in doubt. */
  doubtedGap: 0.3,
  /** The next step is on the surfaces of the one before so much more often than on others. */
  sameSurfaces: 6,
  /** And on surfaces that were worked on together before. */
  usedTogether: 2,
  /** Surfaces that are worked on together are seldom worked on apart. */
  apart: 0.5,
  /** What is begun is carried on, and what is finished is left alone; beside 1 for what is untouched. */
  unfinished: 2,
  finished: 0.2,
  /** A step written down ahead is done so much more often than one that was not. */
  writtenDown: 6,
  /** Work goes back to an earlier step, such as a photo of a coat that dries. */
  back: 0.03,
  /** A story has counted a coat already that the owner says came only now. */
  countedTwice: 0.01,
} as const

/** A new step less likely than this is not thought of. */
const leastOdds = 3e-3
/** What the owner says is so, however unlikely. */
const saidOdds = 1e-5

/** Where a story may go on to, and how likely that is before the picture is looked at. */
export type Candidate = { readonly spot: Spot; readonly odds: number }

/** The places that an item may show after what was shown before; the odds of all sum up to about 1. */
export function candidatesAfter(
  story: Story,
  index: number,
  here: Standing,
): readonly Candidate[] {
  const all = [
    ...goingOn(story, index, here),
    ...others(story, index, here),
    ...goingBack(story, index, here),
  ]
  const fixed = story.fixed[index]
  if (fixed === undefined) return all
  const odds = all.reduce(
    (sum, one) => sum + (one.spot === fixed ? one.odds : 0),
    0,
  )
  const doubt = isCountedTwice(here, fixed) ? habits.countedTwice : 1
  return [{ spot: fixed, odds: Math.max(odds, saidOdds) * doubt }]
}

function isCountedTwice(here: Standing, spot: Spot): boolean {
  const { place, set } = spot
  if (place.as !== 'step' || place.coat === undefined) return false
  if (here.spot === spot || here.began.includes(spot)) return false
  const { coat, kind } = place
  return set.at.some((at) => stepsOfKind(here.tracks[at], kind) >= coat)
}

function goingOn(
  story: Story,
  index: number,
  { spot }: Standing,
): readonly Candidate[] {
  if (spot === undefined) return []
  const gap = spot.isStep ? habits.gapSame : habits.gapRound
  const odds = habits.goesOn[spot.place.as] * gapOdds(story, index, gap)
  return [{ spot, odds }]
}

function others(
  story: Story,
  index: number,
  here: Standing,
): readonly Candidate[] {
  const as = here.spot?.place.as
  const share =
    as === undefined
      ? 1
      : (1 - habits.goesOn[as]) * gapOdds(story, index, habits.gapNext)
  const odds = as === undefined ? habits.first : habits.then[stageOf(here)]
  return [
    { spot: story.before, odds: share * odds.before },
    { spot: story.after, odds: share * odds.after },
    ...nextSteps(story, index, here, share * odds.step),
  ].filter((one) => one.odds > 0)
}

/** How far the work is, on the surfaces that were worked on at all. */
function stageOf({ tracks }: Standing): keyof typeof habits.then {
  const begun = tracks.filter(({ spot }) => spot !== undefined)
  if (begun.length === 0) return 'untouched'
  return begun.every(({ state }) => isFinished(state))
    ? 'finished'
    : 'unfinished'
}

/** Photos of an earlier step that no other has followed on its surfaces. */
function goingBack(
  story: Story,
  index: number,
  here: Standing,
): readonly Candidate[] {
  const from = story.items[index]?.from
  if (from === undefined) return []
  const earlier = new Map(
    here.tracks.flatMap(({ spot, until }) =>
      spot === undefined || until === undefined || spot === here.spot
        ? []
        : [[spot, until] as const],
    ),
  )
  return [...earlier]
    .filter(([spot]) =>
      spot.set.at.every((at) => here.tracks[at]?.spot === spot),
    )
    .map(([spot, until]) => ({
      spot,
      odds:
        habits.back * gapDensity(minutesBetween(until, from), habits.gapSame),
    }))
}

function nextSteps(
  story: Story,
  index: number,
  here: Standing,
  share: number,
): readonly Candidate[] {
  const weights = story.sets.map((set) => set.weight * surfaceHabit(set, here))
  const sum = weights.reduce((total, weight) => total + weight, 0)
  const ahead = writtenAhead(story, index, here)
  const found: Candidate[] = []
  for (const [order, set] of story.sets.entries()) {
    const setOdds = (weights[order] ?? 0) / sum
    if (setOdds < leastOdds) continue
    const rows = set.at.map((at) =>
      story.oddsOf(here.tracks[at]?.state ?? untouched, set.sort),
    )
    for (const kind of stepKinds) {
      const odds = setOdds * meanOdds(rows, kind)
      if (odds < leastOdds) continue
      const spot = nextSpot(story, set, here, kind)
      const written = ahead.filter((one) => isSameStep(one, spot))
      if (written.length === 0) found.push({ spot, odds: odds * share })
      for (const one of written) {
        found.push({ spot: one, odds: odds * habits.writtenDown * share })
      }
    }
  }
  // What the owner wrote down may be any step, however unusual.
  for (const spot of ahead) {
    if (found.some((one) => one.spot === spot)) continue
    found.push({ spot, odds: leastOdds * habits.writtenDown * share })
  }
  return found
}

/** Steps that are there and have not begun in this story: those without a date, and the next one with one. */
function writtenAhead(
  story: Story,
  index: number,
  { began }: Standing,
): readonly Spot[] {
  const upcoming = story.upcoming[index]
  const all =
    upcoming === undefined ? story.written : [...story.written, upcoming]
  return all.filter((spot) => !began.includes(spot))
}

function isSameStep(one: Spot, other: Spot): boolean {
  return (
    one.set === other.set &&
    one.place.as === 'step' &&
    other.place.as === 'step' &&
    one.place.kind === other.place.kind &&
    (one.place.coat ?? other.place.coat) ===
      (other.place.coat ?? one.place.coat)
  )
}

function surfaceHabit(set: SurfaceSet, { spot, tracks }: Standing): number {
  const needed = need(set, tracks)
  // One goes on with what one was at until that is done.
  const goesOn = spot?.set === set && needed > habits.finished
  const same = needed * (goesOn ? habits.sameSurfaces : 1)
  for (const at of set.at) {
    const last = tracks[at]?.spot?.set
    if (last === undefined) continue
    if (last === set) return same * habits.usedTogether
    if (
      last.at.length > set.at.length &&
      set.at.every((one) => last.at.includes(one))
    ) {
      return same * habits.apart
    }
  }
  return same
}

function need(set: SurfaceSet, tracks: Standing['tracks']): number {
  let most = 0
  for (const at of set.at) {
    const track = tracks[at]
    const own =
      track?.spot === undefined
        ? 1
        : isFinished(track.state)
          ? habits.finished
          : habits.unfinished
    most = Math.max(most, own)
  }
  return most
}

/** The mean over the surfaces of a set, which usually have one history: the geometric one, so that one can rule it out. */
function meanOdds(
  rows: readonly ReadonlyMap<StepKind, number>[],
  kind: StepKind,
): number {
  let product = 1
  for (const row of rows) product *= row.get(kind) ?? 0
  return rows.length === 1 ? product : product ** (1 / rows.length)
}

function nextSpot(
  story: Story,
  set: SurfaceSet,
  { tracks }: Standing,
  kind: StepKind,
): Spot {
  if (!countsCoats(kind)) return story.newSpot(set, kind, 0)
  let most = 0
  for (const at of set.at) most = Math.max(most, stepsOfKind(tracks[at], kind))
  // Hardware comes off before anything is done to it, and that is no coat.
  return story.newSpot(set, kind, kind === 'hardware' ? most : most + 1)
}

type Gap = { readonly middle: number; readonly spread: number }

/** How well the time since the item before fits; where a clock is in doubt, less of it counts. */
function gapOdds(story: Story, index: number, gap: Gap): number {
  const item = story.items[index]
  const earlier = story.items[index - 1]
  if (item === undefined || earlier === undefined) return 1
  const odds = gapDensity(minutesBetween(earlier.until, item.from), gap)
  return item.doubtedClock === earlier.doubtedClock
    ? odds
    : odds ** habits.doubtedGap
}

/** Half a minute and less is the same; and a little for what no bell foresees. */
function gapDensity(length: number, { middle, spread }: Gap): number {
  const log = Math.log(Math.max(length, 0.5))
  return bell(log, Math.log(middle), spread) + 0.002
}
