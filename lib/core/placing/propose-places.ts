import type { Journal } from '#core/journal/journal'
import type { PlacingBurst, Proposal } from '#core/placing/place'
import { type PhotoLook, sequenceItems } from '#core/placing/sequence-items'
import type { StepOrderCounts } from '#core/placing/step-order'
import {
  type Spot,
  type Standing,
  type Story,
  type Track,
  beginning,
  storyOf,
  tracksAfter,
} from '#core/placing/story'
import { evidence } from '#core/placing/story-evidence'
import { candidatesAfter } from '#core/placing/story-odds'

/** So many ways in which it may have gone are followed at once. */
const beamWidth = 64
/** Ways whose logarithm is so much below the best are let go. */
const beamDepth = 8
/**
 * What confidences make of the weights: the photos of a job err together where the model errs, so that what they say is
 * not worth the sum of what each says. Chosen on the demo's 44 photos, where it brings confidence and truth together.
 */
const believed = 0.5
/** No picture says more for a place than about this. */
const mostEvidence = 3
/** So many proposals are worth showing. */
const mostProposals = 6

/**
 * Where each burst of photos that nobody has placed yet may belong: a step that is there, a new one, or before or after
 * the work.
 *
 * All photos of the job in order of time are one sequence, and what is weighed are the stories that explain it: a step
 * goes on or another begins (how long it is since the last photo), the next one follows from what has been done to each
 * surface (`nextStepOdds`), and it shows in how the colours moved since the last photo of the same surface and in which
 * earlier view a photo repeats. What was placed already is taken as it is. A confidence is the weight of all stories
 * that agree, so that the doubt of the neighbours is in it; the first proposals are those of the one story that agrees
 * with most of the weight, so that they fit together.
 *
 * @param looks by the id of the photo
 * @param learnt what followed what in other jobs (`countStepOrder`)
 * @returns in order of time
 * Source of the method: L. R. Rabiner, "A tutorial on hidden Markov models", Proc. IEEE 77 (1989), 257-286 (cited from
 * memory): the weight of each state forward and backward, over the best few states of each moment; and the path through
 * them that has most of it.
 */
export function proposePlaces(
  journal: Journal,
  looks: ReadonlyMap<string, PhotoLook>,
  learnt: StepOrderCounts = new Map(),
): readonly PlacingBurst[] {
  const items = sequenceItems(journal, looks)
  if (items.every((item) => item.fixed !== undefined)) return []
  const columns = followStories(storyOf(journal, items, learnt))
  const shares = sharesOf(columns)
  const chosen = storyWithMost(columns, shares)
  return items.flatMap((item, index) => {
    const spot = chosen[index]
    const share = shares[index]
    if (item.fixed !== undefined || spot === undefined || share === undefined) {
      return []
    }
    return [{ photoIds: item.photoIds, proposals: ranked(share, spot) }]
  })
}

/** A state of the story at one item; stories that meet in it go on as one, as the best of them. */
type Node = {
  spot: Spot
  tracks: readonly Track[]
  began: readonly Spot[]
  /** The logarithm of the best way here, and where it came from. */
  best: number
  from: Node | undefined
  /** The logarithm of the sum of all ways here. */
  sum: number
  readonly edges: { readonly from: Node; readonly weight: number }[]
}

/** The states of each item that are worth following, the best first. */
function followStories(story: Story): readonly (readonly Node[])[] {
  const columns: (readonly Node[])[] = []
  for (const index of story.items.keys()) {
    const before = columns[index - 1]
    const nodes = new Map<string, Node>()
    // Of two equal states the later is let go at once, so the deepest that can still matter is known early.
    let most = -Infinity
    const from: readonly (Node | undefined)[] = before ?? [undefined]
    for (const node of from) {
      const here = node === undefined ? beginning(story) : standing(node)
      for (const { spot, odds } of candidatesAfter(story, index, here)) {
        const prior = Math.log(odds)
        if ((node?.best ?? 0) + prior + mostEvidence < most - beamDepth)
          continue
        const weight = prior + evidence(story, index, here, spot)
        const best = (node?.best ?? 0) + weight
        if (best < most - beamDepth) continue
        most = Math.max(most, best)
        arrive(nodes, story, index, here, spot, weight, node)
      }
    }
    columns.push(
      [...nodes.values()]
        .filter((node) => node.best >= most - beamDepth)
        .sort((one, other) => other.best - one.best)
        .slice(0, beamWidth),
    )
  }
  return columns
}

