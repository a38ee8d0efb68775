import { type Mention, mainKind } from '#core/captions/find-mentions'
import type { StepKind } from '#core/journal/vocabulary'
import type { Utterance } from '#core/captions/utterances'

const plan =
  /\b(?:in (?:this|today's) (?:video|one|episode|tutorial)|in today's|today (?:i'm|i am|we're|we are|i'll|i will|we'll)|i'm going to show|show you|welcome|stay tuned|by the end|we'll be|we will be|i'll be|i will be|i'm gonna be|going to be|the plan|my plan|planning|plan is|i want to|i wanted to|i'd like|i knew|i decided|i've decided|idea|ideas|makeover|make over|transform|transformation|found this|picked this|picked it up|bought|thrift|thrifted|marketplace|charity shop|car boot|auction|flea market|hello|hi (?:everyone|guys|everybody|there)|hey (?:everyone|guys|everybody|there|friends)|what's up|good morning|coming up|stick around|will be|we'll|i'll|i will|keep watching)\b/
const setOut =
  /\b(?:let's get (?:right |straight |stuck )?(?:started|into|going|to it|to work|at it|at her|on with|stuck|in|cracking)|let's (?:start|dive|begin|crack on|go|do this|do it|roll|jump)|to get started|getting started|get cracking|get stuck in|first things first|(?:the|my|our) (?:very )?first (?:thing|job|real job|step|task|evening|day|night|morning)|step one|step number one|first up|first off|first of all|to begin|begin(?:ning)? (?:by|with|where)|began (?:by|with|where)|(?:i|we) started (?:by|off|out|with)|(?:i'm|we're|i am|we are) starting (?:by|off|out|with)|start(?:ing)? (?:by|off|with|on|out)|before (?:i|we) (?:do|did|start|started|touch|begin)|before (?:doing|starting) any|(?:so )?here (?:we|i) go|(?:come|comes|came|take|took|taking|get|got|getting) (?:\w+ ){0,4}off first|let me take you back|first job|at the beginning|to start with|day one|day number one|first (?:i|we)|so first|now first)\b/

/** Kinds of work named within so many seconds are named in a few breaths. Common practice, no source. */
const breath = 9

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
  let from = 0
  return utterances.map(({ at, text }, u) => {
    while ((utterances[from]?.at ?? at) < at - breath) from += 1
    const around = utterances.slice(Math.max(0, u - 2), u + 2)
    const isPlan = around.some((one) => plan.test(one.text))
    const kinds = new Set<StepKind>()
    for (let v = from; (utterances[v]?.at ?? Infinity) <= at + breath; v += 1) {
      for (const one of of[v] ?? []) {
        const kind = mainKind(one)
        if (kind !== undefined) kinds.add(kind)
      }
    }
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
