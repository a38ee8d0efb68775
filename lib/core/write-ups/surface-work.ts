import { countsCoats } from '#core/journal/coats'
import type { Journal, Piece, Surface } from '#core/journal/journal'
import type { Method, StepKind } from '#core/journal/vocabulary'
import { brightens, purposeOf } from '#core/materials/purpose'
import { type TimedStep, stepsInOrder } from '#core/materials/steps-in-order'
import type { Product } from '#core/shelf/product'
import { plainText } from '#core/write-ups/plain-text'

/** Coats of one product laid one after another, with the sanding between them. */
export type Coating = {
  readonly type: 'coating'
  readonly kind: StepKind
  readonly product?: Product
  readonly coats: number
  /** The number written down for the last of them. */
  readonly lastNumber?: number
  /** The one method of all its coats; absent when it differs or was not written down. */
  readonly method?: Method
  /** Dilutions that were used, parts to 100. */
  readonly thinningPercents: readonly number[]
  readonly sandedBetween: boolean
  readonly gritsBetween: readonly number[]
  readonly stepIds: readonly string[]
}

/** What was done to a surface, in words' order: repeated cleaning is one operation, as is a run of sanding. */
export type Operation =
  | Coating
  | {
      readonly type: 'abrasion'
      readonly kind: 'sand' | 'scuff'
      readonly grits: readonly number[]
      readonly stepIds: readonly string[]
    }
  | {
      readonly type: 'other'
      readonly kind: Exclude<StepKind, 'sand' | 'scuff'>
      readonly product?: Product
      readonly stepIds: readonly string[]
    }

/** One layer that can be seen on a finished surface. */
export type Layer = {
  readonly kind:
    | 'primed'
    | 'painted'
    | 'stained'
    | 'glazed'
    | 'sealed'
    | 'clear'
    | 'waxed'
    | 'finished'
    | 'lined'
  readonly colour?: string
  readonly sheen?: string
  /** What it was finished or lined with, where nothing else says how it looks. */
  readonly finishedWith?: string
}

/** One surface with all that was done to it. */
export type SurfaceWork = {
  readonly piece: Piece
  readonly surface: Surface
  readonly operations: readonly Operation[]
  /** What is to be seen, from the last opaque layer up; empty where nothing was laid on. */
  readonly layers: readonly Layer[]
  /** The coats that are still on it, in order. */
  readonly coats: readonly TimedStep[]
  /** What was done to the finish that was there before. */
  readonly disturbedBy: readonly ('strip' | 'sand' | 'scuff')[]
}

/**
 * The work on every surface of a job that any step touched, in the order of the pieces and their surfaces.
 *
 * Coats that a later stripping took off again are not there any more, so they are left out.
 */
export function surfaceWork(journal: Journal): readonly SurfaceWork[] {
  const ordered = stepsInOrder(journal)
  const product = (id: string | undefined) =>
    journal.products.find((one) => one.id === id)
  return journal.pieces.flatMap((piece) =>
    piece.surfaces.flatMap((surface) => {
      const all = ordered.filter(({ step }) =>
        step.surfaces.some((on) => on.surfaceId === surface.id),
      )
      if (all.length === 0) return []
      const laid = ({ step }: TimedStep) =>
        countsCoats(step.kind) &&
        (step.kind !== 'hardware' || leavesCoat(product(step.productId)))
      const lastStrip = all.findLastIndex(({ step }) => step.kind === 'strip')
      const standing = all.filter(
        (timed, index) => !laid(timed) || index > lastStrip,
      )
      const firstCoat = all.findIndex(laid)
      const operations = standing.reduce<readonly Operation[]>(
        (done, timed) =>
          withStep(
            done,
            timed,
            product(timed.step.productId),
            laid(timed),
            surface,
          ),
        [],
      )
      return [
        {
          piece,
          surface,
          operations,
          layers: layersOf(operations),
          coats: standing.filter(laid),
          disturbedBy: (['strip', 'sand', 'scuff'] as const).filter((kind) =>
            all.some(
              ({ step }, index) =>
                step.kind === kind &&
                (kind === 'strip' || firstCoat === -1 || index < firstCoat),
            ),
          ),
        },
      ]
    }),
  )
}

/** Whether the product stays on the hardware: what cleans, polishes or strips it does not. */
function leavesCoat(product: Product | undefined): boolean {
  return (
    product !== undefined &&
    brightens(product) === undefined &&
    ['primer', 'hardware finish'].includes(
      purposeOf('hardware', product.category),
    )
  )
}

