import type { Journal, Piece, WorkshopSettings } from '#core/journal/journal'
import { priceText } from '#core/write-ups/price-text'
import type { Timeline } from '#core/timeline/timeline'
import type { Instant } from '#core/units'
import { appearanceOf, mainColours } from '#core/write-ups/appearance'
import { assembleWriteUp } from '#core/write-ups/assemble-write-up'
import { cautionSentences } from '#core/write-ups/cautions'
import { conditionSentences } from '#core/write-ups/condition-sentences'
import { cureSentences } from '#core/write-ups/cure-paragraph'
import { english } from '#core/write-ups/english'
import { lengthInUnits } from '#core/write-ups/fit-to-limit'
import {
  fact,
  materialFacts,
  shorterSummaries,
  sizeSentences,
  summarySentence,
  workFacts,
  worksSentences,
} from '#core/write-ups/journal-sentences'
import { keywordsOf } from '#core/write-ups/keywords'
import type { Language } from '#core/write-ups/language'
import {
  missingAboutJob,
  missingAboutPieces,
  unsoundSurfaces,
} from '#core/write-ups/missing-facts'
import { plainText } from '#core/write-ups/plain-text'
import { type SurfaceWork, surfaceWork } from '#core/write-ups/surface-work'
import type {
  Paragraph,
  Sentence,
  SentenceEdit,
  WriteUp,
} from '#core/write-ups/write-up'

/** Common practice, no source: what most places that take a listing allow. */
export const listingLimits = { title: 80, text: 4000 } as const

/** How badly each part would be missed, highest kept longest: what protects people, then what decides a sale. */
const importance = {
  lead: 100,
  tipOver: 95,
  price: 91,
  condition: 90,
  curing: 80,
  size: 70,
  // The title says it too, in fewer words.
  summary: 69,
  material: 60,
  lastCoat: 58,
  collection: 55,
  done: 50,
  age: 48,
  style: 46,
  hardware: 44,
  liner: 42,
  cured: 40,
  care: 20,
  keywords: 10,
} as const

/** What the words are worth that a sentence can do without, among the importances of sentences. */
const worthOfWords = {
  cautions: {
    leadUntested: [51, 66, 72],
    leadNoted: [66, 72],
    tipOver: [51, 72],
  },
  size: 52,
  curing: 53,
  summary: [54],
  eachFlaw: 74,
} as const

export const listingLengths = ['short', 'medium', 'full'] as const
export type ListingLength = (typeof listingLengths)[number]

/** What a sentence must be worth to stand in a listing of this length. */
const worthOf: Readonly<Record<ListingLength, number>> = {
  short: importance.collection,
  medium: importance.cured,
  full: 0,
}

/**
 * A sale listing, written from the journal alone.
 *
 * What is not written down is asked for in `missing` and left unsaid. A title is the first line of the
 * text; to be within the limit, the least important sentences are told in fewer words or go whole. Cautions are
 * told in fewer words and never go, and a title that leaves them no room is a shorter one.
 *
 * @param now decides whether the finish is told as curing or cured
 * @param timeline lets the workshop's air make the cure longer
 * @param edits the owner's own words, which stay whatever the journal says
 * @param length how much of it to tell, before the limit
 * @param limit UTF-16 units, the title among them
 * @param titleLimit UTF-16 units
 */
export function writeListing({
  journal,
  timeline,
  settings,
  now,
  edits = [],
  length = 'full',
  limit = listingLimits.text,
  titleLimit = listingLimits.title,
  language = english,
}: {
  readonly journal: Journal
  readonly timeline?: Timeline | undefined
  readonly settings: WorkshopSettings
  readonly now: Instant
  readonly edits?: readonly SentenceEdit[]
  readonly length?: ListingLength
  readonly limit?: number
  readonly titleLimit?: number
  readonly language?: Language
}): WriteUp {
  const works = surfaceWork(journal)
  const cautions = cautionSentences(
    journal,
    works,
    language,
    importance,
    worthOfWords.cautions,
  )
  const condition = conditionSentences(
    journal,
    language,
    importance.condition,
    { worthOfEach: worthOfWords.eachFlaw },
  )
  const cure = cureSentences({
    journal,
    works,
    timeline,
    settings,
    now,
    language,
    importance,
    worthOfWords: worthOfWords.curing,
  })
  const paragraphs: readonly Paragraph[] = [
    summaryParagraph(journal, works, language),
    aboutParagraph(journal, settings, language),
    doneParagraph(journal, works, language),
    {
      heading: language.conditionHeading,
      layout: 'lines',
      sentences: condition.sentences,
    },
    { layout: 'prose', sentences: [...cure.cure, ...cure.care] },
    { layout: 'prose', sentences: cautions.sentences },
    priceParagraph(journal, settings, language),
    keywordParagraph(journal, works, language),
  ]
  return assembleWriteUp({
    titles: titleCandidates(journal, works, settings, language),
    paragraphs: paragraphs.map((paragraph) => ({
      ...paragraph,
      sentences: paragraph.sentences.filter(
        (sentence) => sentence.importance >= worthOf[length],
      ),
    })),
    missing: [
      ...missingAboutPieces(journal, works, language),
      ...condition.missing,
      ...cure.missing,
      ...cautions.missing,
      ...unsoundSurfaces(journal, works, timeline, language),
      ...missingAboutJob(journal, language),
    ],
    edits,
    limit,
    titleLimit,
    size: lengthInUnits,
    titleInText: true,
    titleLeavesRoomFor: [importance.condition, importance.price],
  })
}

