import { type Chapter, chapterProblems } from '#core/captions/chapter'
import type { Journal, WorkshopSettings } from '#core/journal/journal'
import { decimalText } from '#core/money/fraction'
import { type Material, listMaterials } from '#core/materials/list-materials'
import type { Chemistry } from '#core/shelf/product'
import type { Timeline } from '#core/timeline/timeline'
import { placesOf } from '#core/write-ups/appearance'
import { assembleWriteUp } from '#core/write-ups/assemble-write-up'
import { english } from '#core/write-ups/english'
import { lengthInBytes } from '#core/write-ups/fit-to-limit'
import {
  fact,
  sizeSentences,
  summarySentence,
  worksSentences,
  worksKey,
} from '#core/write-ups/journal-sentences'
import { tagSentences } from '#core/write-ups/keywords'
import type { Language } from '#core/write-ups/language'
import { missingAboutPieces } from '#core/write-ups/missing-facts'
import { plainText } from '#core/write-ups/plain-text'
import { type SurfaceWork, surfaceWork } from '#core/write-ups/surface-work'
import {
  type WriteUpSettings,
  usualWriteUpSettings,
} from '#core/write-ups/write-up-settings'
import { toldStep } from '#core/write-ups/told-step'
import { workSentence } from '#core/write-ups/work-sentence'
import type {
  Fact,
  Paragraph,
  Sentence,
  SentenceEdit,
  WriteUp,
} from '#core/write-ups/write-up'

/** Common practice, no source: a title of 100 characters, a description of 5000 characters or bytes. */
export const videoLimits = { title: 100, text: 5000 } as const

/** Highest kept longest. A paid link must not stand without its disclosure, nor a hazard without its caution. */
const importance = {
  disclosure: 100,
  safety: 90,
  opening: 80,
  materials: 70,
  chapters: 60,
  methods: 50,
  waits: 40,
  size: 30,
  links: 20,
  tags: 10,
} as const

// What a viewer wants to know; marks and repairs are a buyer's business.
const asked = new Set(['width', 'depth', 'height', 'material', 'work', 'paint'])

/**
 * A video description, written from the journal alone: what it is, what was done, materials in order of
 * use with their links, methods, waits as they were, size and safety.
 *
 * @param timeline gives the waits; without it there are none in the text
 * Where a link of a product earns the owner something, the disclosure comes first.
 *
 * @param workshop the workshop's own links and tags
 * @param edits the owner's own words, which stay whatever the journal says
 * @param chapters of the video; left out whole where they are not sound or do not fit
 * @param limit bytes of UTF-8, so that it holds however a place counts characters
 */
