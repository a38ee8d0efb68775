import { z } from 'zod'

/** What was done: to a step, to the numbers of coats, to a photo's place, time or turn, to what is told of the job and its pieces, or to when it was finished, sold and delivered. */
export const changeKinds = [
  'added',
  'changed',
  'removed',
  'renumbered',
  'photos-placed',
  'photo-timed',
  'photo-turned',
  'facts-told',
  'handed-over',
] as const
export type ChangeKind = (typeof changeKinds)[number]

/** What was done to the workshop: a product came onto the shelf or was changed, a camera's clock was set or left unknown. */
export const workshopChangeKinds = [
  'product-added',
  'product-changed',
  'clock-set',
] as const
export type WorkshopChangeKind = (typeof workshopChangeKinds)[number]

/** Products and cameras' clocks as they stood at one moment, as they are kept; one that was not there yet is absent. */
export const keptWorkshop = z.object({
  products: z.array(
    z.object({
      id: z.string(),
      name: z.string(),
      category: z.string(),
      chemistry: z.string(),
      label: z.string(),
      packAmount: z.number().nullable(),
      packUnit: z.string().nullable(),
      packPriceMinor: z.number().nullable(),
      packsBought: z.number().nullable(),
      link: z.string().nullable(),
      paidLink: z.boolean(),
      createdAt: z.iso.datetime(),
    }),
  ),
  clocks: z.array(
    z.object({
      id: z.string(),
      clockCorrectionSeconds: z.number().nullable(),
      clockUncertaintySeconds: z.number().nullable(),
    }),
  ),
})

export type KeptWorkshop = z.output<typeof keptWorkshop>

/** What a change reaches, as it stood at one moment: columns as they are kept, instants in ISO 8601. What it does not reach is absent. */
export const keptState = z.object({
  steps: z.array(
    z.object({
      id: z.string(),
      kind: z.string(),
      productId: z.string().nullable(),
      method: z.string().nullable(),
      thinningPercent: z.number().nullable(),
      grit: z.number().nullable(),
      amount: z.number().nullable(),
      amountUnit: z.string().nullable(),
      weighedBeforeGrams: z.number().nullable(),
      weighedAfterGrams: z.number().nullable(),
      startedAt: z.iso.datetime().nullable(),
      finishedAt: z.iso.datetime().nullable(),
      note: z.string().nullable(),
      createdAt: z.iso.datetime(),
      surfaces: z.array(
        z.object({ surfaceId: z.string(), coat: z.number().nullable() }),
      ),
      answers: z.array(
        z.object({
          rule: z.string(),
          surfaceId: z.string(),
          answer: z.string(),
          note: z.string().nullable(),
          answeredAt: z.iso.datetime(),
        }),
      ),
      hours: z
        .object({
          workMinutes: z.number().nullable(),
          setUpMinutes: z.number().nullable(),
          cleanUpMinutes: z.number().nullable(),
          otherPieces: z.number(),
        })
        .nullable(),
    }),
  ),
  photos: z.array(
    z.object({
      id: z.string(),
      stepId: z.string().nullable(),
      role: z.string(),
      surfaces: z.array(z.string()),
    }),
  ),
  /** When photos were taken. */
  times: z
    .array(
      z.object({
        id: z.string(),
        takenAt: z.iso.datetime(),
        takenEarliest: z.iso.datetime(),
        takenLatest: z.iso.datetime(),
        takenBasis: z.string(),
        warnings: z.string(),
      }),
    )
    .optional(),
  /** The owner's words for photos. */
  words: z
    .array(
      z.object({
        id: z.string(),
        view: z.string().nullable(),
        flaw: z.string().nullable(),
      }),
    )
    .optional(),
  /** How far photos are turned by hand, clockwise. */
  turns: z
    .array(z.object({ id: z.string(), quarterTurns: z.int().min(0).max(3) }))
    .optional(),
  /** When the job was finished, sold and delivered. */
  handOver: z
    .object({
      finishedAt: z.iso.datetime().nullable(),
      soldAt: z.iso.datetime().nullable(),
      deliveredAt: z.iso.datetime().nullable(),
    })
    .optional(),
  /** What is told of the job and its pieces. */
  facts: z
    .object({
      job: z.object({
        title: z.string(),
        askingPriceMinor: z.number().nullable(),
        collection: z.string().nullable(),
        client: z.string().nullable(),
        brief: z.string().nullable(),
      }),
      pieces: z.array(
        z.object({
          id: z.string(),
          name: z.string(),
          kind: z.string(),
          widthMillimetres: z.number().nullable(),
          depthMillimetres: z.number().nullable(),
          heightMillimetres: z.number().nullable(),
          material: z.string().nullable(),
          flaws: z.string().nullable(),
          style: z.string().nullable(),
          age: z.string().nullable(),
          ageKnownBy: z.string().nullable(),
          hardware: z.string().nullable(),
          liner: z.string().nullable(),
        }),
      ),
    })
    .optional(),
})

export type KeptState = z.output<typeof keptState>
