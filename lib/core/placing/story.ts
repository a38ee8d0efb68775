import type { Journal } from '#core/journal/journal'
import { type StepKind, stepKinds } from '#core/journal/vocabulary'
import {
  type ColourMove,
  moveInPlace,
  moveOverall,
} from '#core/photos/colour-grid'
import { unlikeness } from '#core/photos/likeness'
import { type Seen, sameView } from '#core/placing/picture-evidence'
import { type Place, placeKey } from '#core/placing/place'
import { type SequenceItem, placeOfStep } from '#core/placing/sequence-items'
import {
  type StepOrderCounts,
  type SurfaceState,
  nextStepOdds,
  surfaceAfter,
  untouched,
} from '#core/placing/step-order'
import { type SurfaceSet, surfaceSets } from '#core/placing/surface-sets'
import type { Instant } from '#core/units'

/** A place as a story refers to it: one object for each, so that two are the same when they are identical. */
export type Spot = {
  readonly place: Place
  /** One character that no other spot of this story has. */
  readonly mark: string
  /** Its surfaces, by their position in the job; none for before and after. */
  readonly set: SurfaceSet
  readonly isStep: boolean
}

/** A surface in a story. */
export type Track = {
  readonly state: SurfaceState
  /** The kinds of its steps so far, one character each. */
  readonly past: string
  /** Its last step, and when that was last shown. */
  readonly spot?: Spot
  readonly until?: Instant
}

/** How a story has gone so far. */
export type Standing = {
  /** Absent at the beginning. */
  readonly spot: Spot | undefined
  readonly tracks: readonly Track[]
  /** The steps that were there already and have begun. */
  readonly began: readonly Spot[]
  /** The places of all items so far. */
  readonly path: readonly Spot[]
  /** What was found of the colours of the next item, so that it is not looked for again. */
  readonly seen: Map<SurfaceSet, { readonly value: Seen | undefined }>
}

/** Everything that stays the same while the stories of a job are followed. */
export type Story = {
  readonly items: readonly SequenceItem[]
  readonly sets: readonly SurfaceSet[]
  readonly surfaceCount: number
  readonly before: Spot
  readonly after: Spot
  /** Where each item was placed already. */
  readonly fixed: readonly (Spot | undefined)[]
  /** For each item the next step that was placed already, from this item on. */
  readonly upcoming: readonly (Spot | undefined)[]
  /** Steps that are there without a date. */
  readonly written: readonly Spot[]
  /** For each item, the earlier ones whose view it may repeat, the most alike first. */
  readonly alike: readonly (readonly Alike[])[]
  readonly spotOf: (place: Place) => Spot
  readonly newSpot: (set: SurfaceSet, kind: StepKind, coat: number) => Spot
  readonly oddsOf: (
    state: SurfaceState,
    sort: SurfaceSet['sort'],
  ) => ReadonlyMap<StepKind, number>
  readonly moveBetween: (
    earlier: number,
    item: number,
    isSameView: boolean,
  ) => ColourMove | undefined
}

export type Alike = { readonly item: number; readonly how: number }

/** What is needed to follow the stories of a job. */
export function storyOf(
  journal: Journal,
  items: readonly SequenceItem[],
  learnt: StepOrderCounts,
): Story {
  const surfaces = journal.pieces.flatMap((piece) => piece.surfaces)
  const sets = surfaceSets(journal)
  const spotOf = spotsBy(
    surfaces.map((surface) => surface.id),
    sets,
  )
  const fixed = items.map((item) =>
    item.fixed === undefined ? undefined : spotOf(item.fixed),
  )
  const dated = new Set(fixed)
  return {
    items,
    sets,
    surfaceCount: surfaces.length,
    before: spotOf({ as: 'before' }),
    after: spotOf({ as: 'after' }),
    fixed,
    upcoming: fixed.map((_, index) =>
      fixed.slice(index).find((spot) => spot?.isStep === true),
    ),
    written: journal.steps
      .map((step) => spotOf(placeOfStep(step)))
      .filter((spot) => !dated.has(spot)),
    alike: items.map((item, index) => alikeTo(items, item, index)),
    spotOf,
    newSpot: newSpots(spotOf),
    oddsOf: oddsBy(learnt),
    moveBetween: movesBetween(items),
  }
}

const firstMark = 0x4e00

const nowhere: SurfaceSet = {
  surfaceIds: [],
  at: [],
  sort: 'outside',
  weight: 0,
}

