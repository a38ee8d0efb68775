import { z } from 'zod'
import { methods } from '#core/journal/vocabulary'
import type { WorkshopSettings } from '#core/journal/journal'
import type { MaterialPlace } from '#core/materials/list-materials'
import type { Stock } from '#core/materials/stock'
import { type Fraction, decimalText } from '#core/money/fraction'
import { estimateArithmetic } from '#core/write-ups/english-amounts'
import type { JobMaterials } from '#services/materials/materials'
import { namedAnswer } from '#services/openapi/job-answer'
import { amountAnswer } from '#services/openapi/product-answer'

const place = z.object({ piece: namedAnswer, surface: namedAnswer })

const finishLayer = z.object({
  product: namedAnswer,
  purpose: z.string(),
  coats: z.int(),
  base: z.enum(['water', 'oil', 'alcohol', 'lacquer', 'wax']).optional(),
  sheen: z.string().optional(),
  method: z.enum(methods).optional(),
  isAerosol: z.literal(true).optional(),
})

const stockAnswer = z.object({
  amount: amountAnswer,
  packsBought: z.number(),
  packsSupposed: z.boolean(),
  unmeasuredUses: z.int(),
  buyAgain: z.boolean(),
})

/** A materials list, as the interface gives it. What was not written down is null. */
export const materialsAnswer = z
  .object({
    title: z.string(),
    currency: z.string().meta({ description: 'ISO 4217.' }),
    materials: z.array(
      z.object({
        product: namedAnswer,
        purposes: z.array(z.string()),
        places: z.array(place.extend({ coats: z.int().nullable() })),
        methods: z.array(z.enum(methods)),
        thinningPercents: z.array(z.number()),
        grits: z.array(z.int()),
        amounts: z.array(amountAnswer).nullable(),
        stepsWithoutAmount: z.int(),
        cost: z
          .object({
            minor: z.int().meta({ description: 'In minor units.' }),
            complete: z.boolean().meta({
              description:
                'False when some of what was used has no amount to price.',
            }),
          })
          .nullable(),
        estimate: z
          .object({
            litres: z.number().meta({
              description: 'Of the product as it comes from the can.',
            }),
            steps: z.array(
              z.object({
                step: z.string(),
                litres: z.number(),
                areaSquareMetres: z.number(),
                spreadSquareMetresPerLitre: z.number(),
                transfer: z.number(),
                thinningPercent: z.number(),
                arithmetic: z.string(),
              }),
            ),
            costMinor: z.int().nullable(),
          })
          .nullable()
          .meta({
            description:
              'What the steps without an amount are reckoned to have used.',
          }),
        needs: z.array(z.enum(['spread rate', 'method', 'area'])).meta({
          description: 'What must be known to reckon the rest.',
        }),
        left: stockAnswer.nullable().meta({
          description: 'What is left after all uses in all jobs.',
        }),
        link: z.string().nullable(),
      }),
    ),
    finishes: z.array(
      z.object({
        places: z.array(place),
        layers: z.array(finishLayer),
        touchUp: z.array(z.string()).meta({
          description: 'What a scratch is touched up with, in order.',
        }),
      }),
    ),
    sanded: z.array(
      z.object({
        places: z.array(place),
        steps: z.array(
          z.object({
            kind: z.enum(['sand', 'scuff']),
            grit: z.int().nullable(),
          }),
        ),
      }),
    ),
    costMinor: z.int().nullable(),
    estimatedCostMinor: z.int().nullable(),
  })
  .meta({ id: 'Materials' })

/** A materials list in the form of {@link materialsAnswer}. */
export function materialsToAnswer(
  { list, finishes, stocks }: JobMaterials,
  { currency, units }: Pick<WorkshopSettings, 'currency' | 'units'>,
): z.input<typeof materialsAnswer> {
  return {
    title: list.title,
    currency,
    materials: list.materials.map((material) => ({
      product: { id: material.product.id, name: material.product.name },
      purposes: [...material.purposes],
      places: material.places.map((on) => ({
        ...placeToAnswer(on),
        coats: on.coats,
      })),
      methods: [...material.methods],
      thinningPercents: [...material.thinningPercents],
      grits: [...material.grits],
      amounts:
        material.amounts === null
          ? null
          : material.amounts.map(({ value, unit }) => ({ value, unit })),
      stepsWithoutAmount: material.stepsWithoutAmount,
      cost:
        material.cost === null
          ? null
          : { minor: material.cost.minor, complete: material.cost.complete },
      estimate:
        material.estimate === null
          ? null
          : {
              litres: rounded(material.estimate.litres),
              steps: material.estimate.uses.map((use) => ({
                step: use.stepId,
                litres: rounded(use.litres),
                areaSquareMetres: rounded(use.area),
                spreadSquareMetresPerLitre: use.spreadSquareMetresPerLitre,
                transfer: use.transfer,
                thinningPercent: use.thinningPercent,
                arithmetic: estimateArithmetic(use, units),
              })),
              costMinor: material.estimate.costMinor,
            },
      needs: [...material.needs],
      left: stockToAnswer(
        stocks.find((one) => one.productId === material.product.id),
      ),
      link: material.link,
    })),
    finishes: finishes.map(({ places, layers, touchUp }) => ({
      places: places.map(placeToAnswer),
      layers: layers.map(({ productId, name, ...layer }) => ({
        product: { id: productId, name },
        ...layer,
      })),
      touchUp: touchUp.map(({ productId }) => productId),
    })),
    sanded: list.sanded.map(({ places, steps }) => ({
      places: places.map(placeToAnswer),
      steps: steps.map(({ kind, grit }) => ({ kind, grit })),
    })),
    costMinor: list.costMinor,
    estimatedCostMinor: list.estimatedCostMinor,
  }
}

function stockToAnswer(
  stock: Stock | undefined,
): z.input<typeof stockAnswer> | null {
  if (stock === undefined) return null
  const { left, packsBought, packsSupposed, unmeasuredUses, buyAgain } = stock
  return {
    amount: { value: left.value, unit: left.unit },
    packsBought,
    packsSupposed,
    unmeasuredUses,
    buyAgain,
  }
}

/** To six decimals: a millionth of a litre, or a square millimetre. */
function rounded(value: Fraction): number {
  return Number(decimalText(value, 6))
}

function placeToAnswer({ piece, surface }: MaterialPlace) {
  return {
    piece: { id: piece.id, name: piece.name },
    surface: { id: surface.id, name: surface.name },
  }
}
