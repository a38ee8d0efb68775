import { roomBefore, skipped, sumsOf } from '#core/captions/best-path'
import { closestTellings, shortestChapter } from '#core/captions/chapter-length'
import type { Heard } from '#core/captions/heard-steps'

/** Scores over this are log odds: found on transcripts of our own. */
const temperature = 0.8

/** `chances[state][utterance]`: how likely the state begins there, over all paths, each weighed by its score. */
export function startChances(heard: Heard): readonly (readonly number[])[] {
  const { times, ending, begins } = heard
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
    for (let s = 1; s <= ending; s += 1) {
      const own = begins[s]?.[u] ?? -Infinity
      const row = forward[s]
      if (own === -Infinity || row === undefined) continue
      let total = -Infinity
      for (let k = 0; k < s; k += 1) {
        total = logSum(
          total,
          (lead[k] ?? -Infinity) + (sums[k]?.[u] ?? 0) - cool(skipped(k, s)),
        )
      }
      row[u] = total + cool(own)
    }
  }
  const backward = begins.map(() => times.map(() => -Infinity))
  // What can follow a state from some utterance on, over the sum of the state up to there.
  const ahead = begins.map(
    (_, s) => (sums[s]?.[count] ?? 0) - cool(skipped(s, ending)),
  )
  let w = count - 1
  for (let u = count - 1; u >= 0; u -= 1) {
    while (w >= 0 && (times[w] ?? 0) >= (times[u] ?? 0) + closestTellings) {
      for (let s = 1; s < ending; s += 1) {
        let total = -Infinity
        for (let next = s + 1; next <= ending; next += 1) {
          const own = begins[next]?.[w] ?? -Infinity
          if (own === -Infinity) continue
          total = logSum(
            total,
            cool(own - skipped(s, next)) + (backward[next]?.[w] ?? -Infinity),
          )
        }
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
  const whole = pathTotal(heard, forward, sums, cool)
  return forward.map((row, s) =>
    row.map((one, u) =>
      Math.exp(Math.min(0, one + (backward[s]?.[u] ?? -Infinity) - whole)),
    ),
  )
}

/** The logarithm of the weights of all paths. */
function pathTotal(
  { times, ending }: Heard,
  forward: readonly (readonly number[])[],
  sums: readonly (readonly number[])[],
  cool: (value: number) => number,
): number {
  const count = times.length
  let total = (sums[0]?.[count] ?? 0) - cool(skipped(0, ending))
  for (let s = 1; s <= ending; s += 1) {
    for (let u = 0; u < count; u += 1) {
      total = logSum(
        total,
        (forward[s]?.[u] ?? -Infinity) +
          (sums[s]?.[count] ?? 0) -
          (sums[s]?.[u] ?? 0) -
          cool(skipped(s, ending)),
      )
    }
  }
  return total
}

function logSum(one: number, other: number): number {
  const most = Math.max(one, other)
  return most === -Infinity
    ? most
    : most + Math.log(Math.exp(one - most) + Math.exp(other - most))
}

/** How likely a state begins within a shortest chapter of an utterance: 0 to 1. */
export function chanceNear(
  chances: readonly number[] | undefined,
  times: readonly number[],
  utterance: number,
): number {
  const at = times[utterance] ?? 0
  const near = (chances ?? []).reduce(
    (sum, one, u) =>
      sum +
      (Math.abs((times[u] ?? Infinity) - at) <= shortestChapter ? one : 0),
    0,
  )
  return Math.min(1, near)
}
