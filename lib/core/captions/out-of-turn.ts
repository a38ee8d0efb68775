import { shortestChapter } from '#core/captions/chapter-length'
import type { Heard } from '#core/captions/heard-steps'
import { enterCost } from '#core/captions/step-evidence'

/** Of beginning what is not in its turn, in the units of what is said for a step. Common practice, no source. */
const outOfTurnCost = 2.4

/** Steps that found no place in their turn but are clearly begun elsewhere: while another is told of that says less of it. */
export function outOfTurn(
  { times, ending, said, begins, plans }: Heard,
  states: readonly number[],
  placed: readonly { readonly state: number; readonly at: number }[],
): readonly { state: number; at: number; confidence: number }[] {
  const found: { state: number; at: number; confidence: number }[] = []
  const free = Array.from({ length: ending - 1 }, (_, i) => i + 1).filter(
    (state) => !placed.some((one) => one.state === state),
  )
  const candidates = free.flatMap((state) =>
    times.map((at, u) => {
      const here = states[u] ?? 0
      const gain = (v: number) =>
        Math.max(
          0,
          (said[state]?.[v] ?? 0) - Math.max(0, said[states[v] ?? 0]?.[v] ?? 0),
        )
      let score = (begins[state]?.[u] ?? -Infinity) + enterCost - outOfTurnCost
      if (here === ending) score -= 1
      if (here === 0) score -= (plans[u] ?? 0) * 3
      if (gain(u) <= 0 && gain(u + 1) <= 0) score -= 1.5
      for (let v = u; v < times.length && (times[v] ?? 0) < at + 30; v += 1) {
        score += gain(v) * 0.5
      }
      return { state, at, score }
    }),
  )
  candidates.sort((one, other) => other.score - one.score)
  for (const { state, at, score } of candidates) {
    if (score <= 0.6) break
    if (found.some((one) => one.state === state)) continue
    const isClear = [...placed, ...found].every(
      (one) => Math.abs(one.at - at) >= shortestChapter,
    )
    if (isClear && at >= shortestChapter) {
      found.push({ state, at, confidence: 0.75 * (1 - Math.exp(-score / 1.5)) })
    }
  }
  return found
}
