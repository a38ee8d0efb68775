import type { Journal, Piece, WorkshopSettings } from '#core/journal/journal'
import { wallClock } from '#core/time/zone'
import type { Timeline } from '#core/timeline/timeline'
import type { Instant } from '#core/units'
import { cureOf } from '#core/write-ups/cure-of'
import { dayText } from '#core/write-ups/day-text'
import { fact } from '#core/write-ups/journal-sentences'
import type { Language } from '#core/write-ups/language'
import type { SurfaceWork } from '#core/write-ups/surface-work'
import type { MissingFact, Sentence } from '#core/write-ups/write-up'

/**
 * When the last coat went on, by when the finish is cured, and how to look after it; nothing where there is no coat.
 *
 * A date that rests on a clock nobody has checked says so, and what is in doubt is never called cured.
 *
 * @param now decides whether the finish is told as curing or cured
 * @param importance of the sentences while it cures, of the day of the last coat then, once it has cured, and of the care
 * @param worthOfWords of what the time to full cure rests on
 * @param isHeaded whether the care stands under a heading of its own
 */
export function cureSentences({
  journal,
  works,
  timeline,
  settings: { zone, units },
  now,
  language,
  importance,
  worthOfWords = importance.curing,
  isHeaded = false,
}: {
  readonly journal: Journal
  readonly works: readonly SurfaceWork[]
  readonly timeline: Timeline | undefined
  readonly settings: WorkshopSettings
  readonly now: Instant
  readonly language: Language
  readonly importance: {
    readonly curing: number
    readonly lastCoat: number
    readonly cured: number
    readonly care: number
  }
  readonly worthOfWords?: number
  readonly isHeaded?: boolean
}): {
  readonly cure: readonly Sentence[]
  readonly care: readonly Sentence[]
  readonly missing: readonly MissingFact[]
} {
  const coated = works.filter(({ coats }) => coats.length > 0)
  if (coated.length === 0) return { cure: [], care: [], missing: [] }
  const cure = cureOf(journal, works, timeline)
  const full = cure?.full
  const untold = cure?.unlabelled ?? []
  const cured = full !== undefined && !full.doubtful && full.at <= now
  const sentences: Sentence[] = []
  const curing = (inFewerWords: string) => ({
    importance: importance.curing,
    shorter: [{ text: inFewerWords, worth: worthOfWords }],
  })
  if (cure) {
    const { at, stepId, doubtful } = cure.lastCoat
    const lastDay = wallClock(at, zone)
    sentences.push({
      key: 'last-coat',
      text: language.lastCoat(lastDay, doubtful, units),
      facts: [
        fact('step', stepId, 'finished', dayText(lastDay)),
        ...clockFact(stepId, doubtful),
      ],
      importance: cured ? importance.cured : importance.lastCoat,
    })
  }
  if (full) {
    const laidDay = wallClock(full.laidAt, zone)
    const isOtherDay =
      dayText(laidDay) !== dayText(wallClock(cure.lastCoat.at, zone))
    const day = wallClock(full.at, zone)
    // A reader sees days: what is later by minutes is not later.
    const isLaterThan = (at: Instant) =>
      full.at > at && dayText(day) !== dayText(wallClock(at, zone))
    const laterBy = isLaterThan(full.byLatestPhoto)
      ? ('air' as const)
      : isLaterThan(full.byLabel)
        ? ('photos' as const)
        : undefined
    const told = {
      day,
      days: full.days,
      ...(isOtherDay && { laidOn: laidDay }),
      product: full.product.name,
      doubtful: full.doubtful,
      ...(laterBy && { laterBy }),
      except: untold.map(({ name }) => name),
    }
    sentences.push({
      key: 'cure',
      text: cured ? language.cured(told, units) : language.curing(told, units),
      facts: [
        fact('product', full.product.id, 'label.cureDays', full.days),
        fact('step', full.stepId, 'cured', dayText(told.day)),
        ...(isOtherDay
          ? [fact('step', full.stepId, 'finished', dayText(laidDay))]
          : []),
        ...clockFact(full.stepId, full.doubtful),
      ],
      ...(cured
        ? { importance: importance.cured }
        : curing(language.curingBriefly(told, units))),
    })
  } else {
    sentences.push({
      key: 'cure',
      text: language.cureUnknown,
      facts: [],
      ...curing(language.cureUnknownBriefly),
    })
  }
  const waxed = coated.filter(({ layers }) => layers.at(-1)?.kind === 'waxed')
  const isAllWaxed = waxed.length === coated.length
  return {
    cure: sentences,
    care: [
      {
        key: 'care clean',
        text: isAllWaxed
          ? language.care.waxAlone(isHeaded)
          : cured && untold.length === 0
            ? language.care.now(isHeaded)
            : language.care.afterCure,
        facts: [],
        importance: importance.care,
      },
      ...(waxed.length > 0 && !isAllWaxed
        ? [
            {
              key: 'care wax',
              text: language.care.wax,
              facts: [],
              importance: importance.care,
            },
          ]
        : []),
      {
        key: 'care use',
        text: language.care.use(journal.pieces.some(hasTop)),
        facts: [],
        importance: importance.care,
      },
    ],
    missing: cure
      ? [
          ...cure.unlabelled.map((product) => ({
            about: { kind: 'product' as const, id: product.id },
            fact: 'label.cureDays',
            question: language.ask.cureDays(product.name),
          })),
          ...(cure.doubtedCameras.length === 0
            ? []
            : [
                {
                  about: { kind: 'workshop' as const, id: 'workshop' },
                  fact: 'clock',
                  question: language.ask.clock(
                    cure.doubtedCameras.map(({ name }) => name),
                  ),
                },
              ]),
        ]
      : [
          {
            about: { kind: 'job', id: journal.job.id },
            fact: 'lastCoat',
            question: language.ask.lastCoat,
          },
        ],
  }
}

// What nothing is set down on. Common practice, no source.
const withoutTop =
  /\b(mirror|frame|picture|headboard|bed|bedstead|crib|cot|screen|door|clock|lamp|hook|rail|ladder)s?\b/i

function hasTop({ kind }: Piece): boolean {
  return !withoutTop.test(kind) || /\b(table|chest|box|stand)\b/i.test(kind)
}

function clockFact(stepId: string, doubtful: boolean) {
  return doubtful ? [fact('step', stepId, 'clock', 'not checked')] : []
}
