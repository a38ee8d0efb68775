import type { Journal, WorkshopSettings } from '#core/journal/journal'
import {
  type FinishLayer,
  finishLayers,
  touchUpOf,
} from '#core/materials/list-finishes'
import type { Timeline } from '#core/timeline/timeline'
import type { Instant } from '#core/units'
import { placesOf } from '#core/write-ups/appearance'
import { assembleWriteUp } from '#core/write-ups/assemble-write-up'
import { cautionSentences } from '#core/write-ups/cautions'
import { cureSentences } from '#core/write-ups/cure-paragraph'
import { english } from '#core/write-ups/english'
import { lengthInUnits } from '#core/write-ups/fit-to-limit'
import {
  fact,
  workFacts,
  worksSentences,
  worksKey,
} from '#core/write-ups/journal-sentences'
import type { Language } from '#core/write-ups/language'
import { type SurfaceWork, surfaceWork } from '#core/write-ups/surface-work'
import type { Sentence, SentenceEdit, WriteUp } from '#core/write-ups/write-up'

const importance = {
  lead: 100,
  tipOver: 95,
  curing: 90,
  lastCoat: 90,
  care: 80,
  finish: 70,
  cured: 60,
  touchUp: 50,
  page: 40,
} as const

/**
 * The card that goes with a piece to its buyer: what is on it, when it is cured, how to clean it, how to touch it up,
 * and what to beware of.
 *
 * @param pageAddress the page of the job in a portfolio, once it is published
 */
export function writeCareCard({
  journal,
  timeline,
  settings,
  now,
  edits = [],
  pageAddress,
  language = english,
}: {
  readonly journal: Journal
  readonly timeline?: Timeline | undefined
  readonly settings: WorkshopSettings
  readonly now: Instant
  readonly edits?: readonly SentenceEdit[]
  readonly pageAddress?: string | undefined
  readonly language?: Language
}): WriteUp {
  const works = surfaceWork(journal)
  const { careCard } = language
  const cure = cureSentences({
    journal,
    works,
    timeline,
    settings,
    now,
    language,
    importance,
    isHeaded: true,
  })
  const cautions = cautionSentences(journal, works, language, importance)
  const touchUps = touchUpSentences(journal, works, language)
  return assembleWriteUp({
    titles: [careCard.title(journal.pieces)],
    paragraphs: [
      {
        heading: careCard.finishHeading,
        layout: 'lines',
        sentences: finishSentences(journal, works, language),
      },
      { layout: 'prose', sentences: cure.cure },
      { heading: careCard.cleanHeading, layout: 'prose', sentences: cure.care },
      {
        heading: careCard.touchUpHeading,
        layout: 'lines',
        sentences:
          touchUps.length === 0
            ? []
            : [
                ...touchUps,
                {
                  key: 'touch-up how',
                  text: careCard.touchUpHow,
                  facts: [],
                  importance: importance.touchUp,
                },
              ],
      },
      {
        heading: careCard.cautionHeading,
        layout: 'prose',
        sentences: cautions.sentences,
      },
      {
        layout: 'lines',
        sentences: [
          {
            key: 'maker',
            text: careCard.maker(settings.name),
            facts: [fact('workshop', 'workshop', 'name', settings.name)],
            importance: importance.page,
          },
          ...(pageAddress === undefined
            ? []
            : [
                {
                  key: 'page',
                  text: careCard.page(pageAddress),
                  facts: [fact('job', journal.job.id, 'page', pageAddress)],
                  importance: importance.page,
                },
              ]),
        ],
      },
    ],
    missing: [...cure.missing, ...cautions.missing],
    edits,
    limit: Infinity,
    titleLimit: Infinity,
    size: lengthInUnits,
    titleInText: true,
  })
}

function finishSentences(
  { pieces }: Journal,
  works: readonly SurfaceWork[],
  language: Language,
): readonly Sentence[] {
  const coated = works
    .filter(({ coats }) => coats.length > 0)
    .map((work) => ({
      ...work,
      operations: work.operations.filter(({ type }) => type === 'coating'),
    }))
  return worksSentences(
    coated,
    pieces,
    language.done,
    'finish',
    importance.finish,
  )
}

/** What to touch each surface up with, surfaces alike together. */
function touchUpSentences(
  { pieces }: Journal,
  works: readonly SurfaceWork[],
  { careCard }: Language,
): readonly Sentence[] {
  const groups = new Map<string, SurfaceWork[]>()
  for (const work of works) {
    const layers = layersToTouchUp(work)
    if (layers.length === 0) continue
    const key = JSON.stringify(layers.map((layer) => ({ ...layer, coats: 0 })))
    groups.set(key, [...(groups.get(key) ?? []), work])
  }
  return [...groups.values()].flatMap((group) => {
    const [first] = group
    if (first === undefined) return []
    const layers = layersToTouchUp(first)
    const products = new Set(layers.map(({ productId }) => productId))
    return [
      {
        key: worksKey('touch-up', group),
        text: careCard.touchUp(placesOf(group), pieces, layers),
        facts: workFacts(
          group.map((work) => ({
            ...work,
            operations: work.operations.filter(
              (one) =>
                one.type === 'coating' &&
                one.product !== undefined &&
                products.has(one.product.id),
            ),
          })),
        ),
        importance: importance.touchUp,
      },
    ]
  })
}

function layersToTouchUp({ operations }: SurfaceWork): readonly FinishLayer[] {
  return touchUpOf(finishLayers(operations))
}
