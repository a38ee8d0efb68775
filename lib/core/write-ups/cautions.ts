import type { Journal } from '#core/journal/journal'
import { fact, withWorths, workFacts } from '#core/write-ups/journal-sentences'
import type { Language } from '#core/write-ups/language'
import { leadNotes } from '#core/write-ups/lead-notes'
import { plainText } from '#core/write-ups/plain-text'
import { mayPredate } from '#core/write-ups/predates'
import type { SurfaceWork } from '#core/write-ups/surface-work'
import { tipsOver } from '#core/write-ups/tips-over'
import type { Fact, MissingFact, Sentence } from '#core/write-ups/write-up'

// The later of the two bans: 16 CFR 1303 took lead paint off sale in the US on 28 Feb 1978, the Environmental
// Protection (Controls on Injurious Substances) Regulations 1992 in the UK.
const leadFreeFrom = 1992

/** How badly the words would be missed that a caution can do without, for each of its shorter wordings. */
export type CautionWords = {
  readonly leadUntested: readonly number[]
  readonly leadNoted: readonly number[]
  readonly tipOver: readonly number[]
}

/**
 * What a buyer must be warned of: lead in a finish that may be old and was not tested, and furniture that tips over.
 *
 * @param importance of each, so high that nothing else outlasts them
 * @param worthOfWords where it is given, they may be told in fewer
 */
export function cautionSentences(
  journal: Journal,
  works: readonly SurfaceWork[],
  language: Language,
  importance: { readonly lead: number; readonly tipOver: number },
  worthOfWords?: CautionWords,
): {
  readonly sentences: readonly Sentence[]
  readonly missing: readonly MissingFact[]
} {
  const lead = leadNotes(journal)
  const old = works.filter(
    ({ piece, disturbedBy, coats }) =>
      mayPredate(leadFreeFrom, piece.age) &&
      (disturbedBy.length > 0 || coats.length > 0),
  )
  const untested = old.length > 0 && !lead.tested
  const tall = journal.pieces.filter(tipsOver)
  // What is said of lead is said in as many words, so that a short word stands for all of it.
  const aboutLead = {
    importance: importance.lead,
    fixed: true as const,
    together: 'lead',
    shorter: untested
      ? withWorths(language.leadUntestedBriefly, worthOfWords?.leadUntested)
      : withWorths(
          language.leadNotedBriefly(lead.bySwab),
          worthOfWords?.leadNoted,
        ),
  }
  return {
    sentences: [
      ...lead.notes.map(({ stepId, text }) => ({
        key: `lead-note ${stepId}`,
        text: language.leadNoted(text),
        facts: [fact('step', stepId, 'note', text)],
        ...aboutLead,
      })),
      ...(lead.bySwab
        ? [
            {
              key: 'lead-screen',
              text: language.leadScreen,
              facts: [],
              ...aboutLead,
            },
          ]
        : []),
      ...(untested
        ? [{ ...leadSentence(journal, old, language), ...aboutLead }]
        : []),
      ...(tall.length > 0
        ? [
            {
              key: 'tip-over',
              text: language.tipOver(tall, journal.pieces),
              facts: tall.flatMap(
                ({ id, kind, heightMillimetres }): readonly Fact[] => [
                  fact('piece', id, 'kind', kind),
                  ...(heightMillimetres === undefined
                    ? []
                    : [fact('piece', id, 'height', `${heightMillimetres} mm`)]),
                ],
              ),
              importance: importance.tipOver,
              fixed: true as const,
              shorter: withWorths(
                language.tipOverBriefly(tall, journal.pieces),
                worthOfWords?.tipOver,
              ),
            },
          ]
        : []),
    ],
    missing: untested
      ? [
          {
            about: { kind: 'job', id: journal.job.id },
            fact: 'lead',
            question: language.ask.lead,
          },
        ]
      : [],
  }
}

function leadSentence(
  journal: Journal,
  old: readonly SurfaceWork[],
  language: Language,
): Pick<Sentence, 'key' | 'text' | 'facts'> {
  const pieces = [...new Set(old.map(({ piece }) => piece))]
  const disturbed = old.filter(({ disturbedBy }) => disturbedBy.length > 0)
  const aged = pieces.filter(({ age }) => plainText(age ?? '') !== '')
  return {
    key: 'lead',
    text: language.leadUntested({
      by: [...new Set(disturbed.flatMap((work) => work.disturbedBy))],
      aged,
      ageless: pieces.filter((piece) => !aged.includes(piece)),
      pieces: journal.pieces,
    }),
    facts: [
      ...workFacts(disturbed),
      ...aged.map(({ id, age }) => fact('piece', id, 'age', age ?? '')),
    ],
  }
}
