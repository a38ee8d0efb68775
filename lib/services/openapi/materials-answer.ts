import { z } from 'zod'
import { methods } from '#core/journal/vocabulary'
import type {
  MaterialPlace,
  MaterialsList,
} from '#core/materials/list-materials'
import { namedAnswer } from '#services/openapi/job-answer'
import { amountAnswer } from '#services/openapi/product-answer'

const place = z.object({ piece: namedAnswer, surface: namedAnswer })

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
        link: z.string().nullable(),
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
  })
  .meta({ id: 'Materials' })

/** A materials list in the form of {@link materialsAnswer}. */
export function materialsToAnswer(
  list: MaterialsList,
  currency: string,
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
      link: material.link,
    })),
    sanded: list.sanded.map(({ places, steps }) => ({
      places: places.map(placeToAnswer),
      steps: steps.map(({ kind, grit }) => ({ kind, grit })),
    })),
    costMinor: list.costMinor,
  }
}

function placeToAnswer({ piece, surface }: MaterialPlace) {
  return {
    piece: { id: piece.id, name: piece.name },
    surface: { id: surface.id, name: surface.name },
  }
}
