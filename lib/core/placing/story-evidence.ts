import { type Seen, lookSpeaks } from '#core/placing/picture-evidence'
import {
  type Spot,
  type Standing,
  type Story,
  stepsOfKind,
} from '#core/placing/story'
import type { SurfaceSet } from '#core/placing/surface-sets'

/**
 * How often a photo repeats the view of an earlier one: of a before; of a step, one that shows a surface of its own or
 * none; beside how often any photo does. All common practice, no source.
 */
const views = {
  /** Afters are taken like the befores; metal parts and insides are photographed by themselves. */
  ofBefore: { before: 0.2, after: 0.65, outside: 0.25, parts: 0.2, any: 0.3 },
  ofStep: {
    outside: { shared: 0.35, other: 0.05 },
    parts: { shared: 0.2, other: 0.05 },
    after: { shared: 0.25, other: 0.2 },
    any: { shared: 0.2, other: 0.15 },
  },
} as const

/**
 * What the picture of an item says for a place, against knowing nothing.
 *
 * @returns a natural logarithm: above 0 for, below 0 against
 */
export function evidence(
  story: Story,
  index: number,
  here: Standing,
  spot: Spot,
): number {
  return (
    fromView(story, index, here, spot) +
    fromColours(story, index, here, spot, here.spot === spot)
  )
}

function fromView(
  story: Story,
  index: number,
  { path }: Standing,
  spot: Spot,
): number {
  const alike = story.alike[index]
  if (alike === undefined || story.items[index]?.look.likeness === undefined) {
    return 0
  }
  const { as } = spot.place
  const sort =
    as !== 'step' ? as : spot.set.sort === 'outside' ? 'outside' : 'parts'
  const before = alike.find(({ item }) => path[item] === story.before)?.how ?? 0
  const { ofBefore } = views
  const speaks = Math.log(
    either(before, ofBefore[sort]) / either(before, ofBefore.any),
  )
  if (sort === 'before') return speaks
  const closest = alike.find(({ item }) => path[item]?.isStep === true)
  const how = closest?.how ?? 0
  const shown = closest === undefined ? undefined : path[closest.item]
  const isShared = shown?.set.at.some((at) => spot.set.at.includes(at)) ?? false
  const own = views.ofStep[sort]
  const { any } = views.ofStep
  const which = isShared ? 'shared' : 'other'
  return (
    speaks +
    Math.log(
      (how * own[which] + (1 - how) * (1 - own.shared - own.other)) /
        (how * any[which] + (1 - how) * (1 - any.shared - any.other)),
    )
  )
}

function either(how: number, probability: number): number {
  return how * probability + (1 - how) * (1 - probability)
}

function fromColours(
  story: Story,
  index: number,
  here: Standing,
  { place, set }: Spot,
  isSame: boolean,
): number {
  // Who goes round a piece shows all its colours from all sides.
  if (place.as !== 'step') return 0
  const seen = lastSeen(story, index, here, set, isSame)
  if (seen === undefined) return 0
  if (isSame) return lookSpeaks(seen)
  const isFirst = set.at.every(
    (at) => stepsOfKind(here.tracks[at], place.kind) === 0,
  )
  return lookSpeaks(seen, { kind: place.kind, isFirst })
}

/** How the colours moved since a photo that shows the surfaces as they were: one of the same view if there is one. */
function lastSeen(
  story: Story,
  index: number,
  { spot: current, tracks, path, seen }: Standing,
  set: SurfaceSet,
  isSame: boolean,
): Seen | undefined {
  const known = seen.get(set)
  if (!isSame && known !== undefined) return known.value
  const lasts = isSame
    ? [current]
    : set.at.map((at) => tracks[at]?.spot ?? story.before)
  const value = findSeen(story, index, (item) => lasts.includes(path[item]))
  if (!isSame) seen.set(set, { value })
  return value
}

function findSeen(
  story: Story,
  index: number,
  shows: (item: number) => boolean,
): Seen | undefined {
  for (const { item, how } of story.alike[index] ?? []) {
    if (how < 0.5 || !shows(item)) continue
    const move = story.moveBetween(item, index, true)
    if (move !== undefined) return { move, isSameView: true }
  }
  for (let item = index - 1; item >= 0; item -= 1) {
    if (!shows(item)) continue
    const move = story.moveBetween(item, index, false)
    if (move !== undefined) return { move, isSameView: false }
  }
  return undefined
}
