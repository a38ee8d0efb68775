import { z } from 'zod'
import {
  plainLook,
  sheetDesigns,
  sheetElements,
  sheetGrounds,
  sheetLights,
} from '#core/sheets/sheet-design'
import { sheetSubjects } from '#services/sheets/sheet-content'

const ids = z
  .string()
  .transform((text) => text.split(',').filter((one) => one !== ''))

const elements = z
  .string()
  .transform((text) => text.split(',').filter((one) => one !== ''))
  .pipe(
    z.array(
      z.enum(sheetElements, {
        error: `Elements are ${sheetElements.join(', ')}, with commas between.`,
      }),
    ),
  )

/** How a sheet looks, as it is kept. */
export const sheetLook = z.object({
  design: z.enum(sheetDesigns),
  ground: z.enum(sheetGrounds),
  elements: z.array(z.enum(sheetElements)),
  // Looks that were kept before there was a choice say nothing of it.
  light: z.enum(sheetLights).default(plainLook.light),
})

/** Three quarters of the widest shape: the whole is asked for without a width. */
const mostWidth = 1440
const leastWidth = 240
const widthAsked = `Give the width as a whole number from ${leastWidth} to ${mostWidth}.`

/** What a sheet is asked for, as a query. */
export const sheetQuery = z
  .object({
    before: z
      .string()
      .optional()
      .meta({ description: 'A photo of before; chosen when absent.' }),
    after: z
      .string()
      .optional()
      .meta({ description: 'A photo of after; chosen when absent.' }),
    show: z
      .enum(sheetSubjects, {
        error: `A sheet shows ${sheetSubjects.join(', ')}.`,
      })
      .default('pair')
      .meta({
        description:
          'One pair; a grid of up to six pairs; a story of before, three steps and after; or all steps, equally large.',
      }),
    pairs: ids.optional().meta({
      description:
        'Of a grid: its pairs, with commas between; chosen when absent.',
    }),
    photos: ids.optional().meta({
      description:
        'Of a story: its photos between before and after, with commas between; chosen when absent.',
    }),
    design: z
      .enum(sheetDesigns, {
        error: `Designs are ${sheetDesigns.join(', ')}.`,
      })
      .default(plainLook.design),
    ground: z
      .enum(sheetGrounds, { error: `Grounds are ${sheetGrounds.join(', ')}.` })
      .default(plainLook.ground),
    elements: elements.default([...plainLook.elements]).meta({
      description: `What stands on it, with commas between: ${sheetElements.join(', ')}. The title alone when absent; nothing when empty.`,
      examples: ['title,finish,price'],
    }),
    light: z
      .enum(sheetLights, { error: `Light is ${sheetLights.join(' or ')}.` })
      .default(plainLook.light)
      .meta({
        description:
          'Whether exposure and white balance of the afters are brought gently to those of their befores, as floor and wall tell them. In a story the after alone is, and the steps stay as taken. A pair whose light cannot be told, or is too far off, or that is not laid on each other, stays as taken; its `light` says why. For a listing leave it as taken.',
      }),
    width: z.coerce
      .number({ error: widthAsked })
      .int(widthAsked)
      .min(leastWidth, widthAsked)
      .max(mostWidth, widthAsked)
      .optional()
      .meta({
        description:
          'In pixels, of a smaller jpg, png or webp to be looked at first, which is named after it and may be drawn from smaller pictures of its photos; that of its shape when absent.',
      }),
  })
  .meta({ id: 'SheetQuery' })