function spotsBy(
  surfaceIds: readonly string[],
  sets: readonly SurfaceSet[],
): (place: Place) => Spot {
  const known = new Map<string, Spot>()
  return (place) => {
    const key = placeKey(place)
    const there = known.get(key)
    if (there !== undefined) return there
    const spot = {
      place,
      mark: String.fromCharCode(firstMark + known.size),
      set:
        place.as === 'step'
          ? setOf(place.surfaceIds, surfaceIds, sets)
          : nowhere,
      isStep: place.as === 'step',
    }
    known.set(key, spot)
    return spot
  }
}

function setOf(
  ids: readonly string[],
  surfaceIds: readonly string[],
  sets: readonly SurfaceSet[],
): SurfaceSet {
  const ordered = surfaceIds.filter((id) => ids.includes(id)).join(' ')
  return sets.find((set) => set.surfaceIds.join(' ') === ordered) ?? nowhere
}

function newSpots(spotOf: (place: Place) => Spot) {
  const known = new Map<SurfaceSet, Map<string, Spot>>()
  return (set: SurfaceSet, kind: StepKind, coat: number): Spot => {
    const own = known.get(set) ?? new Map<string, Spot>()
    known.set(set, own)
    const key = `${kind} ${coat}`
    const spot =
      own.get(key) ??
      spotOf({
        as: 'step',
        kind,
        surfaceIds: set.surfaceIds,
        ...(coat > 0 ? { coat } : {}),
      })
    own.set(key, spot)
    return spot
  }
}

function oddsBy(learnt: StepOrderCounts): Story['oddsOf'] {
  const known = new Map<string, ReadonlyMap<StepKind, number>>()
  return (state, sort) => {
    const key = `${sort} ${state.last ?? ''} ${state.film ?? ''} ${state.coats}`
    const odds = known.get(key) ?? nextStepOdds(state, sort, learnt)
    known.set(key, odds)
    return odds
  }
}

function movesBetween(items: readonly SequenceItem[]): Story['moveBetween'] {
  const known = new Map<string, ColourMove>()
  return (earlier, item, isSameView) => {
    const from = items[earlier]?.look.colours
    const to = items[item]?.look.colours
    if (from === undefined || to === undefined) return undefined
    const key = `${earlier} ${item} ${isSameView}`
    const move =
      known.get(key) ?? (isSameView ? moveInPlace : moveOverall)(from, to)
    known.set(key, move)
    return move
  }
}

/** More repeats of a view than these tell nothing new. */
const mostAlike = 6

function alikeTo(
  items: readonly SequenceItem[],
  { look }: SequenceItem,
  index: number,
): readonly Alike[] {
  const own = look.likeness
  if (own === undefined) return []
  return items
    .slice(0, index)
    .flatMap((earlier, item) => {
      const other = earlier.look.likeness
      return other === undefined
        ? []
        : [{ item, how: sameView(unlikeness(own, other)) }]
    })
    .filter(({ how }) => how > 0.1)
    .toSorted((one, another) => another.how - one.how)
    .slice(0, mostAlike)
}

/** A job of which nothing has been shown. */
export function beginning(story: Story): Standing {
  return {
    spot: undefined,
    tracks: Array.from({ length: story.surfaceCount }, () => ({
      state: untouched,
      past: '',
    })),
    began: [],
    path: [],
    seen: new Map(),
  }
}

/** The surfaces once an item has shown a place. */
export function tracksAfter(
  story: Story,
  index: number,
  { tracks, began }: Standing,
  spot: Spot,
): readonly Track[] {
  const until = story.items[index]?.until
  const { place, set } = spot
  if (place.as !== 'step' || until === undefined) return tracks
  const after = [...tracks]
  for (const at of set.at) {
    const track = tracks[at]
    if (track === undefined) continue
    // A step that is there is begun once; a new one that others have followed is another of its kind.
    const isBegun =
      place.stepId === undefined ? track.spot === spot : began.includes(spot)
    after[at] = isBegun
      ? { ...track, until }
      : {
          state: surfaceAfter(track.state, place.kind),
          past: track.past + markOf(place.kind),
          spot,
          until,
        }
  }
  return after
}

/** How many steps of a kind a surface has had; a step that took hardware off is one of them. */
export function stepsOfKind(track: Track | undefined, kind: StepKind): number {
  if (track === undefined) return 0
  const mark = markOf(kind)
  let count = 0
  for (const one of track.past) if (one === mark) count += 1
  return count
}

function markOf(kind: StepKind): string {
  return String.fromCharCode(97 + stepKinds.indexOf(kind))
}
