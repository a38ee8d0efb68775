import 'server-only'
import { type PlacingChoice, groupChoices } from '#core/placing/group-choices'
import type { Place } from '#core/placing/place'
import { type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import { notInBin } from '#services/bin/bin'
import { toDate } from '#services/database/instants'
import { newId } from '#services/database/new-id'
import { type Transaction, database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import type {
  NewPlace,
  NewPlacing,
  PlacingRecord,
} from '#services/placing/schema'
import { createStep, placePhotosOnStep } from '#services/steps/steps'

/** What became of photos that were placed in one go. */
export type KeptPlacing = {
  readonly id: string
  readonly photoCount: number
  /** The steps that were added for them, in order of time. */
  readonly steps: readonly string[]
}

/**
 * Places photos that nobody has placed yet, all or none: as before or after, on steps that are there, or on new ones. One
 * new step is added for all photos of the same work. How it was before is kept, so that it can be taken back.
 *
 * @param placing in order of time
 * @returns refused, with nothing changed, when a photo, step or surface is not of this job or a photo was placed meanwhile
 */
export async function confirmPlacing(
  jobId: string,
  placing: NewPlacing,
  now: Instant,
): Promise<Result<KeptPlacing>> {
  const db = await database()
  const photoIds = placing.choices.flatMap((choice) => choice.photos)
  return db.$transaction(async (transaction) => {
    const before = await readUnplaced(transaction, jobId, photoIds)
    if (!before.ok) return before
    const known = await areKnown(transaction, jobId, placing)
    if (!known) {
      return refused({
        kind: 'not-found',
        detail:
          'A step or a surface is no longer in this job, or a product no longer on the shelf. Look again and choose anew.',
      } as const)
    }
    const groups = groupChoices(
      placing.choices.map(({ photos, place }) => ({
        photoIds: photos,
        place: toPlace(place),
        ...('product' in place && place.product !== undefined
          ? { productId: place.product }
          : {}),
      })),
    )
    const placed = new Map<string, { step: string | null; role: string }>()
    const steps: string[] = []
    const products: Record<string, string> = {}
    for (const group of groups) {
      const step = await place(transaction, jobId, group, now)
      if (step.isNew && step.id !== null) {
        steps.push(step.id)
        if (group.productId !== undefined) products[step.id] = group.productId
      }
      const role = group.place.as === 'step' ? 'progress' : group.place.as
      for (const id of group.photoIds) {
        placed.set(id, { step: step.id, role })
      }
    }
    const record: PlacingRecord = {
      photos: before.value.map(({ id, surfaces }) => ({
        id,
        step: placed.get(id)?.step ?? null,
        role: placed.get(id)?.role ?? 'progress',
        surfaces,
      })),
      steps,
      products,
    }
    const id = newId()
    await transaction.placing.create({
      data: {
        id,
        jobId,
        placedAt: toDate(now),
        record: JSON.stringify(record),
      },
      select: { id: true },
    })
    await touchJob(transaction, jobId)
    return ok({ id, photoCount: placed.size, steps })
  })
}

type Unplaced = { readonly id: string; readonly surfaces: string[] }

async function readUnplaced(
  transaction: Transaction,
  jobId: string,
  photoIds: readonly string[],
): Promise<Result<readonly Unplaced[]>> {
  const ids = [...new Set(photoIds)]
  const rows = await transaction.photo.findMany({
    where: { id: { in: ids }, jobId, ...notInBin },
    select: {
      id: true,
      role: true,
      stepId: true,
      surfaces: { select: { surfaceId: true } },
    },
  })
  if (rows.length < ids.length) {
    return refused({
      kind: 'not-found',
      detail: 'One of the photos is no longer in this job. Look again.',
    })
  }
  if (ids.length < photoIds.length) {
    return refused({
      kind: 'invalid',
      detail: 'One of the photos was chosen twice. Place each photo once.',
    })
  }
  if (rows.some((row) => row.stepId !== null || row.role !== 'progress')) {
    return refused({
      kind: 'conflict',
      detail: 'One of the photos has been placed meanwhile. Look again.',
    })
  }
  return ok(
    rows.map(({ id, surfaces }) => ({
      id,
      surfaces: surfaces.map((one) => one.surfaceId),
    })),
  )
}

async function areKnown(
  transaction: Transaction,
  jobId: string,
  { choices }: NewPlacing,
): Promise<boolean> {
  const places = choices.map((choice) => choice.place)
  const steps = new Set(
    places.flatMap((one) => ('step' in one ? one.step : [])),
  )
  const surfaces = new Set(
    places.flatMap((one) => ('surfaces' in one ? one.surfaces : [])),
  )
  const products = new Set(
    places.flatMap((one) => ('product' in one ? (one.product ?? []) : [])),
  )
  const [stepCount, surfaceCount, productCount] = [
    await transaction.step.count({ where: { id: { in: [...steps] }, jobId } }),
    await transaction.surface.count({
      where: { id: { in: [...surfaces] }, piece: { jobId } },
    }),
    await transaction.product.count({ where: { id: { in: [...products] } } }),
  ]
  return (
    stepCount === steps.size &&
    surfaceCount === surfaces.size &&
    productCount === products.size
  )
}

function toPlace(place: NewPlace): Place {
  if (place.as !== 'step') return place
  if ('step' in place) {
    // What the step is stands in its own record.
    return { as: 'step', kind: 'detail', surfaceIds: [], stepId: place.step }
  }
  const { kind, surfaces, coat } = place
  return {
    as: 'step',
    kind,
    surfaceIds: [...new Set(surfaces)],
    ...(coat === undefined ? {} : { coat }),
  }
}

type Placed = { readonly id: string | null; readonly isNew: boolean }

async function place(
  transaction: Transaction,
  jobId: string,
  group: PlacingChoice,
  now: Instant,
): Promise<Placed> {
  const { photoIds, place: at, productId } = group
  if (at.as !== 'step') {
    await transaction.photo.updateMany({
      where: { id: { in: [...photoIds] } },
      data: { role: at.as },
    })
    return { id: null, isNew: false }
  }
  if (at.stepId !== undefined) {
    const step = await transaction.step.findUniqueOrThrow({
      where: { id: at.stepId },
      select: { surfaces: { select: { surfaceId: true } } },
    })
    const surfaceIds = step.surfaces.map((on) => on.surfaceId)
    await placePhotosOnStep(transaction, at.stepId, surfaceIds, photoIds)
    return { id: at.stepId, isNew: false }
  }
  const added = await createStep(
    transaction,
    jobId,
    {
      kind: at.kind,
      surfaces: [...at.surfaceIds],
      ...(at.coat === undefined ? {} : { coat: at.coat }),
      ...(productId === undefined ? {} : { product: productId }),
      photos: [...photoIds],
    },
    now,
  )
  // A refusal would leave half of it placed, and all was checked before.
  if (!added.ok) throw new Error(added.refusal.detail)
  return { id: added.value.id, isNew: true }
}
