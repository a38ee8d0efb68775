import 'server-only'
import { type Result, ok, refused } from '#core/result'
import {
  type Label,
  type Product,
  amountUnits,
  chemistries,
  productCategories,
} from '#core/shelf/product'
import type { Instant } from '#core/units'
import {
  keepWorkshopChange,
  touchJobsWith,
} from '#services/changes/workshop-changes'
import { present, toDate } from '#services/database/instants'
import { newId } from '#services/database/new-id'
import { database } from '#services/database/open-database'
import { productColumns } from '#services/shelf/product-columns'
import { type NewProduct, label } from '#services/shelf/schema'

/** A product as its row has it. */
export type ProductRow = {
  readonly id: string
  readonly name: string
  readonly category: string
  readonly chemistry: string
  readonly label: string
  readonly packAmount: number | null
  readonly packUnit: string | null
  readonly packPriceMinor: number | null
  readonly packsBought: number | null
  readonly link: string | null
  readonly paidLink: boolean
}

/** The product that a row holds. */
export function toProduct(row: ProductRow): Product {
  const unit = amountUnits.find((one) => one === row.packUnit)
  return {
    id: row.id,
    name: row.name,
    category: productCategories.find((one) => one === row.category) ?? 'other',
    chemistry: chemistries.find((one) => one === row.chemistry) ?? 'other',
    label: readLabel(row.label),
    ...(row.packAmount !== null &&
    unit !== undefined &&
    row.packPriceMinor !== null
      ? {
          pack: {
            amount: { value: row.packAmount, unit },
            priceMinor: row.packPriceMinor,
          },
        }
      : {}),
    ...present({ packsBought: row.packsBought, link: row.link }),
    ...(row.paidLink ? { paidLink: true } : {}),
  }
}

function readLabel(json: string): Label {
  const said = label.parse(JSON.parse(json))
  const { recoatWindows, reference, ...times } = said
  return {
    ...present(times),
    ...(recoatWindows === undefined
      ? {}
      : {
          recoatWindows: recoatWindows.map((window) => ({
            fromMinutes: window.fromMinutes,
            ...present({ toMinutes: window.toMinutes, needs: window.needs }),
          })),
        }),
    ...(reference !== undefined && { reference: present(reference) }),
  }
}

/** Everything on the shelf, by name. */
export async function readProducts(): Promise<readonly Product[]> {
  const db = await database()
  const rows = await db.product.findMany({
    select: productColumns,
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  })
  return rows.map(toProduct)
}

/** One product, or undefined when there is none with this id. */
export async function readProduct(id: string): Promise<Product | undefined> {
  const db = await database()
  const row = await db.product.findUnique({
    where: { id },
    select: productColumns,
  })
  return row === null ? undefined : toProduct(row)
}

/** Puts a product on the shelf. */
export async function addProduct(
  product: NewProduct,
  now: Instant,
): Promise<Product> {
  const db = await database()
  const id = newId()
  const added = await db.$transaction((transaction) =>
    keepWorkshopChange(
      transaction,
      { kind: 'product-added', now },
      { productIds: [id] },
      async () =>
        ok(
          await transaction.product.create({
            data: { id, createdAt: toDate(now), ...toColumns(product) },
            select: productColumns,
          }),
        ),
    ),
  )
  return toProduct(added.value)
}

/** Changes all that is known of a product. Jobs that used it are judged by the new label from then on. */
export async function changeProduct(
  id: string,
  product: NewProduct,
  now: Instant,
): Promise<Result<Product>> {
  const db = await database()
  return db.$transaction(async (transaction) => {
    const found = await transaction.product.findUnique({
      where: { id },
      select: { id: true },
    })
    if (found === null) return noProduct
    return keepWorkshopChange(
      transaction,
      { kind: 'product-changed', now },
      { productIds: [id] },
      async () => {
        const row = await transaction.product.update({
          where: { id },
          data: toColumns(product),
          select: productColumns,
        })
        await touchJobsWith(transaction, [id])
        return ok(toProduct(row))
      },
    )
  })
}

const noProduct = refused({
  kind: 'not-found',
  detail: 'There is no such product on the shelf. It may have been removed.',
} as const)

function toColumns(product: NewProduct) {
  return {
    name: product.name,
    category: product.category,
    chemistry: product.chemistry,
    label: JSON.stringify(product.label),
    packAmount: product.pack?.amount ?? null,
    packUnit: product.pack?.unit ?? null,
    packPriceMinor: product.pack?.price ?? null,
    packsBought: product.packsBought ?? null,
    link: product.link ?? null,
    paidLink: product.paidLink,
  }
}
