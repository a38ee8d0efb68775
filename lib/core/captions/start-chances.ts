import { closestTellings } from '#core/captions/chapter-length'
import type { Heard } from '#core/captions/heard-steps'

/** Scores over this are log odds: found on transcripts of our own. */
const temperature = 0.9
/** Of each step that is passed over, in the units of what is said for one. Common practice, no source. */
const skipCost = 0.5
/**
 * Of going back to an earlier step than the one that is told of, and of going on after the ending, in the same units: who
 * does so has forgotten something, or goes from one surface to another and back. Common practice, no source.
 */
const backCost = 3
const reopenCost = 5

/** Of each state and utterance, and how well all ways together fit what is said, as a logarithm. */
export type StartChances = {
  readonly chances: readonly (readonly number[])[]
  readonly fit: number
}

/**
 * `chances[state][utterance]`: how likely the state begins there, over all ways through the states, each kept for as long as
 * two tellings are apart, each way weighed by its score. A way goes forward, or for a price back.
 *
 * Source: the forward and backward sums of hidden Markov models; Rabiner, Proc. IEEE 77 (1989), 257-286. As passing over a
 * step costs the same each time, and so does going back, sums over the states before and after are carried along, so
 * that the time is that of states times utterances.
 */
export function startChances(heard: Heard): StartChances {
  const { times, ending, begins } = heard
  const cool = (value: number) => value / temperature
  const skip = cool(skipCost)
  const back = cool(backCost)
  const reopen = cool(reopenCost)
  const sums = sumsOf(heard).map((row) => row.map(cool))
  const room = roomBefore(times)
  const count = times.length
  const forward = begins.map(() => times.map(() => -Infinity))
  const lead = begins.map(() => -Infinity)
  lead[0] = 0
  let counted = 0
  for (let u = 0; u < count; u += 1) {
    while (counted < (room[u] ?? 0)) {
      for (let s = 1; s <= ending; s += 1) {
        lead[s] = logSum(
          lead[s] ?? -Infinity,
          (forward[s]?.[counted] ?? -Infinity) - (sums[s]?.[counted] ?? 0),
        )
      }
      counted += 1
    }
    const here = lead.map((one, s) => one + (sums[s]?.[u] ?? 0))
    // What comes back from later states, from the latest on.
    const fromLater = begins.map(() => -Infinity)
    let total = (here[ending] ?? -Infinity) - reopen
    for (let s = ending - 1; s >= 1; s -= 1) {
      fromLater[s] = total
      total = logSum(total, (here[s] ?? -Infinity) - back)
    }
    total = -Infinity
    for (let s = 1; s <= ending; s += 1) {
      total = logSum(total - skip, here[s - 1] ?? -Infinity)
      const row = forward[s]
      if (row !== undefined)
        row[u] =
          logSum(total, fromLater[s] ?? -Infinity) +
          cool(begins[s]?.[u] ?? -Infinity)
    }
  }
  const backward = begins.map(() => times.map(() => -Infinity))
  // What can follow a state from some utterance on, over the sum of the state up to there.
  const ahead = begins.map(
    (_, s) => (sums[s]?.[count] ?? 0) - skipped(s, ending) * skip,
  )
  let w = count - 1
  for (let u = count - 1; u >= 0; u -= 1) {
    while (w >= 0 && (times[w] ?? 0) >= (times[u] ?? 0) + closestTellings) {
      const next = begins.map(
        (row, s) => cool(row[w] ?? -Infinity) + (backward[s]?.[w] ?? -Infinity),
      )
      let total = -Infinity
      const follow = begins.map(() => -Infinity)
      for (let s = ending - 1; s >= 1; s -= 1) {
        total = logSum(total - skip, next[s + 1] ?? -Infinity)
        follow[s] = total
      }
      let earlier = -Infinity
      for (let s = 1; s <= ending; s += 1) {
        const all = logSum(
          follow[s] ?? -Infinity,
          earlier - (s === ending ? reopen : back),
        )
        ahead[s] = logSum(ahead[s] ?? -Infinity, all + (sums[s]?.[w] ?? 0))
        earlier = logSum(earlier, next[s] ?? -Infinity)
      }
      w -= 1
    }
    for (let s = 1; s <= ending; s += 1) {
      const row = backward[s]
      if (row !== undefined)
        row[u] = (ahead[s] ?? -Infinity) - (sums[s]?.[u] ?? 0)
    }
  }
  let whole = (sums[0]?.[count] ?? 0) - skipped(0, ending) * skip
  for (let s = 1; s <= ending; s += 1) {
    for (let u = 0; u < count; u += 1) {
      whole = logSum(
        whole,
        (forward[s]?.[u] ?? -Infinity) +
          (sums[s]?.[count] ?? 0) -
          (sums[s]?.[u] ?? 0) -
          skipped(s, ending) * skip,
      )
    }
  }
  return {
    chances: forward.map((row, s) =>
      row.map((one, u) =>
        Math.exp(Math.min(0, one + (backward[s]?.[u] ?? -Infinity) - whole)),
      ),
    ),
    fit: whole,
  }
}

/** `sums[state][n]`: what the first n utterances say for the state. */
function sumsOf({ said }: Heard): readonly (readonly number[])[] {
  return said.map((row) => {
    let sum = 0
    return [0, ...row.map((one) => (sum += one))]
  })
}

/** For each utterance, how many before it begin long enough before for a step to be told of in between. */
export function roomBefore(times: readonly number[]): readonly number[] {
  let count = 0
  return times.map((at) => {
    while ((times[count] ?? Infinity) <= at - closestTellings) count += 1
    return count
  })
}

/** How many states are passed over from one to another. */
function skipped(from: number, to: number): number {
  return Math.max(0, to - from - 1)
}

function logSum(one: number, other: number): number {
  const most = Math.max(one, other)
  return most === -Infinity
    ? most
    : most + Math.log(Math.exp(one - most) + Math.exp(other - most))
}
