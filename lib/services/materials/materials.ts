import 'server-only'
import type { Piece, WorkshopSettings } from '#core/journal/journal'
import { type SurfaceFinish, listFinishes } from '#core/materials/list-finishes'
import {
  type MaterialsList,
  listMaterials,
} from '#core/materials/list-materials'
import { loggedAmount } from '#core/materials/logged-amount'
import { type ProductUse, productUses } from '#core/materials/product-uses'
import { type Stock, stockOf } from '#core/materials/stock'
import { decimalText } from '#core/money/fraction'
import type { Amount } from '#core/shelf/product'
import { notInBin } from '#services/bin/bin'
import { database } from '#services/database/open-database'
import { loggedFacts } from '#services/journal/logged-facts'
import { readJournal } from '#services/journal/read-journal'
import { readWorkshop } from '#services/workshop/workshop'

/** What went on a job, what is on it now, and what is left of each product. */
export type JobMaterials = {
  readonly list: MaterialsList
  readonly finishes: readonly SurfaceFinish[]
  readonly stocks: readonly Stock[]
  readonly pieces: readonly Piece[]
  readonly settings: WorkshopSettings
}

/** A job's materials and the settings to write them with, or undefined when there is no such job. */
export async function readMaterials(
  jobId: string,
): Promise<JobMaterials | undefined> {
  const journal = await readJournal(jobId)
  if (journal === undefined) return undefined
  const uses = productUses(journal)
  const elsewhere = await readUsesElsewhere(
    jobId,
    journal.products.map((product) => product.id),
  )
  return {
    list: listMaterials(journal),
    finishes: listFinishes(journal),
    stocks: journal.products.flatMap((product) => {
      const here = uses.filter((use) => use.product.id === product.id)
      const there = elsewhere.filter((use) => use.productId === product.id)
      const usedHere = here.flatMap(amountOf)
      const usedThere = there.flatMap((use) => use.amount ?? [])
      return (
        stockOf(
          product,
          [...usedHere, ...usedThere],
          here.length - usedHere.length + there.length - usedThere.length,
          usedHere,
        ) ?? []
      )
    }),
    pieces: journal.pieces,
    settings: await readWorkshop(),
  }
}

function amountOf({ logged, estimate }: ProductUse): readonly Amount[] {
  if (logged !== undefined) return [logged]
  return estimate === undefined
    ? []
    : [{ value: Number(decimalText(estimate.litres, 6)), unit: 'l' }]
}

/** What the other jobs used of these products, as far as it was written down. One query, however many jobs there are. */
async function readUsesElsewhere(
  jobId: string,
  productIds: readonly string[],
): Promise<
  readonly {
    readonly productId: string | null
    readonly amount: Amount | undefined
  }[]
> {
  const db = await database()
  const rows = await db.step.findMany({
    where: {
      productId: { in: [...productIds] },
      jobId: { not: jobId },
      ...notInBin,
    },
    select: {
      productId: true,
      amount: true,
      amountUnit: true,
      weighedBeforeGrams: true,
      weighedAfterGrams: true,
    },
  })
  return rows.map((row) => ({
    productId: row.productId,
    amount: loggedAmount(loggedFacts(row)),
  }))
}
