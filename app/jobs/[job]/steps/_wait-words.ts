import type { DraftWait } from '#core/timeline/draft-waits'
import { type MomentStyle, momentWords } from '#core/time/moments'
import type { Instant } from '#core/units'
import type { DraftFinding } from '../../../_components/draft-findings'
import { listOf } from '../../../_words'

/**
 * What there is to say of surfaces that are not ready for a step. Those of which the same holds are told in one: several
 * pieces get the same coat in one go, and its warning four times over is read by nobody.
 *
 * @param pieces how many the job has; of one alone its name is not said
 */
export function waitsInWords(
  waits: readonly DraftWait[],
  pieces: number,
  present: Instant,
  style: MomentStyle,
): readonly DraftFinding[] {
  const alike = new Map<string, { said: Said; names: string[] }>()
  for (const wait of waits) {
    const { piece, surface } = wait
    const said = saidOf(wait, present, style)
    const key = JSON.stringify(said)
    const name = pieces > 1 ? `${piece.name} ${surface.name}` : surface.name
    const known = alike.get(key)
    if (known === undefined) alike.set(key, { said, names: [name] })
    else known.names.push(name)
  }
  return [...alike].map(
    ([
      key,
      {
        said: { what, whatOfSeveral, ...rest },
        names,
      },
    ]) => ({
      key: `wait ${key}`,
      ...rest,
      sentence:
        names.length === 1
          ? `${capitalised(names.join(''))}: ${what}.`
          : `${capitalised(whatOfSeveral)}: ${listOf(names)}.`,
    }),
  )
}

type Said = Omit<DraftFinding, 'key' | 'sentence'> & {
  readonly what: string
  readonly whatOfSeveral: string
}

function saidOf(
  { verdict, isBetween, readyAt, reason }: DraftWait,
  present: Instant,
  style: MomentStyle,
): Said {
  switch (verdict) {
    case 'too-soon': {
      const what = isBetween
        ? 'between two windows of its label'
        : 'not dry enough yet'
      return {
        strength: 'must',
        what,
        whatOfSeveral: what,
        reason,
        advice:
          readyAt === undefined || readyAt.latest <= present
            ? isBetween
              ? 'Wait for the next window.'
              : 'Let it dry.'
            : `Leave it until ${momentWords(readyAt.latest, present, style)}.`,
      }
    }
    case 'past-window':
      return {
        strength: 'should',
        what: 'its window has passed',
        whatOfSeveral: 'the window has passed',
        reason,
        advice: 'Scuff or sand it first, so that the coat can grip.',
      }
    case 'unsure':
      return {
        strength: 'should',
        what: 'it cannot be told whether it is dry',
        whatOfSeveral: 'it cannot be told whether these are dry',
        reason,
        advice: 'Test it in a hidden spot, or wait longer.',
      }
  }
}

function capitalised(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`
}
