import { z } from 'zod'
import {
  type Product,
  amountUnits,
  chemistries,
  productCategories,
} from '#core/shelf/product'
import { label } from '#services/shelf/schema'

/** So much of a product. */
export const amountAnswer = z
  .object({ value: z.number(), unit: z.enum(amountUnits) })
  .meta({ id: 'Amount' })

/** Something on the shelf, as the interface gives it. */
export const productAnswer = z
  .object({
    id: z.string(),
    name: z.string(),
    category: z.enum(productCategories),
    chemistry: z.enum(chemistries),
    label,
    pack: z
      .object({
        amount: z.number(),
        unit: z.enum(amountUnits),
        price: z
          .int()
          .meta({ description: 'In minor units of the workshop’s currency.' }),
      })
      .optional(),
    packsBought: z.number().optional(),
    link: z.string().optional(),
    paidLink: z
      .boolean()
      .meta({ description: 'Whether the link earns the owner something.' }),
  })
  .meta({ id: 'Product' })

/** Everything on the shelf, as the interface gives it. */
export const productListAnswer = z
  .object({ products: z.array(productAnswer) })
  .meta({ id: 'ProductList' })

/** A product in the form of {@link productAnswer}. */
export function productToAnswer(
  product: Product,
): z.input<typeof productAnswer> {
  const { recoatWindows, ...times } = product.label
  return {
    id: product.id,
    name: product.name,
    category: product.category,
    chemistry: product.chemistry,
    label: {
      ...times,
      ...(recoatWindows === undefined
        ? {}
        : { recoatWindows: [...recoatWindows] }),
    },
    ...(product.pack === undefined
      ? {}
      : {
          pack: {
            amount: product.pack.amount.value,
            unit: product.pack.amount.unit,
            price: product.pack.priceMinor,
          },
        }),
    ...(product.packsBought === undefined
      ? {}
      : { packsBought: product.packsBought }),
    ...(product.link === undefined ? {} : { link: product.link }),
    paidLink: product.paidLink === true,
  }
}
