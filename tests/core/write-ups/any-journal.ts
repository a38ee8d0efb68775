import fc from 'fast-check'
import type { Journal, Piece, Step } from '#core/journal/journal'
import { methods, stepKinds } from '#core/journal/vocabulary'
import {
  type Product,
  amountUnits,
  chemistries,
  productCategories,
} from '#core/shelf/product'
import { instant } from '#core/units'

/** What owners type: ordinary words, and what slips in from a phone. */
export const anyWords = fc.oneof(
  fc.constantFrom(
    'oak',
    'Oak veneer',
    'ash',
    'elm, waxed',
    'armchair',
    'ottoman',
    'used unit',
    'L-shaped desk',
    '8-drawer chest',
    'Hour-glass stool',
    'one-door cupboard',
    'chest of drawers',
    'line\nbreak',
    '  two  spaces ',
    'tab\tbed',
    '<b>bold</b>',
    'ends with a stop.',
    'really?',
    'dots…',
    'comma,',
    ', blue',
    'emoji 🪑 chair',
    '"quoted"',
    '',
    ' ',
  ),
  fc.string({ unit: 'grapheme', maxLength: 24 }),
)

const length = fc.integer({ min: 1, max: 3000 })

const anyPiece = (index: number): fc.Arbitrary<Piece> =>
  fc.record(
    {
      id: fc.constant(`piece-${index}`),
      name: anyWords,
      kind: anyWords,
      material: anyWords,
      flaws: anyWords,
      widthMillimetres: length,
      depthMillimetres: length,
      heightMillimetres: length,
      surfaces: fc
        .array(
          fc.constantFrom(
            'body',
            'Top',
            'drawers',
            'hardware',
            'drawer fronts',
          ),
          { maxLength: 3 },
        )
        .map((names) =>
          names.map((name, n) => ({ id: `surface-${index}-${n}`, name })),
        ),
    },
    { requiredKeys: ['id', 'name', 'kind', 'surfaces'] },
  )

const anyProduct = (index: number): fc.Arbitrary<Product> =>
  fc.record(
    {
      id: fc.constant(`product-${index}`),
      name: anyWords,
      category: fc.constantFrom(...productCategories),
      chemistry: fc.constantFrom(...chemistries),
      label: fc.record(
        { cureDays: fc.integer({ min: 1, max: 60 }) },
        { requiredKeys: [] },
      ),
      link: fc.webUrl(),
      pack: fc.record({
        amount: fc.record({
          value: fc.integer({ min: 1, max: 5000 }),
          unit: fc.constantFrom(...amountUnits),
        }),
        priceMinor: fc.integer({ min: 0, max: 100_000 }),
      }),
    },
    { requiredKeys: ['id', 'name', 'category', 'chemistry', 'label'] },
  )

const anyStep = (
  index: number,
  surfaceIds: readonly string[],
): fc.Arbitrary<Step> =>
  fc.record(
    {
      id: fc.constant(`step-${index}`),
      createdAt: fc.constant(instant(index)),
      photoIds: fc.constant([]),
      kind: fc.constantFrom(...stepKinds),
      productId: fc.constantFrom('product-0', 'product-1', 'product-2'),
      method: fc.constantFrom(...methods),
      thinningPercent: fc.integer({ min: 0, max: 30 }),
      grit: fc.constantFrom(80, 120, 180, 320),
      amount: fc.record({
        value: fc.integer({ min: 1, max: 9999 }).map((value) => value / 10),
        unit: fc.constantFrom(...amountUnits),
      }),
      note: fc.oneof(anyWords, fc.constant('lead swab: no change')),
      startedAt: fc
        .integer({ min: 1_770_000_000_000, max: 1_790_000_000_000 })
        .map(instant),
      surfaces: fc
        .subarray([...surfaceIds])
        .map((ids) => ids.map((surfaceId) => ({ surfaceId }))),
    },
    { requiredKeys: ['id', 'createdAt', 'photoIds', 'kind', 'surfaces'] },
  )

const anyJob: fc.Arbitrary<Journal['job']> = fc.record(
  {
    id: fc.constant('job'),
    createdAt: fc.constant(instant(0)),
    title: anyWords,
    askingPriceMinor: fc.integer({ min: 0, max: 1_000_000 }),
    collection: anyWords,
    finishedAt: fc.constant(instant(1)),
  },
  { requiredKeys: ['id', 'createdAt', 'title'] },
)

/** Any journal that the app can hold, with words as owners type them. */
export const anyJournal: fc.Arbitrary<Journal> = fc
  .integer({ min: 0, max: 3 })
  .chain((count) =>
    fc.tuple(...Array.from({ length: count }, (_, index) => anyPiece(index))),
  )
  .chain((pieces) => {
    const surfaceIds = pieces.flatMap(({ surfaces }) =>
      surfaces.map(({ id }) => id),
    )
    return fc.record({
      job: anyJob,
      pieces: fc.constant(pieces),
      photos: fc.constant([]),
      products: fc.tuple(anyProduct(0), anyProduct(1), anyProduct(2)),
      steps: fc
        .integer({ min: 0, max: 9 })
        .chain((count) =>
          fc.tuple(
            ...Array.from({ length: count }, (_, index) =>
              anyStep(index, surfaceIds),
            ),
          ),
        ),
      cameras: fc.constant([]),
      air: fc.constant([]),
    })
  })

/** All that the owner typed into a journal, in one string. */
export function wordsOf(journal: Journal): string {
  return [
    journal.job.title,
    journal.job.collection ?? '',
    ...journal.pieces.flatMap(
      ({ name, kind, material = '', flaws = '', surfaces }) => [
        name,
        kind,
        material,
        flaws,
        ...surfaces.map((surface) => surface.name),
      ],
    ),
    ...journal.products.flatMap(({ name, link = '' }) => [name, link]),
    ...journal.steps.map(({ note = '' }) => note),
  ].join('\n')
}
