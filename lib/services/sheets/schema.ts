import { z } from 'zod'
import {
  plainLook,
  sheetDesigns,
  sheetElements,
  sheetGrounds,
} from '#core/sheets/sheet-design'

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
  })
  .meta({ id: 'SheetQuery' })
