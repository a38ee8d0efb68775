import { closestTellings } from '#core/captions/chapter-length'
import type { Heard } from '#core/captions/heard-steps'

/** Of each step that is passed over, in the units of what is said for one. Common practice, no source. */
const skipCost = 0.6

/** The best way through the states, and where each begins in it. */
export type Path = {
  readonly starts: readonly {
    readonly state: number
    readonly utterance: number
  }[]
  /** The state of each utterance. */
  readonly states: readonly number[]
}

/** The best path through the states, forward only, each entered at most once and kept for a chapter's length. */
export function bestPath(heard: Heard): Path {
  const { times, ending, begins } = heard
  const sums = sumsOf(heard)
  const room = roomBefore(times)
  const score = begins.map(() => times.map(() => -Infinity))
  const from: ({ state: number; utterance: number } | undefined)[][] =
    begins.map(() => times.map(() => undefined))
  // The best start of each state so far, by what it had over its own sum.
  const lead = begins.map(() => ({ value: -Infinity, utterance: -1 }))
  lead[0] = { value: 0, utterance: 0 }
  let counted = 0
  for (let u = 0; u < times.length; u += 1) {
    while (counted < (room[u] ?? 0)) {
      for (let s = 1; s <= ending; s += 1) {
        const value =
          (score[s]?.[counted] ?? -Infinity) - (sums[s]?.[counted] ?? 0)
        if (value > (lead[s]?.value ?? -Infinity))
          lead[s] = { value, utterance: counted }
      }
      counted += 1
    }
    for (let s = 1; s <= ending; s += 1) {
      const own = begins[s]?.[u] ?? -Infinity
      if (own === -Infinity) continue
      let best = -Infinity
      for (let k = 0; k < s; k += 1) {
        const value =
          (lead[k]?.value ?? -Infinity) + (sums[k]?.[u] ?? 0) - skipped(k, s)
        if (value > best) {
          best = value
          const row = from[s]
          if (row !== undefined)
            row[u] = { state: k, utterance: lead[k]?.utterance ?? 0 }
        }
      }
      const row = score[s]
      if (row !== undefined) row[u] = best + own
    }
  }
  let end = { state: 0, utterance: 0, value: sums[0]?.[times.length] ?? 0 }
  for (let s = 1; s <= ending; s += 1) {
    for (let u = 0; u < times.length; u += 1) {
      const value =
        (score[s]?.[u] ?? -Infinity) +
        (sums[s]?.[times.length] ?? 0) -
        (sums[s]?.[u] ?? 0) -
        skipped(s, ending)
      if (value > end.value) end = { state: s, utterance: u, value }
    }
  }
  const starts: { state: number; utterance: number }[] = []
  const states = times.map(() => 0)
  let until = times.length
  let here: { state: number; utterance: number } | undefined = end
  while (here !== undefined && here.state > 0) {
    starts.unshift({ state: here.state, utterance: here.utterance })
    states.fill(here.state, here.utterance, until)
    until = here.utterance
    here = from[here.state]?.[here.utterance]
  }
  return { starts, states }
}

/** `sums[state][n]`: what the first n utterances say for the state. */
export function sumsOf({ said }: Heard): readonly (readonly number[])[] {
  return said.map((row) => {
    let sum = 0
    return [0, ...row.map((one) => (sum += one))]
  })
}

/** For each utterance, how many before it begin long enough before to end a chapter there. */
export function roomBefore(times: readonly number[]): readonly number[] {
  let count = 0
  return times.map((at) => {
    while ((times[count] ?? Infinity) <= at - closestTellings) count += 1
    return count
  })
}

/** What it costs to go from one state to another: the steps between them are left out. */
export function skipped(from: number, to: number): number {
  return Math.max(0, to - from - 1) * skipCost
}