function standing(node: Node): Standing {
  const path: Spot[] = []
  for (let at: Node | undefined = node; at !== undefined; at = at.from) {
    path.push(at.spot)
  }
  return { ...node, path: path.reverse(), seen: new Map() }
}

/** Lets a story go on to a place; where another arrived in the same state, the two are one from now on. */
function arrive(
  nodes: Map<string, Node>,
  story: Story,
  index: number,
  here: Standing,
  spot: Spot,
  weight: number,
  from: Node | undefined,
): void {
  const tracks = tracksAfter(story, index, here, spot)
  let key = spot.mark
  for (const { past } of tracks) key += `|${past}`
  const isThere = spot.place.as === 'step' && spot.place.stepId !== undefined
  const way = {
    spot,
    tracks,
    began:
      isThere && !here.began.includes(spot)
        ? [...here.began, spot]
        : here.began,
    best: (from?.best ?? 0) + weight,
    from,
  }
  const sum = (from?.sum ?? 0) + weight * believed
  const known = nodes.get(key)
  if (known === undefined) {
    const edges =
      from === undefined ? [] : [{ from, weight: weight * believed }]
    nodes.set(key, { ...way, sum, edges })
    return
  }
  known.sum = logOfSum(known.sum, sum)
  if (from !== undefined) known.edges.push({ from, weight: weight * believed })
  if (way.best > known.best) Object.assign(known, way)
}

type Shares = ReadonlyMap<Spot, number>

/** For each item, the share of the weight of all stories that each place has. */
function sharesOf(columns: readonly (readonly Node[])[]): readonly Shares[] {
  const later = weightsOfLater(columns)
  return columns.map((column) => {
    const weights = column.map(
      (node) => node.sum + (later.get(node) ?? -Infinity),
    )
    const most = Math.max(...weights)
    const total = weights.reduce((sum, one) => sum + Math.exp(one - most), 0)
    const shares = new Map<Spot, number>()
    for (const [index, { spot }] of column.entries()) {
      const share = Math.exp((weights[index] ?? -Infinity) - most) / total
      shares.set(spot, (shares.get(spot) ?? 0) + share)
    }
    return shares
  })
}

/** For each state, the logarithm of the sum of all ways that go on from it. */
function weightsOfLater(
  columns: readonly (readonly Node[])[],
): ReadonlyMap<Node, number> {
  const later = new Map<Node, number>()
  for (const node of columns.at(-1) ?? []) later.set(node, 0)
  for (const column of columns.toReversed()) {
    for (const node of column) {
      const own = later.get(node)
      if (own === undefined) continue
      for (const { from, weight } of node.edges) {
        const known = later.get(from)
        const way = own + weight
        later.set(from, known === undefined ? way : logOfSum(known, way))
      }
    }
  }
  return later
}

/** The story whose places have most of the weight, summed over all items. */
function storyWithMost(
  columns: readonly (readonly Node[])[],
  shares: readonly Shares[],
): readonly Spot[] {
  const reached = new Map<Node, { sum: number; from: Node | undefined }>()
  for (const [index, column] of columns.entries()) {
    for (const node of column) {
      const own = shares[index]?.get(node.spot) ?? 0
      let best = { sum: index === 0 ? own : -Infinity, from: node.from }
      for (const { from } of node.edges) {
        const sum = (reached.get(from)?.sum ?? -Infinity) + own
        if (sum > best.sum) best = { sum, from }
      }
      reached.set(node, best)
    }
  }
  const last = (columns.at(-1) ?? []).toSorted(
    (one, other) =>
      (reached.get(other)?.sum ?? 0) - (reached.get(one)?.sum ?? 0),
  )[0]
  const spots: Spot[] = []
  for (let at = last; at !== undefined; at = reached.get(at)?.from) {
    spots.push(at.spot)
  }
  return spots.reverse()
}

function ranked(shares: Shares, first: Spot): readonly Proposal[] {
  return [...shares]
    .toSorted(
      ([one, share], [other, another]) =>
        Number(other === first) - Number(one === first) || another - share,
    )
    .slice(0, mostProposals)
    .map(([{ place }, confidence]) => ({ place, confidence }))
}

function logOfSum(one: number, other: number): number {
  const most = Math.max(one, other)
  return most + Math.log(Math.exp(one - most) + Math.exp(other - most))
}
