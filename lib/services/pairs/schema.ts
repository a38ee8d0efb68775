import { z } from 'zod'
import type { HandPoints } from '#core/pairs/hand-points'
import { plainLook, sheetLights } from '#core/sheets/sheet-design'

/** Two photos of a job that the owner says belong together. */
export const newPair = z
  .object({
    before: z.string().meta({ description: 'The photo taken before.' }),
    after: z.string().meta({ description: 'The photo taken after.' }),
  })
  .refine(({ before, after }) => before !== after, {
    error: 'Choose two photos: one cannot be its own before.',
    path: ['after'],
  })
  .meta({ id: 'NewPair' })

export type NewPair = z.output<typeof newPair>

const point = z.object({ x: z.number(), y: z.number() })
const four = z.tuple([point, point, point, point])

/** The corners of a piece in the middle of a photo of 1440 by 1080. */
const exampleFour = [
  { x: 260, y: 240 },
  { x: 1180, y: 240 },
  { x: 1180, y: 860 },
  { x: 260, y: 860 },
] satisfies z.output<typeof four>

/** Four places of a piece in both photos of a pair, in upright pixels of the whole photos. */
export const handPoints = z.object({ before: four, after: four }).meta({
  id: 'HandPoints',
  examples: [{ before: exampleFour, after: exampleFour }],
  description:
    'Four places of the piece in both photos, in the same order, in upright pixels of the whole photos, counted from the upper left corner.',
}) satisfies z.ZodType<HandPoints>

/** How a picture of a pair is asked for, as a query. */
export const pairPictureQuery = z
  .object({
    light: z
      .enum(sheetLights, { error: `Light is ${sheetLights.join(' or ')}.` })
      .default(plainLook.light)
      .meta({
        description:
          'Of the after: as taken, or brought gently to that of the before; as taken too where that is refused.',
      }),
  })
  .meta({ id: 'PairPictureQuery' })
