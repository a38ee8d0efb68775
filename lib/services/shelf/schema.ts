import { z } from 'zod'
import { minorUnitDigits } from '#core/money/minor-unit-digits'
import { minorUnitsOf } from '#core/money/minor-units-of'
import {
  amountUnits,
  chemistries,
  productCategories,
} from '#core/shelf/product'
import { whenRead } from '#services/when-read'

const duration = z
  .number('Give a length of time as a number.')
  .min(0, 'A length of time cannot be less than nothing.')
  .max(5_256_000, 'That is more than ten years.')

/** What the can says; everything is optional, because labels differ. */
export const label = z
  .object({
    touchMinutes: duration.optional(),
    recoatMinutes: duration.optional(),
    recoatByMinutes: duration.optional(),
    recoatWindows: z
      .array(
        z
          .object({
            fromMinutes: duration,
            toMinutes: duration.optional(),
            needs: z.enum(['sand', 'scuff']).optional(),
          })
          .refine(
            (window) =>
              window.toMinutes === undefined ||
              window.toMinutes > window.fromMinutes,
            { path: ['toMinutes'], error: 'A window ends after it begins.' },
          ),
      )
      .min(1)
      .max(6)
      .refine(
        (windows) =>
          windows.every(
            (window, index) =>
              index === 0 ||
              window.fromMinutes >= (windows[index - 1]?.toMinutes ?? Infinity),
          ),
        {
          path: [1, 'fromMinutes'],
          error: 'The next window opens after the one before has closed.',
        },
      )
      .optional(),
    sandMinutes: duration.optional(),
    handleMinutes: duration.optional(),
    cureDays: z
      .number('Give a number of days.')
      .min(0, 'Days cannot be less than nothing.')
      .max(3650, 'That is more than ten years.')
      .optional(),
    reference: z
      .object({
        celsius: z
          .number('Give the temperature that the times are stated for.')
          .min(-10)
          .max(60)
          .optional(),
        humidity: z
          .number('Give the humidity that the times are stated for.')
          .gt(0, 'Give a humidity of more than 0 and less than 100 %.')
          .lt(100, 'Give a humidity of more than 0 and less than 100 %.')
          .optional(),
      })
      .refine(
        (air) => air.celsius !== undefined || air.humidity !== undefined,
        'Give the temperature that the times are stated for, the humidity, or both.',
      )
      .meta({
        description:
          'The air that the times are stated for, as far as the label names it; 23 °C and 50 % are taken for what it does not.',
      })
      .optional(),
    minCelsius: z.number('Give a number.').min(-40).max(60).optional(),
    maxHumidity: z.number('Give a number.').gt(0).max(100).optional(),
    spreadSquareMetresPerLitre: z
      .number('Give a number.')
      .gt(0)
      .max(100)
      .optional(),
    solidsByVolume: z
      .number()
      .gt(0)
      .max(1, 'Volume solids are a share from 0 to 1, such as 0.38.')
      .optional(),
    maxThinningPercent: z.number('Give a number.').min(0).max(100).optional(),
    densityKilogramsPerLitre: z
      .number('Give a number.')
      .gt(0, 'A litre weighs more than nothing.')
      .max(5, 'Nothing that is laid on weighs more than 5 kg a litre.')
      .optional(),
  })
  .refine(
    (said) =>
      said.recoatMinutes === undefined ||
      said.recoatByMinutes === undefined ||
      said.recoatByMinutes > said.recoatMinutes,
    {
      path: ['recoatByMinutes'],
      error:
        'The latest time for the next coat comes after the earliest one. Check both on the can.',
      when: whenRead('recoatMinutes', 'recoatByMinutes'),
    },
  )

const link = z
  .url({
    protocol: /^https?$/,
    error: 'Give a whole web address, starting with https://',
  })
  .max(2000, 'That address is too long.')

const wholePrice = z.int().min(0).max(100_000_000)

/** A price in minor units, or as text with the decimals of the currency; without one, with those that any has. */
function priceIn(currency: string | undefined) {
  const digits = currency === undefined ? 4 : minorUnitDigits(currency)
  const example = {
    0: '2450 for 2450), or as text: "2450".',
    2: '2450 for 24.50), or as text: "24.50".',
    3: '24500 for 24.500), or as text: "24.500".',
    4: '2450 for 24.50), or as text: "24.50".',
  }[digits]
  return z
    .union(
      [
        wholePrice,
        z
          .string()
          .regex(
            digits === 0
              ? /^\d{1,8}$/
              : new RegExp(String.raw`^\d{1,6}(?:\.\d{1,${digits}})?$`),
          )
          .transform((text) => minorUnitsOf(text, currency ?? 'CLF') ?? 0),
      ],
      `Give the price in minor units as a whole number (${example}`,
    )
    .meta({
      description:
        'In minor units of the workshop’s currency (2450 for 24.50), or as text with no more decimals than it has: "24.50".',
    })
}

/** A new product; the price of its pack in minor units. */
export const newProduct = z.object({
  name: z
    .string('Give the product a name.')
    .trim()
    .min(1, 'Give the product a name.')
    .max(120, 'Keep the name to 120 characters.'),
  category: z.enum(
    productCategories,
    `Choose one of: ${productCategories.join(', ')}.`,
  ),
  chemistry: z.enum(chemistries, `Choose one of: ${chemistries.join(', ')}.`),
  label: label.default({}),
  pack: z
    .object({
      amount: z
        .number('Say how much a pack holds.')
        .gt(0, 'A pack holds more than nothing.')
        .max(100_000),
      unit: z.enum(amountUnits, `Choose one of: ${amountUnits.join(', ')}.`),
      price: wholePrice,
    })
    .optional(),
  packsBought: z
    .number('Say how many packs were bought.')
    .min(0, 'Packs cannot be less than none.')
    .max(10_000)
    .optional(),
  link: link.optional(),
  paidLink: z
    .boolean('Say true or false.')
    .default(false)
    .meta({ description: 'Whether the link earns the owner something.' }),
})

/**
 * A new product as the interface takes it, with the price also as text.
 *
 * @param currency that of the workshop, which says how many decimals a price has; left out where only the form is told
 */
export function newProductIn(currency?: string) {
  return newProduct.extend({
    pack: newProduct.shape.pack
      .unwrap()
      .extend({ price: priceIn(currency) })
      .optional(),
  })
}

export type NewProduct = z.output<typeof newProduct>
