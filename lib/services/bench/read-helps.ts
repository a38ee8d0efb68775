import 'server-only'
import type { BenchEntry } from '#core/bench/bench'
import { whatHelps } from '#core/drying/what-helps'
import { type Instant, addMinutes } from '#core/units'
import { readLatestAir } from '#services/air/air'
import { readProducts } from '#services/shelf/products'
import { readWorkshop } from '#services/workshop/workshop'

/** An older reading says nothing of the air there is now; the timeline holds a reading as long. */
const readingHoldsMinutes = 12 * 60

/**
 * What would shorten the wait for the next coat, in the air of the latest reading, as sentences; none without a reading of
 * the last hours, a product or a label time.
 */
export async function readHelps(
  at: Instant,
): Promise<(entry: BenchEntry) => readonly string[]> {
  const [[air], products, { units }] = await Promise.all([
    readLatestAir(1),
    readProducts(),
    readWorkshop(),
  ])
  if (air === undefined || air.at < addMinutes(at, -readingHoldsMinutes)) {
    return () => []
  }
  const productById = new Map(products.map((product) => [product.id, product]))
  return ({ product }) => {
    const known =
      product === undefined ? undefined : productById.get(product.id)
    if (known === undefined) return []
    const found = whatHelps(known, 'recoat', air, units)
    return found?.helps.map((help) => help.sentence) ?? []
  }
}