export function writeVideoDescription({
  journal,
  timeline,
  settings,
  workshop = usualWriteUpSettings,
  edits = [],
  chapters = [],
  limit = videoLimits.text,
  titleLimit = videoLimits.title,
  language = english,
}: {
  readonly journal: Journal
  readonly timeline?: Timeline
  readonly settings: WorkshopSettings
  readonly workshop?: Pick<WriteUpSettings, 'links' | 'tags'>
  readonly edits?: readonly SentenceEdit[]
  readonly chapters?: readonly Chapter[]
  readonly limit?: number
  readonly titleLimit?: number
  readonly language?: Language
}): WriteUp {
  const works = surfaceWork(journal)
  const { materials } = listMaterials(journal)
  const paid = new Set(
    journal.products.flatMap(({ id, paidLink }) => (paidLink ? [id] : [])),
  )
  const isPaid = ({ product, link }: Material) =>
    link !== null && paid.has(product.id)
  const { video } = language
  const disclosed: readonly Paragraph[] = materials.some(isPaid)
    ? [
        {
          layout: 'lines',
          sentences: [
            {
              key: 'disclosure',
              text: video.disclosure,
              fixed: true as const,
              facts: materials
                .filter(isPaid)
                .map(({ product, link }) =>
                  fact('product', product.id, 'link', link ?? ''),
                ),
              importance: importance.disclosure,
            },
          ],
        },
      ]
    : []
  const paragraphs: readonly Paragraph[] = [
    ...disclosed,
    openingParagraph(journal, works, language),
    {
      heading: video.materialsHeading,
      layout: 'lines',
      sentences: materials.map((material, index) => ({
        key: `material ${material.product.id}`,
        text: video.material(
          index + 1,
          material,
          isPaid(material),
          settings.units,
        ),
        facts: materialFactsOf(material),
        // A link that pays keeps its mark, whatever the owner would rather write.
        ...(isPaid(material) && { fixed: true as const }),
        importance: importance.materials,
      })),
    },
    {
      heading: language.chapters.heading,
      layout: 'lines',
      sentences: chapterSentences(chapters, journal, language),
    },
    {
      heading: video.methodsHeading,
      layout: 'lines',
      sentences: methodSentences(journal, works, language),
    },
    {
      heading: video.waitsHeading,
      layout: 'lines',
      sentences: waitSentences(journal, works, timeline, language),
    },
    {
      layout: 'lines',
      sentences: sizeSentences(journal, settings, language, importance.size),
    },
    {
      heading: video.safetyHeading,
      layout: 'lines',
      sentences: safetySentences(journal, works, language),
    },
    {
      heading: video.linksHeading,
      layout: 'lines',
      sentences: workshop.links.map(({ label, address }, index) => ({
        key: `link ${index + 1}`,
        text: video.link(label, address),
        facts: [fact('workshop', 'workshop', 'link', address)],
        importance: importance.links,
      })),
    },
    {
      layout: 'prose',
      sentences: tagSentences(
        journal,
        works,
        workshop.tags,
        language,
        importance.tags,
      ),
    },
  ]
  return assembleWriteUp({
    titles: [plainText(journal.job.title)],
    paragraphs,
    missing: missingAboutPieces(journal, works, language).filter((one) =>
      asked.has(one.fact),
    ),
    edits,
    limit,
    titleLimit,
    size: lengthInBytes,
    titleInText: false,
  })
}

function materialFactsOf({
  product,
  amounts,
  stepsWithoutAmount,
  estimate,
  link,
}: Material): readonly Fact[] {
  return [
    fact('product', product.id, 'name', product.name),
    ...(amounts ?? []).map(({ value, unit }) =>
      fact('product', product.id, 'amount', `${value} ${unit}`),
    ),
    ...(stepsWithoutAmount === 0
      ? []
      : [
          fact('product', product.id, 'stepsWithoutAmount', stepsWithoutAmount),
        ]),
    ...(estimate === null
      ? []
      : [
          fact(
            'product',
            product.id,
            'reckonedLitres',
            decimalText(estimate.litres, 3),
          ),
        ]),
    ...(link === null ? [] : [fact('product', product.id, 'link', link)]),
  ]
}

/** All chapters as one: a list with a gap in it would be shown as none. */
function chapterSentences(
  chapters: readonly Chapter[],
  { steps }: Journal,
  language: Language,
): readonly Sentence[] {
  if (chapterProblems(chapters).length > 0) return []
  return [
    {
      key: 'chapters',
      fixed: true as const,
      text: chapters
        .map(({ seconds, title }) =>
          language.chapters.line(seconds, plainText(title)),
        )
        .join('\n'),
      facts: steps
        .filter(({ id }) => chapters.some(({ stepId }) => stepId === id))
        .map(({ id, kind }) => fact('step', id, 'kind', kind)),
      importance: importance.chapters,
    },
  ]
}

function openingParagraph(
  journal: Journal,
  works: readonly SurfaceWork[],
  language: Language,
): Paragraph {
  return {
    layout: 'prose',
    sentences: [
      ...(journal.pieces.length === 0
        ? []
        : [summarySentence(journal, works, language, importance.opening)]),
      ...workSentence(journal, works, language, importance.opening),
    ],
  }
}

function methodSentences(
  { pieces }: Journal,
  works: readonly SurfaceWork[],
  language: Language,
): readonly Sentence[] {
  return worksSentences(
    works,
    pieces,
    language.video.method,
    'method',
    importance.methods,
  )
}

