import type { Journal } from '#core/journal/journal'
import type { StepKind } from '#core/journal/vocabulary'
import type { Timeline } from '#core/timeline/timeline'
import { placesOf } from '#core/write-ups/appearance'
import { sidesOf } from '#core/write-ups/journal-sentences'
import type { Language } from '#core/write-ups/language'
import { plainText } from '#core/write-ups/plain-text'
import {
  type SurfaceWork,
  colourOf,
  sheenOf,
} from '#core/write-ups/surface-work'
import type { MissingFact } from '#core/write-ups/write-up'

function missingSizes(
  { pieces }: Journal,
  { ask }: Language,
): readonly MissingFact[] {
  return pieces.flatMap((piece) =>
    sidesOf(piece)
      .filter(({ millimetres }) => millimetres === undefined)
      .map(({ side }) => ({
        about: { kind: 'piece', id: piece.id } as const,
        fact: side,
        question: ask.side(side, piece, pieces),
      })),
  )
}

// Common practice, no source, for the words; the rules are 16 CFR 1213, 1219, 1220 and 1513 and the recall lists.
const childFurniture =
  /\b(crib|cot|bunk|high ?chair|toy (box|chest)|cradle|changing table|bassinet|child\w*|nursery)\b/i

/** What a listing would be better for knowing about the pieces and their finish. */
export function missingAboutPieces(
  journal: Journal,
  works: readonly SurfaceWork[],
  language: Language,
): readonly MissingFact[] {
  return [
    ...missingSizes(journal, language),
    ...missingWords(journal, works, language),
    ...missingColours(journal, works, language),
    ...missingSheens(journal, works, language),
  ]
}

function missingWords(
  { pieces }: Journal,
  works: readonly SurfaceWork[],
  { ask }: Language,
): readonly MissingFact[] {
  return pieces.flatMap((piece) => {
    const own = works.filter((work) => work.piece === piece)
    const did = (kind: StepKind) =>
      own.some(({ operations }) => operations.some((one) => one.kind === kind))
    const refinished = own.some(({ operations }) =>
      operations.some(
        ({ type, kind }) => type === 'coating' && kind === 'hardware',
      ),
    )
    const flaws = plainText(piece.flaws ?? '')
    const asked = [
      ...(plainText(piece.material ?? '') === ''
        ? [{ fact: 'material', question: ask.material(piece, pieces) }]
        : []),
      ...(own.length === 0
        ? [{ fact: 'work', question: ask.work(piece, pieces) }]
        : []),
      ...(flaws === ''
        ? [{ fact: 'flaws', question: ask.flaws(piece, pieces) }]
        : did('repair') && !/repair|glue|mend|patch|fill|replac/i.test(flaws)
          ? [{ fact: 'repair', question: ask.repair(piece, pieces) }]
          : []),
      ...(plainText(piece.age ?? '') === ''
        ? [{ fact: 'age', question: ask.age(piece, pieces) }]
        : plainText(piece.ageKnownBy ?? '') === ''
          ? [{ fact: 'ageKnownBy', question: ask.ageKnownBy(piece, pieces) }]
          : []),
      ...(did('liner') && piece.liner === undefined
        ? [{ fact: 'liner', question: ask.liner(piece, pieces) }]
        : []),
      ...(did('hardware') &&
      !refinished &&
      plainText(piece.hardware ?? '') === ''
        ? [{ fact: 'hardware', question: ask.hardware(piece, pieces) }]
        : []),
      ...(childFurniture.test(`${piece.kind} ${piece.name}`)
        ? [{ fact: 'childSafety', question: ask.child(piece, pieces) }]
        : []),
    ]
    return asked.map((one) => ({
      about: { kind: 'piece', id: piece.id } as const,
      ...one,
    }))
  })
}

function missingColours(
  { products }: Journal,
  works: readonly SurfaceWork[],
  { ask }: Language,
): readonly MissingFact[] {
  const showing = new Set(
    works.flatMap(({ operations, layers }) =>
      layers.some(({ kind }) => kind === 'painted' || kind === 'stained')
        ? operations.flatMap((one) =>
            one.type === 'coating' && one.product ? [one.product.id] : [],
          )
        : [],
    ),
  )
  return products
    .filter(
      (product) =>
        showing.has(product.id) &&
        (product.category === 'paint' || product.category === 'stain') &&
        colourOf(product) === undefined,
    )
    .map((product) => ({
      about: { kind: 'product', id: product.id },
      fact: 'colour',
      question: ask.colour(product.name),
    }))
}

/** The finish that the hand meets: its sheen tells a buyer how it looks, and how to touch it up. */
function missingSheens(
  { products }: Journal,
  works: readonly SurfaceWork[],
  { ask }: Language,
): readonly MissingFact[] {
  const onTop = new Set(
    works.flatMap(({ operations }) => {
      const last = operations.findLast((one) => one.type === 'coating')
      return last?.product ? [last.product.id] : []
    }),
  )
  return products
    .filter(
      (product) =>
        onTop.has(product.id) &&
        (product.category === 'paint' || product.category === 'clear coat') &&
        sheenOf(product) === undefined,
    )
    .map((product) => ({
      about: { kind: 'product', id: product.id },
      fact: 'sheen',
      question: ask.sheen(product.name),
    }))
}

/** Surfaces with a coat that went on too soon and is still there: whether they are sound is for the owner to say. */
export function unsoundSurfaces(
  { pieces }: Journal,
  works: readonly SurfaceWork[],
  timeline: Timeline | undefined,
  { ask }: Language,
): readonly MissingFact[] {
  const unsound = works.filter(({ surface, coats }) =>
    timeline?.lanes.some(
      (lane) =>
        lane.surface.id === surface.id &&
        lane.checks.some(
          ({ verdict, purpose, from }) =>
            verdict === 'too-soon' &&
            purpose === 'recoat' &&
            coats.some(({ step }) => step.id === from),
        ),
    ),
  )
  return placesOf(unsound).map((place) => ({
    about: { kind: 'piece', id: place.piece.id },
    fact: 'soundness',
    question: ask.soundness(place, pieces),
  }))
}

/** What a listing would be better for knowing about the job and its sale. */
export function missingAboutJob(
  { job }: Journal,
  { ask }: Language,
): readonly MissingFact[] {
  const about = { kind: 'job', id: job.id } as const
  const isOffered = job.client === undefined && job.soldAt === undefined
  return [
    ...(job.finishedAt === undefined
      ? [{ about, fact: 'finished', question: ask.finished }]
      : []),
    ...(job.askingPriceMinor === undefined && isOffered
      ? [{ about, fact: 'askingPriceMinor', question: ask.price }]
      : []),
    ...(plainText(job.collection ?? '') === '' && isOffered
      ? [{ about, fact: 'collection', question: ask.collection }]
      : []),
  ]
}
