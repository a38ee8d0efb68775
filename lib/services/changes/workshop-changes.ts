import 'server-only'
import { type Refusal, type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import { cameraClock, writeClock } from '#services/cameras/photo-times'
import {
  type ChangeRecord,
  changedSince,
  offeredSince,
  readRecords,
  recordChange,
  undoRecord,
} from '#services/changes/change-records'
import {
  type KeptWorkshop,
  type WorkshopChangeKind,
  keptWorkshop,
  workshopChangeKinds,
} from '#services/changes/schema'
import { type Transaction, database } from '#services/database/open-database'
import { productColumns } from '#services/shelf/product-columns'
import { readWorkshop } from '#services/workshop/workshop'

/** A change of the shelf or of a camera's clock as it is listed. */
export type WorkshopChange = {
  readonly id: string
  readonly kind: WorkshopChangeKind
  readonly changedAt: Instant
  readonly undoneAt: Instant | null
  readonly productIds: readonly string[]
  readonly cameraIds: readonly string[]
}

/** The products and cameras that a change reaches. */
type Reach = {
  readonly productIds?: readonly string[]
  readonly cameraIds?: readonly string[]
}

/** Every photo of a camera is written anew, and it may have taken tens of thousands. */
export const manyPhotosPatience = { timeout: 300_000 }

/**
 * Does something to the shelf or to a camera's clock and keeps what was there, in the same transaction, so that it can be
 * undone. What is refused, and what changes nothing, leaves no trace.
 */
export async function keepWorkshopChange<Done extends Result<unknown>>(
  transaction: Transaction,
  about: { readonly kind: WorkshopChangeKind; readonly now: Instant },
  reach: Reach,
  change: () => Promise<Done>,
): Promise<Done> {
  const before = await stateOf(transaction, reach)
  const done = await change()
  if (!done.ok) return done
  const after = await stateOf(transaction, reach)
  await recordChange(transaction, { ...about, jobId: null }, { before, after })
  return done
}

/** The changes of the shelf and of clocks, the latest first, undone or not; the oldest of very many are left out. */
export async function readWorkshopChanges(): Promise<
  readonly WorkshopChange[]
> {
  return (await readRecords(null)).flatMap(
    (record) => toWorkshopChange(record) ?? [],
  )
}

function toWorkshopChange(record: ChangeRecord): WorkshopChange | undefined {
  const kind = workshopChangeKinds.find((one) => one === record.kind)
  if (kind === undefined) return undefined
  const { id, changedAt, undoneAt } = record
  const { products, clocks } = readState(record.after)
  return {
    id,
    kind,
    changedAt,
    undoneAt,
    productIds: products.map((product) => product.id),
    cameraIds: clocks.map((clock) => clock.id),
  }
}

/**
 * The last changes of the shelf, or of clocks, that have not been undone and could be as things stand: of each product and
 * each camera the latest alone.
 *
 * @param only `last`: none but the very last of these kinds; an id: those of that product
 */
export async function readOfferedChanges(
  kinds: readonly WorkshopChangeKind[],
  now: Instant,
  only?: string,
): Promise<readonly WorkshopChange[]> {
  const db = await database()
  const since = offeredSince(now)
  const seen = new Set<string>()
  const offered: WorkshopChange[] = []
  for (const record of await readRecords(null)) {
    const change = toWorkshopChange(record)
    if (change === undefined) continue
    const [about = ''] = [...change.productIds, ...change.cameraIds]
    if (!kinds.includes(change.kind) || change.changedAt < since) continue
    if (change.undoneAt !== null || seen.has(about)) continue
    if (only === 'last' && seen.size > 0) break
    seen.add(about)
    if (only !== undefined && only !== 'last' && only !== about) continue
    const refusal = await whyNotUndo(
      db,
      readState(record.before),
      readState(record.after),
    )
    if (refusal === undefined) offered.push(change)
  }
  return offered
}

/**
 * Undoes a change: the product or the clock is as it was before it, and with a clock the times of its photos.
 *
 * @returns refused when there is no such change, when it was undone before, when what it changed was changed again since,
 *   or when a product that it put on the shelf has been used
 */
export async function undoWorkshopChange(
  changeId: string,
  now: Instant,
): Promise<Result<undefined>> {
  const { zone } = await readWorkshop()
  const db = await database()
  return db.$transaction(
    (transaction) =>
      undoRecord(
        transaction,
        { id: changeId, jobId: null, now, noChange, readState },
        async (before, after) => {
          const refusal = await whyNotUndo(transaction, before, after)
          if (refusal !== undefined) return refused(refusal)
          await putBack(transaction, before, after, zone)
          return ok(undefined)
        },
      ),
    manyPhotosPatience,
  )
}

const noChange: Refusal = {
  kind: 'not-found',
  detail: 'There is no such change of the shelf or of a clock.',
}

/** Raises the revision of every job in which one of these products was used: it is judged anew. */
export async function touchJobsWith(
  transaction: Transaction,
  productIds: readonly string[],
): Promise<void> {
  await transaction.job.updateMany({
    where: { steps: { some: { productId: { in: [...productIds] } } } },
    data: { revision: { increment: 1 } },
  })
}

function readState(text: string): KeptWorkshop {
  return keptWorkshop.parse(JSON.parse(text))
}

type Reading = Pick<Transaction, 'product' | 'camera' | 'step'>

async function stateOf(
  transaction: Reading,
  { productIds = [], cameraIds = [] }: Reach,
): Promise<KeptWorkshop> {
  const products = await transaction.product.findMany({
    where: { id: { in: [...productIds] } },
    orderBy: { id: 'asc' },
    select: { ...productColumns, createdAt: true },
  })
  const clocks = await transaction.camera.findMany({
    where: { id: { in: [...cameraIds] } },
    orderBy: { id: 'asc' },
    select: {
      id: true,
      clockCorrectionSeconds: true,
      clockUncertaintySeconds: true,
    },
  })
  return {
    products: products.map(({ createdAt, ...product }) => ({
      ...product,
      createdAt: createdAt.toISOString(),
    })),
    clocks,
  }
}

async function whyNotUndo(
  transaction: Reading,
  before: KeptWorkshop,
  after: KeptWorkshop,
): Promise<Refusal | undefined> {
  const standing = await stateOf(transaction, {
    productIds: after.products.map(({ id }) => id),
    cameraIds: after.clocks.map(({ id }) => id),
  })
  if (JSON.stringify(standing) !== JSON.stringify(after)) return changedSince
  const used = await transaction.step.count({
    where: { productId: { in: addedProducts(before, after) } },
  })
  return used === 0
    ? undefined
    : {
        kind: 'conflict',
        detail:
          'It cannot be undone: work was done with the product since. Say of that work that it was done with another first.',
      }
}

function addedProducts(before: KeptWorkshop, after: KeptWorkshop): string[] {
  const kept = new Set(before.products.map(({ id }) => id))
  return after.products.map(({ id }) => id).filter((id) => !kept.has(id))
}

async function putBack(
  transaction: Transaction,
  before: KeptWorkshop,
  after: KeptWorkshop,
  zone: string,
): Promise<void> {
  await transaction.product.deleteMany({
    where: { id: { in: addedProducts(before, after) } },
  })
  for (const { id, ...columns } of before.products) {
    await transaction.product.update({
      where: { id },
      data: columns,
      select: { id: true },
    })
  }
  await touchJobsWith(
    transaction,
    before.products.map(({ id }) => id),
  )
  for (const clock of before.clocks) {
    await writeClock(transaction, clock.id, cameraClock(clock) ?? null, zone)
  }
}