function withStep(
  done: readonly Operation[],
  { step }: TimedStep,
  product: Product | undefined,
  isCoat: boolean,
  surface: Surface,
): readonly Operation[] {
  const last = done.at(-1)
  const { kind } = step
  if (kind === 'sand' || kind === 'scuff') {
    const grits = step.grit === undefined ? [] : [step.grit]
    return last?.type === 'abrasion' && last.kind === kind
      ? [
          ...done.slice(0, -1),
          {
            ...last,
            grits: [...last.grits, ...grits],
            stepIds: [...last.stepIds, step.id],
          },
        ]
      : [...done, { type: 'abrasion', kind, grits, stepIds: [step.id] }]
  }
  if (isCoat) {
    const number = step.surfaces.find((on) => on.surfaceId === surface.id)?.coat
    const between = last?.type === 'abrasion' ? last : undefined
    const before = between ? done.at(-2) : last
    if (
      before?.type === 'coating' &&
      before.kind === kind &&
      before.product?.id === product?.id
    ) {
      const { method, lastNumber, ...rest } = before
      return [
        ...done.slice(0, between ? -2 : -1),
        {
          ...rest,
          ...(method !== undefined && method === step.method && { method }),
          // Two steps that carry the same number are two sittings of one coat.
          coats:
            number !== undefined && number === lastNumber
              ? before.coats
              : before.coats + 1,
          ...(number !== undefined && { lastNumber: number }),
          thinningPercents: [
            ...new Set([...before.thinningPercents, ...thinningOf(step)]),
          ],
          sandedBetween: before.sandedBetween || between !== undefined,
          gritsBetween: [
            ...new Set([...before.gritsBetween, ...(between?.grits ?? [])]),
          ],
          stepIds: [...before.stepIds, ...(between?.stepIds ?? []), step.id],
        },
      ]
    }
    return [
      ...done,
      {
        type: 'coating',
        kind,
        ...(product && { product }),
        coats: 1,
        ...(number !== undefined && { lastNumber: number }),
        ...(step.method !== undefined && { method: step.method }),
        thinningPercents: thinningOf(step),
        sandedBetween: false,
        gritsBetween: [],
        stepIds: [step.id],
      },
    ]
  }
  const same = done.findIndex(
    (one) =>
      one.type === 'other' &&
      one.kind === kind &&
      (kind === 'clean' || kind === 'strip' || one.product?.id === product?.id),
  )
  if (same === -1)
    return [
      ...done,
      { type: 'other', kind, ...(product && { product }), stepIds: [step.id] },
    ]
  return done.map((one, index) =>
    index === same ? { ...one, stepIds: [...one.stepIds, step.id] } : one,
  )
}

function thinningOf({
  thinningPercent,
}: {
  readonly thinningPercent?: number
}): readonly number[] {
  return thinningPercent !== undefined && thinningPercent > 0
    ? [thinningPercent]
    : []
}

const sheen =
  /^((dead|ultra|soft|low|mid|high|semi|full)[ -]?)?(matte?|flat|eggshell|satin|silk|gloss|sheen)( (finish|sheen))?$/i
const colourless = /^(clear|colou?rless|transparent|natural)$/i
const sheenInside =
  /\b((dead|ultra|soft|low|mid|high|semi|full)[ -]?)?(matte?|eggshell|satin|silk|gloss)\b/i

/** What the owner wrote in a product's name after its first comma, part by part. */
function partsOf(
  product: Pick<Product, 'name'> | undefined,
): readonly string[] {
  return plainText(product?.name ?? '')
    .split(',')
    .slice(1)
    .map((part) => part.trim())
    .filter((part) => part !== '')
}

/**
 * The colour in a product's name: what the owner wrote after the first comma, but for its sheen.
 *
 * @returns undefined when there is nothing of the kind
 */
export function colourOf(
  product: Pick<Product, 'name'> | undefined,
): string | undefined {
  const colour = partsOf(product)
    .filter((part) => !sheen.test(part) && !colourless.test(part))
    .join(', ')
  return colour === '' ? undefined : colour
}

/** The sheen in a product's name, wherever it stands: `satin`, `mid sheen`. */
export function sheenOf(
  product: Pick<Product, 'name'> | undefined,
): string | undefined {
  const part = partsOf(product).find((one) => sheen.test(one))
  const found = part ?? sheenInside.exec(plainText(product?.name ?? ''))?.[0]
  return found?.toLowerCase()
}

const opaque: ReadonlySet<Layer['kind']> = new Set([
  'primed',
  'painted',
  'finished',
])

function layersOf(operations: readonly Operation[]): readonly Layer[] {
  const layers = operations.flatMap((one) =>
    one.type === 'coating' ? layerOf(one) : [],
  )
  const bottom = layers.findLastIndex((layer) => opaque.has(layer.kind))
  const seen = bottom === -1 ? layers : layers.slice(bottom)
  return seen.filter(
    (layer, index) =>
      seen.findIndex(
        (one) =>
          one.kind === layer.kind &&
          one.colour === layer.colour &&
          one.sheen === layer.sheen,
      ) === index,
  )
}

function layerOf({ kind, product }: Coating): readonly Layer[] {
  const colour = colourOf(product)
  const shine = sheenOf(product)
  const withSheen =
    shine === undefined || colour?.toLowerCase().includes(shine)
      ? {}
      : { sheen: shine }
  const coloured = (name: Layer['kind']): readonly Layer[] => [
    { kind: name, ...(colour !== undefined && { colour }), ...withSheen },
  ]
  switch (purposeOf(kind, product?.category)) {
    case 'primer':
      return [{ kind: 'primed' }]
    case 'paint':
      return coloured('painted')
    case 'stain':
      return coloured('stained')
    case 'glaze':
      return coloured('glazed')
    case 'clear coat':
      return [{ kind: 'clear', ...withSheen }]
    case 'sealer':
      return [{ kind: 'sealed' }]
    case 'wax':
      return [{ kind: 'waxed' }]
    case 'hardware finish':
    case 'finish':
      return product && colour === undefined
        ? [
            {
              kind: 'finished',
              finishedWith: plainText(product.name),
              ...withSheen,
            },
          ]
        : coloured('finished')
    case 'conditioner':
    case 'cleaner':
    case 'repair':
    case 'stripper':
    case 'abrasive':
    case 'liner':
    case 'detail':
    case 'assembly':
    case 'polish':
      return []
  }
}
