import { z } from 'zod'

/** Whom a materials list is for. */
export const materialsReaders = ['owner', 'viewer', 'buyer'] as const

/** The query of a materials list as text. */
export const materialsTextQuery = z.object({
  reader: z
    .enum(materialsReaders, `Choose one of: ${materialsReaders.join(', ')}.`)
    .default('owner')
    .meta({
      description:
        'The owner reads costs and what is left; a viewer what was used, in order, with links; a buyer what is on the furniture and how to touch it up.',
    }),
})

/** The query of a materials list as a table. */
export const materialsCsvQuery = z.object({
  reader: z
    .enum(['owner', 'viewer'], 'Choose one of: owner, viewer.')
    .default('owner')
    .meta({ description: 'A viewer gets no column about money.' }),
})

/** Areas of surfaces as the owner measured them; null where the size of the piece tells. */
export const surfaceAreasTyped = z
  .array(
    z.object({
      surface: z.string().min(1),
      squareMetres: z
        .number('Give the area as a number.')
        .gt(0, 'A surface is larger than nothing.')
        .max(1000, 'That is larger than any furniture.')
        .nullable(),
    }),
  )
  .max(1600)
