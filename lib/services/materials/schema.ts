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
