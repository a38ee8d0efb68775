import { closestTellings } from '#core/captions/chapter-length'
import type { Heard } from '#core/captions/heard-steps'

/** Scores over this are log odds: found on transcripts of our own. */
const temperature = 0.8
/** Of each step that is passed over, in the units of what is said for one. Common practice, no source. */
const skipCost = 0.6

/** Of each state and utterance, and how well all ways together fit what is said, as a logarithm. */
export type StartChances = {
  readonly chances: readonly (readonly number[])[]
  readonly fit: number
}

/**
 * `chances[state][utterance]`: how likely the state begins there, over all ways forward through the states, each state
 * entered at most once and kept for as long as two tellings are apart, each way weighed by its score.
 *
 * Source: the forward and backward sums of hidden Markov models; Rabiner, Proc. IEEE 77 (1989), 257-286. As passing over a
 * step costs the same each time, a sum over the states before is carried along, so that the time is that of states times
 * utterances.
 */
export function startChances(heard: Heard): StartChances {
  const { times, ending, begins } = heard
  const skip = skipCost / temperature
  const cool = (value: number) => value / temperature
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
    let total = -Infinity
    for (let s = 1; s <= ending; s += 1) {
      total = logSum(
        total - skip,
        (lead[s - 1] ?? -Infinity) + (sums[s - 1]?.[u] ?? 0),
      )
      const row = forward[s]
      if (row !== undefined) row[u] = total + cool(begins[s]?.[u] ?? -Infinity)
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
      let total = -Infinity
      for (let s = ending - 1; s >= 1; s -= 1) {
        total = logSum(
          total - skip,
          cool(begins[s + 1]?.[w] ?? -Infinity) +
            (backward[s + 1]?.[w] ?? -Infinity),
        )
        ahead[s] = logSum(ahead[s] ?? -Infinity, total + (sums[s]?.[w] ?? 0))
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
