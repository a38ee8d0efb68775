import type { Journal, Piece, WorkshopSettings } from '#core/journal/journal'
import { appearanceOf, placesOf } from '#core/write-ups/appearance'
import type { Language, Side } from '#core/write-ups/language'
import { plainText } from '#core/write-ups/plain-text'
import type { SurfaceWork } from '#core/write-ups/surface-work'
import type { Fact, Sentence, ShorterWording } from '#core/write-ups/write-up'

/** A fact and where the journal has it, with its value as plain text. */
export function fact(
  kind: Fact['about']['kind'],
  id: string,
  name: string,
  value: string | number,
): Fact {
  return { about: { kind, id }, fact: name, value: plainText(String(value)) }
}

function kindFacts(pieces: readonly Piece[]): readonly Fact[] {
  return pieces.map(({ id, kind }) => fact('piece', id, 'kind', kind))
}

/** The steps and products that the coats of these surfaces rest on. */
export function workFacts(works: readonly SurfaceWork[]): readonly Fact[] {
  const facts = works.flatMap(({ operations }) =>
    operations.flatMap((operation) => [
      ...operation.stepIds.map((id) =>
        fact('step', id, 'kind', operation.kind),
      ),
      ...(operation.type !== 'abrasion' && operation.product
        ? [
            fact(
              'product',
              operation.product.id,
              'name',
              operation.product.name,
            ),
          ]
        : []),
    ]),
  )
  return facts.filter(
    (one, index) =>
      facts.findIndex(
        (other) => other.about.id === one.about.id && other.fact === one.fact,
      ) === index,
  )
}

/** What the pieces are made of, where the owner said. */
export function materialFacts(pieces: readonly Piece[]): readonly Fact[] {
  return pieces.flatMap(({ id, material }) =>
    material === undefined ? [] : [fact('piece', id, 'material', material)],
  )
}

/** The one line that says what it is and how it looks. */
export function summarySentence(
  { pieces }: Journal,
  works: readonly SurfaceWork[],
  language: Language,
  importance: number,
): Sentence {
  return {
    key: 'summary',
    text: language.summary(pieces, appearanceOf(works, pieces)),
    facts: [
      ...kindFacts(pieces),
      ...materialFacts(pieces),
      ...pieces.flatMap(({ id, style }) =>
        style === undefined ? [] : [fact('piece', id, 'style', style)],
      ),
      ...workFacts(works.filter(({ layers }) => layers.length > 0)),
    ],
    importance,
  }
}

/**
 * The same line in fewer words: with how it looks on the whole, then by itself.
 *
 * @param worths of the words that the one lacks and the other; none for what is not wanted
 */
export function shorterSummaries(
  { pieces }: Journal,
  works: readonly SurfaceWork[],
  language: Language,
  worths: readonly number[],
): readonly ShorterWording[] {
  return withWorths(
    [
      language.summary(pieces, { ...appearanceOf(works, pieces), others: [] }),
      language.summary(pieces, { others: [] }),
    ],
    worths,
  )
}

/** Wordings with what the words that each lacks are worth; without those that are given no worth. */
export function withWorths(
  texts: readonly string[],
  worths: readonly number[] = [],
): readonly ShorterWording[] {
  return worths.flatMap((worth, index) => {
    const text = texts[index]
    return text === undefined ? [] : [{ text, worth }]
  })
}

/** The three outer lengths of a piece, in the order they are told; undefined where nobody measured. */
export function sidesOf(
  piece: Piece,
): readonly { side: Side; millimetres: number | undefined }[] {
  const known = (millimetres: number | undefined) =>
    millimetres !== undefined && millimetres > 0 ? millimetres : undefined
  return [
    { side: 'width', millimetres: known(piece.widthMillimetres) },
    { side: 'depth', millimetres: known(piece.depthMillimetres) },
    { side: 'height', millimetres: known(piece.heightMillimetres) },
  ]
}

/**
 * One sentence for each piece that was measured; pieces of one size share theirs.
 *
 * @param worthOfWords of saying which length is which
 */
export function sizeSentences(
  { pieces }: Journal,
  { units }: WorkshopSettings,
  language: Language,
  importance: number,
  worthOfWords = importance,
): readonly Sentence[] {
  const alike = new Map<string, Piece[]>()
  for (const piece of pieces) {
    const key = JSON.stringify(sidesOf(piece))
    alike.set(key, [...(alike.get(key) ?? []), piece])
  }
  return [...alike.values()].flatMap((own) => {
    const facts = own.flatMap((piece) =>
      sidesOf(piece).flatMap(({ side, millimetres }) =>
        millimetres === undefined
          ? []
          : [fact('piece', piece.id, side, `${millimetres} mm`)],
      ),
    )
    return facts.length === 0
      ? []
      : [
          {
            key: ['size', ...own.map(({ id }) => id)].join(' '),
            text: language.size(own, pieces, units),
            facts,
            importance,
            shorter: [
              {
                text: language.sizeBriefly(own, pieces, units),
                worth: worthOfWords,
              },
            ],
          },
        ]
  })
}

/** The key of a sentence about surfaces that are told together. */
export function worksKey(name: string, works: readonly SurfaceWork[]): string {
  return [name, ...works.map(({ surface }) => surface.id)].join(' ')
}

/**
 * A sentence for all surfaces whose operations read the same; none for those that there is nothing to say of.
 *
 * @param name begins the keys of the sentences
 */
export function worksSentences(
  works: readonly SurfaceWork[],
  pieces: readonly Piece[],
  say: Language['done'],
  name: string,
  importance: number,
): readonly Sentence[] {
  return worksAlike(works).flatMap((alike) => {
    const text = say(placesOf(alike), pieces, alike[0]?.operations ?? [])
    return text === undefined
      ? []
      : [
          {
            key: worksKey(name, alike),
            text,
            facts: workFacts(alike),
            importance,
          },
        ]
  })
}

function worksAlike(
  works: readonly SurfaceWork[],
): readonly (readonly SurfaceWork[])[] {
  const groups = new Map<string, SurfaceWork[]>()
  for (const work of works) {
    const key = JSON.stringify(
      work.operations.map((operation) => ({
        ...operation,
        stepIds: [],
        lastNumber: 0,
      })),
    )
    groups.set(key, [...(groups.get(key) ?? []), work])
  }
  return [...groups.values()]
}
