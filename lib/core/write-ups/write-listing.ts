import type { Journal, WorkshopSettings } from '#core/journal/journal'
import { formatMoney } from '#core/money/format-money'
import { type WallClock, wallClock } from '#core/time/zone'
import type { Timeline } from '#core/timeline/timeline'
import type { Instant } from '#core/units'
import { appearanceOf, mainColours, placesOf } from '#core/write-ups/appearance'
import { cureOf } from '#core/write-ups/cure-of'
import { english } from '#core/write-ups/english'
import {
  firstThatFits,
  fitToLimit,
  lengthInUnits,
  paragraphsText,
} from '#core/write-ups/fit-to-limit'
import type { Language } from '#core/write-ups/language'
import { leadNotes } from '#core/write-ups/lead-notes'
import {
  fact,
  materialFacts,
  sizeSentences,
  summarySentence,
  workFacts,
  worksAlike,
} from '#core/write-ups/journal-sentences'
import {
  missingAboutJob,
  missingAboutPieces,
  unsoundSurfaces,
} from '#core/write-ups/missing-facts'
import { plainText } from '#core/write-ups/plain-text'
import { type SurfaceWork, surfaceWork } from '#core/write-ups/surface-work'
import { tipsOver } from '#core/write-ups/tips-over'
import type {
  MissingFact,
  Paragraph,
  Sentence,
  WriteUp,
} from '#core/write-ups/write-up'

/** Common practice, no source: what most places that take a listing allow. */
export const listingLimits = { title: 80, text: 4000 } as const

/** How badly each part would be missed, highest kept longest: what protects people, then what decides a sale. */
const importance = {
  lead: 100,
  tipOver: 95,
  condition: 90,
  summary: 85,
  curing: 80,
  price: 75,
  size: 70,
  material: 60,
  collection: 55,
  done: 50,
  cured: 40,
  care: 20,
} as const

/**
 * A sale listing, written from the journal alone.
 *
 * What is not written down is asked for in `missing` and left unsaid. A title is the first line of the
 * text; the least important sentences go whole until the text is within the limit.
 *
 * @param now decides whether the finish is told as curing or cured
 * @param timeline lets the workshop's air make the cure longer
 * @param limit UTF-16 units, the title among them
 * @param titleLimit UTF-16 units
 */
export function writeListing({
  journal,
  timeline,
  settings,
  now,
  limit = listingLimits.text,
  titleLimit = listingLimits.title,
  language = english,
}: {
  readonly journal: Journal
  readonly timeline?: Timeline
  readonly settings: WorkshopSettings
  readonly now: Instant
  readonly limit?: number
  readonly titleLimit?: number
  readonly language?: Language
}): WriteUp {
  const works = surfaceWork(journal)
  const cautions = cautionsFor(journal, works, language)
  const cure = cureParagraph({
    journal,
    works,
    timeline,
    settings,
    now,
    language,
  })
  const paragraphs: readonly Paragraph[] = [
    summaryParagraph(journal, works, language),
    sizeParagraph(journal, settings, language),
    doneParagraph(journal, works, language),
    conditionParagraph(journal, language),
    cure.paragraph,
    cautions.paragraph,
    priceParagraph(journal, settings, language),
  ]
  const title = firstThatFits(
    titleCandidates(journal, works, settings, language),
    Math.min(titleLimit, limit),
  )
  const separator = title === '' ? '' : `${title}\n\n`
  const fitted = fitToLimit(paragraphs, limit - separator.length, lengthInUnits)
  const body = paragraphsText(fitted.paragraphs)
  return {
    title,
    ...fitted,
    missing: [
      ...missingAboutPieces(journal, works, language),
      ...cure.missing,
      ...cautions.missing,
      ...unsoundSurfaces(journal, works, timeline, language),
      ...missingAboutJob(journal, language),
    ],
    text: body === '' ? title : separator + body,
  }
}