function waitSentences(
  { pieces, steps }: Journal,
  works: readonly SurfaceWork[],
  timeline: Timeline | undefined,
  language: Language,
): readonly Sentence[] {
  const waits = (timeline?.lanes ?? []).flatMap((lane) => {
    const work = works.find(({ surface }) => surface.id === lane.surface.id)
    return work
      ? lane.checks.flatMap((check) => {
          const from = steps.find(({ id }) => id === check.from)
          const to = steps.find(({ id }) => id === check.to)
          return from && to
            ? [
                {
                  work,
                  check,
                  from: toldStep(from, work),
                  to: toldStep(to, work),
                },
              ]
            : []
        })
      : []
  })
  const groups = new Map<string, (typeof waits)[number][]>()
  for (const wait of waits) {
    const key = `${wait.check.from} ${wait.check.to} ${JSON.stringify([wait.from, wait.to, wait.check.elapsed])}`
    groups.set(key, [...(groups.get(key) ?? []), wait])
  }
  return [...groups.values()].flatMap((group) => {
    const [first] = group
    if (!first) return []
    const { check, from, to } = first
    const { elapsed, label, required, verdict } = check
    const shortOf =
      label.min !== undefined && elapsed.low < label.min
        ? ({ minutes: label.min, by: 'label' } as const)
        : verdict === 'too-soon' && required !== undefined
          ? ({ minutes: required, by: 'air' } as const)
          : undefined
    return [
      {
        key: worksKey(
          `wait ${check.from} ${check.to}`,
          group.map(({ work }) => work),
        ),
        text: language.video.wait({
          places: placesOf(group.map(({ work }) => work)),
          pieces,
          elapsed,
          from,
          to,
          ...(shortOf && { shortOf }),
        }),
        facts: [
          fact('step', check.from, 'finished', from.kind),
          fact('step', check.to, 'started', to.kind),
        ],
        importance: importance.waits,
      },
    ]
  })
}

const oily: ReadonlySet<Chemistry> = new Set([
  'oil-alkyd',
  'oil-stain',
  'gel-stain',
])

function safetySentences(
  { steps, products }: Journal,
  works: readonly SurfaceWork[],
  { video }: Language,
): readonly Sentence[] {
  const uses = steps.map((step) => ({
    step,
    product: products.find(({ id }) => id === step.productId),
  }))
  const hazards = [
    {
      key: 'stripper',
      text: video.stripper,
      from: uses.filter(
        ({ step, product }) =>
          step.kind === 'strip' || product?.category === 'stripper',
      ),
    },
    {
      key: 'oldFinish',
      text: video.oldFinish,
      from: uses.filter(({ step }) =>
        works.some(
          ({ disturbedBy, operations }) =>
            disturbedBy.some((by) => by === step.kind) &&
            operations.some(({ stepIds }) => stepIds.includes(step.id)),
        ),
      ),
    },
    {
      key: 'dust',
      text: video.dust,
      from: uses.filter(
        ({ step }) => step.kind === 'sand' || step.kind === 'scuff',
      ),
    },
    {
      key: 'spraying',
      text: video.spraying,
      from: uses.filter(
        ({ step, product }) =>
          step.method === 'spray' || product?.chemistry === 'aerosol',
      ),
    },
    {
      key: 'oilyRags',
      text: video.oilyRags,
      from: uses.filter(
        ({ product }) => product && oily.has(product.chemistry),
      ),
    },
  ].filter(({ from }) => from.length > 0)
  if (steps.length === 0) return []
  return [
    ...hazards.map(({ key, text, from }) => ({
      key: `safety ${key}`,
      text,
      fixed: true as const,
      facts: from.flatMap(({ step, product }) => [
        fact('step', step.id, 'kind', step.kind),
        ...(product
          ? [fact('product', product.id, 'chemistry', product.chemistry)]
          : []),
      ]),
      importance: importance.safety,
    })),
    {
      key: 'safety authority',
      text: video.authority,
      facts: [],
      importance: importance.safety,
      fixed: true,
    },
  ]
}
