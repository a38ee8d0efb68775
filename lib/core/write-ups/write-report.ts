import type { Journal, WorkshopSettings } from '#core/journal/journal'
import { listMaterials } from '#core/materials/list-materials'
import { stepsInOrder } from '#core/materials/steps-in-order'
import { priceText } from '#core/write-ups/price-text'
import { wallClock } from '#core/time/zone'
import type { Timeline } from '#core/timeline/timeline'
import { stepTimes, uncheckedCameras } from '#core/timeline/step-times'
import type { Instant } from '#core/units'
import { assembleWriteUp } from '#core/write-ups/assemble-write-up'
import { cautionSentences } from '#core/write-ups/cautions'
import { conditionSentences } from '#core/write-ups/condition-sentences'
import { cureSentences } from '#core/write-ups/cure-paragraph'
import { dayText } from '#core/write-ups/day-text'
import { english } from '#core/write-ups/english'
import { lengthInUnits } from '#core/write-ups/fit-to-limit'
import {
  fact,
  sizeSentences,
  summarySentence,
  worksSentences,
} from '#core/write-ups/journal-sentences'
import type { Language } from '#core/write-ups/language'
import { missingAboutPieces } from '#core/write-ups/missing-facts'
import { plainText } from '#core/write-ups/plain-text'
import { surfaceWork } from '#core/write-ups/surface-work'
import type { Sentence, SentenceEdit, WriteUp } from '#core/write-ups/write-up'

// Nothing is dropped from a report, so nothing in it outranks anything.
const importance = 50

/** A report for the client who ordered the job: what was agreed, what was done and with what, how it stands, how to care for it. */
export function writeReport({
  journal,
  timeline,
  settings,
  now,
  edits = [],
  language = english,
}: {
  readonly journal: Journal
  readonly timeline?: Timeline | undefined
  readonly settings: WorkshopSettings
  readonly now: Instant
  readonly edits?: readonly SentenceEdit[]
  readonly language?: Language
}): WriteUp {
  const { job, pieces } = journal
  const works = surfaceWork(journal)
  const all = {
    curing: importance,
    lastCoat: importance,
    cured: importance,
    care: importance,
  }
  const cure = cureSentences({
    journal,
    works,
    timeline,
    settings,
    now,
    language,
    importance: all,
  })
  const cautions = cautionSentences(journal, works, language, {
    lead: importance,
    tipOver: importance,
  })
  const condition = conditionSentences(journal, language, importance, {
    isListing: false,
  })
  const { report } = language
  const client = plainText(job.client ?? '')
  const brief = plainText(job.brief ?? '')
  return assembleWriteUp({
    titles: [report.title(job.title)],
    paragraphs: [
      {
        layout: 'lines',
        sentences: [
          ...(client === ''
            ? []
            : [
                {
                  key: 'client',
                  text: report.client(client),
                  facts: [fact('job', job.id, 'client', client)],
                  importance,
                },
              ]),
          ...(brief === ''
            ? []
            : [
                {
                  key: 'brief',
                  text: report.brief(brief),
                  facts: [fact('job', job.id, 'brief', brief)],
                  importance,
                },
              ]),
          ...dateSentences(journal, settings, language),
        ],
      },
      {
        layout: 'prose',
        sentences:
          pieces.length === 0
            ? []
            : [summarySentence(journal, works, language, importance)],
      },
      {
        layout: 'lines',
        sentences: sizeSentences(journal, settings, language, importance),
      },
      {
        heading: language.doneHeading,
        layout: 'lines',
        sentences: worksSentences(
          works,
          pieces,
          language.video.method,
          'done',
          importance,
        ),
      },
      {
        heading: report.materialsHeading,
        layout: 'lines',
        sentences: listMaterials(journal).materials.map((material, index) => ({
          key: `material ${material.product.id}`,
          // A client wants the products, and no links to buy them.
          text: language.video.material(
            index + 1,
            { ...material, link: null },
            false,
            settings.units,
          ),
          facts: [
            fact('product', material.product.id, 'name', material.product.name),
            ...(material.amounts ?? []).map(({ value, unit }) =>
              fact(
                'product',
                material.product.id,
                'amount',
                `${value} ${unit}`,
              ),
            ),
          ],
          importance,
        })),
      },
      {
        heading: language.conditionHeading,
        layout: 'lines',
        sentences: condition.sentences,
      },
      { layout: 'prose', sentences: [...cure.cure, ...cure.care] },
      { layout: 'prose', sentences: cautions.sentences },
      {
        layout: 'lines',
        sentences:
          job.askingPriceMinor === undefined
            ? []
            : [
                {
                  key: 'price',
                  text: priceText(job.askingPriceMinor, settings, language),
                  facts: [
                    fact(
                      'job',
                      job.id,
                      'askingPriceMinor',
                      job.askingPriceMinor,
                    ),
                  ],
                  importance,
                },
              ],
      },
    ],
    missing: [
      ...(client === ''
        ? [
            {
              about: { kind: 'job' as const, id: job.id },
              fact: 'client',
              question: language.ask.client,
            },
          ]
        : []),
      ...missingAboutPieces(journal, works, language),
      ...cure.missing,
      ...cautions.missing,
    ],
    edits,
    limit: Infinity,
    titleLimit: Infinity,
    size: lengthInUnits,
    titleInText: true,
  })
}

/** From the first dated step to the last. */
function dateSentences(
  journal: Journal,
  { zone, units }: WorkshopSettings,
  { report }: Language,
): readonly Sentence[] {
  const unchecked = uncheckedCameras(journal)
  const dated = stepsInOrder(journal).flatMap(({ step, started, finished }) =>
    started && finished ? [{ step, started, finished }] : [],
  )
  const [first] = dated
  const last = dated.toSorted((a, b) => a.finished.at - b.finished.at).at(-1)
  if (!first || !last) return []
  const doubtful = [first, last].some(({ step }) =>
    stepTimes(
      step,
      journal.photos.filter(({ id }) => step.photoIds.includes(id)),
      unchecked,
    )?.doubted.some((id) => unchecked.has(id)),
  )
  const from = wallClock(first.started.at, zone)
  const to = wallClock(last.finished.at, zone)
  return [
    {
      key: 'dates',
      text: report.dates(from, to, doubtful, units),
      facts: [
        fact('step', first.step.id, 'started', dayText(from)),
        fact('step', last.step.id, 'finished', dayText(to)),
        ...(doubtful
          ? [fact('step', last.step.id, 'clock', 'not checked')]
          : []),
      ],
      importance,
    },
  ]
}