function titleCandidates(
  { pieces }: Journal,
  works: readonly SurfaceWork[],
  { units }: WorkshopSettings,
  language: Language,
): readonly string[] {
  const { main } = appearanceOf(works, pieces)
  const widest = pieces
    .filter(({ widthMillimetres = 0 }) => widthMillimetres > 0)
    .toSorted(
      (a, b) => (b.widthMillimetres ?? 0) - (a.widthMillimetres ?? 0),
    )[0]
  return language.title(
    {
      pieces,
      colours: mainColours(works),
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
        : [summarySentence(journal, works, language, importance.summary)],
  }
}

function sizeParagraph(
  journal: Journal,
  settings: WorkshopSettings,
  language: Language,
): Paragraph {
  return {
    layout: 'lines',
    sentences: [
      ...sizeSentences(journal, settings, language, importance.size),
      ...journal.pieces.flatMap((piece) =>
        plainText(piece.material ?? '') === ''
          ? []
          : [
              {
                text: language.material(piece, journal.pieces),
                facts: materialFacts([piece]),
                importance: importance.material,
              },
            ],
      ),
    ],
  }
}

function doneParagraph(
  { pieces }: Journal,
  works: readonly SurfaceWork[],
  language: Language,
): Paragraph {
  return {
    heading: language.doneHeading,
    layout: 'lines',
    sentences: worksAlike(works).flatMap((alike) => {
      const text = language.done(
        placesOf(alike),
        pieces,
        alike[0]?.operations ?? [],
      )
      return text === undefined
        ? []
        : [{ text, facts: workFacts(alike), importance: importance.done }]
    }),
  }
}

function conditionParagraph(
  { pieces }: Journal,
  language: Language,
): Paragraph {
  return {
    layout: 'lines',
    sentences: pieces.flatMap((piece) => {
      const flaws = plainText(piece.flaws ?? '')
      return flaws === ''
        ? []
        : [
            {
              text: language.condition(piece, pieces),
              facts: [fact('piece', piece.id, 'flaws', flaws)],
              importance: importance.condition,
            },
          ]
    }),
  }
}

function cureParagraph({
  journal,
  works,
  timeline,
  settings: { zone, units },
  now,
  language,
}: {
  readonly journal: Journal
  readonly works: readonly SurfaceWork[]
  readonly timeline: Timeline | undefined
  readonly settings: WorkshopSettings
  readonly now: Instant
  readonly language: Language
}): {
  readonly paragraph: Paragraph
  readonly missing: readonly MissingFact[]
} {
  const coated = works.some(({ coats }) => coats.length > 0)
  if (!coated) {
    return { paragraph: { layout: 'prose', sentences: [] }, missing: [] }
  }
  const cure = cureOf(journal, works, timeline)
  const full = cure?.full
  const cured = full !== undefined && full.at <= now
  const sentences: Sentence[] = []
  if (cure) {
    const lastDay = wallClock(cure.lastCoat.at, zone)
    sentences.push({
      text: language.lastCoat(lastDay, units),
      facts: [fact('step', cure.lastCoat.stepId, 'finished', dayText(lastDay))],
      importance: importance.curing,
    })
  }
  if (full) {
    const told = {
      day: wallClock(full.at, zone),
      days: full.days,
      product: full.product.name,
    }
    sentences.push({
      text: cured
        ? language.cured(told, units)
        : language.curing({ ...told, airCounted: full.airCounted }, units),
      facts: [
        fact('product', full.product.id, 'label.cureDays', full.days),
        fact('step', full.stepId, 'cured', dayText(told.day)),
      ],
      importance: cured ? importance.cured : importance.curing,
    })
  } else {
    sentences.push({
      text: language.cureUnknown,
      facts: [],
      importance: importance.curing,
    })
  }
  return {
    paragraph: {
      layout: 'prose',
      sentences: [
        ...sentences,
        {
          text: cured ? language.care.now : language.care.afterCure,
          facts: [],
          importance: importance.care,
        },
        { text: language.care.use, facts: [], importance: importance.care },
      ],
    },
    missing: cure
      ? cure.unlabelled.map((product) => ({
          about: { kind: 'product', id: product.id },
          fact: 'label.cureDays',
          question: language.ask.cureDays(product.name),
        }))
      : [
          {
            about: { kind: 'job', id: journal.job.id },
            fact: 'lastCoat',
            question: language.ask.lastCoat,
          },
        ],
  }
}

function dayText({ year, month, day }: WallClock): string {
  const two = (number: number) => String(number).padStart(2, '0')
  return `${year}-${two(month)}-${two(day)}`
}

function cautionsFor(
  journal: Journal,
  works: readonly SurfaceWork[],
  language: Language,
): { readonly paragraph: Paragraph; readonly missing: readonly MissingFact[] } {
  const lead = leadNotes(journal)
  const disturbed = works.filter(({ disturbedBy }) => disturbedBy.length > 0)
  const untested = disturbed.length > 0 && !lead.tested
  const tall = journal.pieces.filter(tipsOver)
  return {
    paragraph: {
      layout: 'prose',
      sentences: [
        ...lead.notes.map(({ stepId, text }) => ({
          text: language.leadNoted(text),
          facts: [fact('step', stepId, 'note', text)],
          importance: importance.lead,
        })),
        ...(lead.bySwab
          ? [
              {
                text: language.leadScreen,
                facts: [],
                importance: importance.lead,
              },
            ]
          : []),
        ...(untested
          ? [
              {
                text: language.leadUntested([
                  ...new Set(disturbed.flatMap((work) => work.disturbedBy)),
                ]),
                facts: workFacts(disturbed),
                importance: importance.lead,
              },
            ]
          : []),
        ...(tall.length > 0
          ? [
              {
                text: language.tipOver(tall, journal.pieces),
                facts: tall.flatMap((piece) => [
                  fact('piece', piece.id, 'kind', piece.kind),
                  ...(piece.heightMillimetres === undefined
                    ? []
                    : [
                        fact(
                          'piece',
                          piece.id,
                          'height',
                          `${piece.heightMillimetres} mm`,
                        ),
                      ]),
                ]),
                importance: importance.tipOver,
              },
            ]
          : []),
      ],
    },
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

function priceParagraph(
  { job }: Journal,
  { currency }: WorkshopSettings,
  language: Language,
): Paragraph {
  const { askingPriceMinor } = job
  const collection = plainText(job.collection ?? '')
  return {
    layout: 'lines',
    sentences: [
      ...(askingPriceMinor === undefined
        ? []
        : [
            {
              text: language.price(
                formatMoney(askingPriceMinor, currency, { wholeShort: true }),
              ),
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
              text: language.collection(collection),
              facts: [fact('job', job.id, 'collection', collection)],
              importance: importance.collection,
            },
          ]),
    ],
  }
}