function titleCandidates(
  { pieces }: Journal,
  works: readonly SurfaceWork[],
  { units }: WorkshopSettings,
  language: Language,
): readonly string[] {
  const { main } = appearanceOf(works, pieces)
  const colours = mainColours(works)
  const [first] = colours
  const own = pieces.map((piece) =>
    mainColours(works.filter((work) => work.piece.id === piece.id)),
  )
  const widest = pieces
    .filter(({ widthMillimetres = 0 }) => widthMillimetres > 0)
    .toSorted(
      (a, b) => (b.widthMillimetres ?? 0) - (a.widthMillimetres ?? 0),
    )[0]
  return language.title(
    {
      pieces,
      // A colour that one of the pieces has nothing of says nothing of them all.
      colours: own.every((one) =>
        one.some((colour) => colours.includes(colour)),
      )
        ? colours
        : [],
      ...(first !== undefined &&
        own.every((one) => one.includes(first)) && { colour: first }),
      ...(main && { main }),
      ...(widest && { widest }),
    },
    units,
  )
}

function summaryParagraph(
  journal: Journal,
  works: readonly SurfaceWork[],
  language: Language,
): Paragraph {
  return {
    layout: 'prose',
    sentences:
      journal.pieces.length === 0
        ? []
        : [
            {
              ...summarySentence(journal, works, language, importance.summary),
              // By itself the title says as much.
              shorter:
                appearanceOf(works, journal.pieces).main === undefined
                  ? []
                  : shorterSummaries(
                      journal,
                      works,
                      language,
                      worthOfWords.summary,
                    ),
            },
          ],
  }
}

function aboutParagraph(
  journal: Journal,
  settings: WorkshopSettings,
  language: Language,
): Paragraph {
  const { pieces } = journal
  return {
    layout: 'lines',
    sentences: [
      ...sizeSentences(
        journal,
        settings,
        language,
        importance.size,
        worthOfWords.size,
      ),
      ...told(pieces, ['material'], ([words = ''], own) =>
        language.material(words, own, pieces),
      ),
      ...told(pieces, ['style'], ([words = ''], own) =>
        language.style(words, own, pieces),
      ),
      ...told(pieces, ['age', 'ageKnownBy'], ([age = '', by = ''], own) =>
        language.age(age, by, own, pieces),
      ),
      ...told(pieces, ['hardware'], ([words = ''], own) =>
        language.hardware(words, own, pieces),
      ),
      ...told(pieces, ['liner'], ([liner], own) =>
        language.liner(
          liner === 'removable' ? 'removable' : 'permanent',
          own,
          pieces,
        ),
      ),
    ],
  }
}

type Told = 'material' | 'style' | 'age' | 'hardware' | 'liner'

/**
 * What the owner told of the pieces, said once of all that it is true of. Blanks tell nothing.
 *
 * @param names the fact, and what belongs to it
 */
function told(
  pieces: readonly Piece[],
  names: readonly [Told, ...'ageKnownBy'[]],
  sentence: (words: readonly string[], own: readonly Piece[]) => string,
): readonly Sentence[] {
  const groups = new Map<string, Piece[]>()
  for (const piece of pieces) {
    const words = names.map((name) => plainText(piece[name] ?? ''))
    if (words[0] === '') continue
    const key = JSON.stringify(words)
    groups.set(key, [...(groups.get(key) ?? []), piece])
  }
  return [...groups.values()].flatMap((own) => {
    const [first] = own
    return first
      ? [
          {
            key: [names[0], ...own.map(({ id }) => id)].join(' '),
            text: sentence(
              names.map((name) => plainText(first[name] ?? '')),
              own,
            ),
            facts: own.flatMap((piece) =>
              names.flatMap((name) =>
                piece[name] === undefined
                  ? []
                  : [fact('piece', piece.id, name, piece[name])],
              ),
            ),
            importance: importance[names[0]],
          },
        ]
      : []
  })
}

function doneParagraph(
  { pieces }: Journal,
  works: readonly SurfaceWork[],
  language: Language,
): Paragraph {
  return {
    heading: language.doneHeading,
    layout: 'lines',
    sentences: worksSentences(
      works,
      pieces,
      language.done,
      'done',
      importance.done,
    ),
  }
}

function priceParagraph(
  { job }: Journal,
  settings: WorkshopSettings,
  language: Language,
): Paragraph {
  const { askingPriceMinor, soldAt } = job
  if (soldAt !== undefined) {
    return {
      layout: 'lines',
      sentences: [
        {
          key: 'sold',
          text: language.sold,
          facts: [fact('job', job.id, 'soldAt', soldAt)],
          importance: importance.price,
        },
      ],
    }
  }
  const collection = plainText(job.collection ?? '')
  return {
    layout: 'lines',
    sentences: [
      ...(askingPriceMinor === undefined
        ? []
        : [
            {
              key: 'price',
              text: priceText(askingPriceMinor, settings, language),
              facts: [
                fact('job', job.id, 'askingPriceMinor', askingPriceMinor),
              ],
              importance: importance.price,
            },
          ]),
      ...(collection === ''
        ? []
        : [
            {
              key: 'collection',
              text: language.collection(collection),
              facts: [fact('job', job.id, 'collection', collection)],
              importance: importance.collection,
            },
          ]),
    ],
  }
}

function keywordParagraph(
  journal: Journal,
  works: readonly SurfaceWork[],
  language: Language,
): Paragraph {
  const keywords = keywordsOf(journal, works, language)
  return {
    layout: 'lines',
    sentences:
      keywords.length === 0
        ? []
        : [
            {
              key: 'keywords',
              text: language.keywordLine(keywords),
              facts: [
                ...journal.pieces.map(({ id, kind }) =>
                  fact('piece', id, 'kind', kind),
                ),
                ...materialFacts(journal.pieces),
                ...workFacts(works.filter(({ layers }) => layers.length > 0)),
              ],
              importance: importance.keywords,
            },
          ],
  }
}
