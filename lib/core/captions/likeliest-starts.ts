import { shortestChapter } from '#core/captions/chapter-length'
import type { Heard } from '#core/captions/heard-steps'
import { roomBefore } from '#core/captions/start-chances'

/** A beginning less likely than this is none. Common practice, no source: found on transcripts of our own. */
export const leastChance = 0.15

/** A state that begins, where, and how likely it does so within ten seconds of there. */
export type LikelyStart = {
  readonly state: number
  readonly utterance: number
  readonly chance: number
}

const ownShare = 1e-3

/** Some beginnings, the last of them first, and what they are worth together. */
type Way = {
  readonly value: number
  readonly last?: LikelyStart & { readonly before: Way }
}
const none: Way = { value: 0 }

/**
 * The beginnings of which most can be expected to be right: apart, and each within ten seconds of where its step likely
 * begins over all ways to tell the job, not only over the best of them. A step that several ways have begin
 * about there has its beginning, though the best way of all leaves it out.
 *
 * Source: maximum expected accuracy alignment; Durbin, Eddy, Krogh and Mitchison, Biological Sequence Analysis (1998), 4.3.
 *
 * @param chances of each state beginning with each utterance
 */
export function likeliestStarts(
  { times, ending }: Heard,
  chances: readonly (readonly number[])[],
): readonly LikelyStart[] {
  const near = chances.map((row) => withinReach(row, times))
  const room = roomBefore(times)
  // After each state, the best way that has begun everything by an utterance.
  let ways: readonly Way[] = times.map(() => none)
  for (const state of orderOfTelling(near, ending)) {
    let best = none
    ways = ways.map((without, u) => {
      if (without.value > best.value) best = without
      const chance = near[state]?.[u] ?? 0
      if (chance <= leastChance) return best
      const before = ways[(room[u] ?? 0) - 1] ?? none
      // Of places equally near to all that is likely, the likeliest.
      const own = (chances[state]?.[u] ?? 0) * ownShare
      const value = before.value + chance - leastChance + own
      if (value > best.value)
        best = { value, last: { state, utterance: u, chance, before } }
      return best
    })
  }
  const found: LikelyStart[] = []
  for (let way = ways.at(-1); way?.last !== undefined; way = way.last.before) {
    const { state, utterance, chance } = way.last
    found.unshift({ state, utterance, chance })
  }
  return found
}

/**
 * States in the order in which they begin: in their own, those that are likeliest so together, and each of the others where
 * it is likeliest. States that hardly begin anywhere are left out.
 *
 * @param near for each state and utterance, how likely the state begins about there
 */
function orderOfTelling(
  near: readonly (readonly number[])[],
  ending: number,
): readonly number[] {
  const likely = near.slice(1, ending + 1).flatMap((row, index) => {
    const chance = Math.max(0, ...row)
    if (chance <= leastChance) return []
    const [first, last] = [row.indexOf(chance), row.lastIndexOf(chance)]
    return [{ state: index + 1, chance, first, last }]
  })
  let inOrder: Run = { value: 0, until: 0, states: [] }
  const runs: Run[] = [inOrder]
  for (const { state, chance, first, last } of likely) {
    const before = runs
      .filter(({ until }) => until <= last)
      .reduce((one, other) => (other.value > one.value ? other : one))
    const run = {
      value: before.value + chance,
      until: Math.max(before.until, first),
      states: [...before.states, state],
    }
    runs.push(run)
    if (run.value > inOrder.value) inOrder = run
  }
  const order = likely.filter(({ state }) => inOrder.states.includes(state))
  for (const one of likely) {
    if (inOrder.states.includes(one.state)) continue
    const place = order.findIndex(({ first }) => first > one.first)
    order.splice(place === -1 ? order.length : place, 0, one)
  }
  return order.map(({ state }) => state)
}

/** States that begin one after the other, the last of them by an utterance. */
type Run = {
  readonly value: number
  readonly until: number
  readonly states: readonly number[]
}

/** For each utterance, the sum of the chances at most a shortest chapter away: 0 to 1. */
function withinReach(
  row: readonly number[],
  times: readonly number[],
): readonly number[] {
  let from = 0
  let to = 0
  let sum = 0
  return times.map((at) => {
    while ((times[to] ?? Infinity) <= at + shortestChapter) {
      sum += row[to] ?? 0
      to += 1
    }
    while ((times[from] ?? Infinity) < at - shortestChapter) {
      sum -= row[from] ?? 0
      from += 1
    }
    return Math.max(0, Math.min(1, sum))
  })
}
