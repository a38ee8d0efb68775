import { type Mention, mainKind } from '#core/captions/find-mentions'
import type { Utterance } from '#core/captions/utterances'

const plan =
  /\b(?:in (?:this|today's) (?:video|one|episode|tutorial)|in today's|today (?:i'm|i am|we're|we are|i'll|i will|we'll)|i'm going to show|show you|welcome|stay tuned|by the end|we'll be|we will be|i'll be|i will be|i'm gonna be|going to be|the plan|my plan|planning|plan is|i want to|i wanted to|i'd like|i knew|i decided|i've decided|idea|ideas|makeover|make over|transform|transformation|found this|picked this|picked it up|bought|thrift|thrifted|marketplace|charity shop|car boot|auction|flea market|hello|hi (?:everyone|guys|everybody|there)|hey (?:everyone|guys|everybody|there|friends)|what's up|good morning|coming up|stick around|will be|we'll|i'll|i will|keep watching)\b/
const setOut =
  /\b(?:let's get (?:started|into it|going|to it|stuck in)|let's start|let's dive|let's begin|let's crack on|to get started|first things first|the first thing|first step|step one|step number one|first up|first off|to begin|i started (?:by|off|with)|start(?:ing)? (?:by|off|with|on|out)|first job|at the beginning|to start with|day one|the first (?:evening|day|night|morning|job)|first i|off first|so first)\b/

/**
 * How much each utterance sounds like telling of what is to come, 0 to 1: words of plans around it, several kinds of
 * work in a few breaths, and nobody having set out yet.
 */
export function plannedShare(
  utterances: readonly Utterance[],
  of: readonly (readonly Mention[])[],
): readonly number[] {
  const total = utterances.at(-1)?.end ?? 0
  const earliest = Math.max(60, Math.min(240, total * 0.3))
  const outset = outsetOf(utterances)
  return utterances.map(({ at, text }, u) => {
    const around = utterances.slice(Math.max(0, u - 2), u + 2)
    const isPlan = around.some((one) => plan.test(one.text))
    const kinds = new Set(
      utterances
        .map((one, v) => ({ one, v }))
        .filter(({ one }) => Math.abs(one.at - at) <= 9)
        .flatMap(({ v }) =>
          (of[v] ?? []).flatMap((one) => mainKind(one) ?? []),
        ),
    )
    const early = at <= earliest ? 1 : at <= earliest * 2 ? 0.4 : 0
    const begun =
      outset !== -1 && u >= outset && utterances[outset]?.at !== undefined
        ? 0.35
        : 1
    const own = plan.test(text) ? 0.45 : isPlan ? 0.3 : 0
    return Math.min(
      1,
      early * begun * (0.25 + own + (kinds.size >= 3 ? 0.5 : 0)),
    )
  })
}

/** The first utterance in which somebody sets out to work; -1 where none does. */
export function outsetOf(utterances: readonly Utterance[]): number {
  return utterances.findIndex(({ text }) => setOut.test(text))
}
