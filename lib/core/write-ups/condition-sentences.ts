import type { Journal } from '#core/journal/journal'
import { flawsOf, isFlawless, unplacedFlaws } from '#core/write-ups/flaws'
import { fact } from '#core/write-ups/journal-sentences'
import type { Language } from '#core/write-ups/language'
import { listingPhotos } from '#core/write-ups/listing-photos'
import type { Fact, MissingFact, Sentence } from '#core/write-ups/write-up'

// What a photo cannot show; common practice, no source.
const unseen =
  /\b(smell\w*|odou?rs?|musty|sticks?|sticking|stiff|squeak\w*|creak\w*|rattl\w*|wobbl\w*)\b/i

/**
 * Each flaw by itself, with the numbers of the photos that show it; or that the owner found none.
 *
 * @param isListing whether the photos go with it, so that their numbers say something
 * @param worthOfEach flaw being told, and not only that there are some
 */
export function conditionSentences(
  journal: Journal,
  language: Language,
  importance: number,
  { isListing = true, worthOfEach = importance } = {},
): {
  readonly sentences: readonly Sentence[]
  readonly missing: readonly MissingFact[]
} {
  const { pieces } = journal
  const order = isListing ? listingPhotos(journal).map(({ id }) => id) : []
  const flaws = [
    ...pieces.flatMap((piece) =>
      flawsOf(piece, journal).map((flaw) => ({ piece, flaw })),
    ),
    ...unplacedFlaws(journal).map((flaw) => ({ piece: undefined, flaw })),
  ]
  const flawless = pieces.filter((piece) => isFlawless(piece, journal))
  const asOne = {
    importance,
    ...(flaws.length > 0 && {
      together: 'flaws',
      shorter: [
        { text: language.flawsBriefly(flaws.length), worth: worthOfEach },
      ],
    }),
  }
  return {
    sentences: [
      ...flaws.map(({ piece, flaw: { words, photoIds } }) => ({
        key: `flaw ${piece?.id ?? ''} ${words.toLowerCase()}`,
        text: language.flaw(
          words,
          photoIds
            .map((id) => order.indexOf(id) + 1)
            .filter((number) => number > 0),
          piece,
          pieces,
        ),
        facts: [
          ...(piece
            ? [fact('piece', piece.id, 'flaw', words)]
            : ([] as readonly Fact[])),
          ...photoIds.map((id) => fact('photo', id, 'flaw', words)),
        ],
        ...asOne,
      })),
      ...(flawless.length === 0
        ? []
        : [
            {
              key: 'flawless',
              text: language.flawless(flawless, pieces),
              facts: flawless.map(({ id, flaws = '' }) =>
                fact('piece', id, 'flaws', flaws),
              ),
              ...asOne,
            },
          ]),
    ],
    missing: flaws.flatMap(({ piece, flaw: { words, photoIds } }) =>
      photoIds.length > 0 || !piece || unseen.test(words)
        ? []
        : [
            {
              about: { kind: 'piece' as const, id: piece.id },
              fact: 'flawPhoto',
              question: language.ask.flawPhoto(words),
            },
          ],
    ),
  }
}
