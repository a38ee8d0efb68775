import 'server-only'
import type { CoatCount } from '#core/journal/renumber-coats'
import { type StepKind, stepKinds } from '#core/journal/vocabulary'
import { type Refusal, type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import { settleStep } from '#services/bin/bin-parts'
import {
  changedSince,
  offeredSince,
  readRecords,
  recordChange,
  undoRecord,
} from '#services/changes/change-records'
import {
  type ChangeKind,
  type KeptState,
  changeKinds,
  keptState,
} from '#services/changes/schema'
import { toDate, toInstant } from '#services/database/instants'
import { type Transaction, database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import { queueRenditions } from '#services/renditions/renditions'

/** A change that can be undone. */
export type LastChange = {
  readonly id: string
  readonly kind: ChangeKind
  readonly changedAt: Instant
  /** Its first step: as the change left it, or as it was when it was removed; absent where it is about no step. */
  readonly step?: {
    readonly kind: StepKind
    readonly surfaceIds: readonly string[]
  }
  readonly photoIds: readonly string[]
  /** The coats that it put in, took out or moved, with the lowest number that each count had before. */
  readonly counts: readonly CoatCount[]
}

/** A change as it is listed. */
export type KeptChange = {
  readonly id: string
  readonly kind: ChangeKind
  readonly changedAt: Instant
  readonly undoneAt: Instant | null
  readonly stepIds: readonly string[]
  readonly photoIds: readonly string[]
}

/** What a change reaches: nobody else's photos and steps are looked at. */
type Reach = {
  readonly stepIds: readonly string[]
  /** Photos whose step, role or surfaces may change. */
  readonly photoIds: readonly string[]
  /** Photos whose time may change, and those whose words may. */
  readonly timesOf?: readonly string[]
  readonly wordsOf?: readonly string[]
  /** Photos that may be turned. */
  readonly turnsOf?: readonly string[]
  /** The job of which is told something else. */
  readonly factsOf?: string
  /** The job that may be finished, sold or delivered. */
  readonly handOverOf?: string
}

/**
 * Does something to a job and keeps what was there, in the same transaction, so that it can be undone. What is refused,
 * and what changes nothing, leaves no trace.
 *
 * @param reach the steps that are changed, and photos that are not of theirs yet; the photos of the steps are known
 * @param change returns the steps that it added, if any
 */
export async function keepChange<T>(
  transaction: Transaction,
  about: {
    readonly jobId: string
    readonly kind: ChangeKind
    readonly now: Instant
  },
  reach: Reach,
  change: () => Promise<Result<T>>,
  added: (value: T) => readonly string[] = () => [],
): Promise<Result<T>> {
  const own = await transaction.photo.findMany({
    where: { stepId: { in: [...reach.stepIds] } },
    select: { id: true },
  })
  const photoIds = [
    ...new Set([...own.map((photo) => photo.id), ...reach.photoIds]),
  ]
  const before = await stateOf(transaction, { ...reach, photoIds })
  const done = await change()
  if (!done.ok) return done
  const after = await stateOf(transaction, {
    ...reach,
    stepIds: [...reach.stepIds, ...added(done.value)],
    photoIds,
  })
  await recordChange(transaction, about, { before, after })
  return done
}

/**
 * The last change to a job that has not been undone, where undoing it would be accepted as things stand;
 * undefined when there is none within a month, and when photos were placed in one go since: that is taken back first.
 */
export async function readLastChange(
  jobId: string,
  now: Instant,
): Promise<LastChange | undefined> {
  const db = await database()
  const row = await db.change.findFirst({
    where: {
      jobId,
      undoneAt: null,
      changedAt: { gte: toDate(offeredSince(now)) },
    },
    orderBy: [{ changedAt: 'desc' }, { id: 'desc' }],
    select: {
      id: true,
      kind: true,
      changedAt: true,
      before: true,
      after: true,
    },
  })
  if (row === null) return undefined
  const placedSince = await db.placing.count({
    where: { jobId, undoneAt: null, placedAt: { gt: row.changedAt } },
  })
  const before = readState(row.before)
  const after = readState(row.after)
  const step = after.steps[0] ?? before.steps[0]
  const kind = changeKinds.find((one) => one === row.kind)
  const stepKind = stepKinds.find((one) => one === step?.kind)
  const isOffered =
    placedSince === 0 &&
    (await whyNotUndo(db, jobId, before, after)) === undefined
  if (!isOffered || kind === undefined) return undefined
  return {
    id: row.id,
    kind,
    changedAt: toInstant(row.changedAt),
    ...(step !== undefined &&
      stepKind !== undefined && {
        step: {
          kind: stepKind,
          surfaceIds: step.surfaces.map((on) => on.surfaceId),
        },
      }),
    photoIds: photosOf(after),
    counts: countsOf(before, after),
  }
}

/** The changes of a job, the latest first, undone or not; the oldest of very many are left out. */
export async function readChanges(
  jobId: string,
): Promise<readonly KeptChange[]> {
  return (await readRecords(jobId)).flatMap((row) => {
    const kind = changeKinds.find((one) => one === row.kind)
    if (kind === undefined) return []
    const before = readState(row.before)
    const after = readState(row.after)
    return {
      id: row.id,
      kind,
      changedAt: row.changedAt,
      undoneAt: row.undoneAt,
      stepIds: [
        ...new Set([...before.steps, ...after.steps].map(({ id }) => id)),
      ],
      photoIds: photosOf(after),
    }
  })
}

function photosOf(state: KeptState): readonly string[] {
  const { photos, times = [], words = [], turns = [] } = state
  return [
    ...new Set([...photos, ...times, ...words, ...turns].map(({ id }) => id)),
  ]
}

/** Where coats may have to be counted anew, because one came, went or moved there. */
function countsOf(before: KeptState, after: KeptState): readonly CoatCount[] {
  const counts = new Map<string, CoatCount>()
  for (const { steps, isBefore } of [
    { steps: after.steps, isBefore: false },
    { steps: before.steps, isBefore: true },
  ]) {
    for (const { kind: name, surfaces } of steps) {
      const kind = stepKinds.find((one) => one === name)
      for (const { surfaceId, coat } of surfaces) {
        if (kind === undefined || coat === null) continue
        const key = `${kind} ${surfaceId}`
        const known = counts.get(key)
        const first = isBefore
          ? Math.min(known?.first ?? Infinity, coat)
          : known?.first
        counts.set(key, {
          kind,
          surfaceId,
          ...(first !== undefined && { first }),
        })
      }
    }
  }
  return [...counts.values()]
}

/**
 * Undoes a change: its steps and their photos are as they were before it.
 *
 * @returns refused when there is no such change, when it was undone before, when its steps or photos were changed again
 *   since, when a step that it added has other photos by now, or when a product, surface or step that they had is gone
 */
export async function undoChange(
  jobId: string,
  changeId: string,
  now: Instant,
): Promise<Result<undefined>> {
  const db = await database()
  const undone = await db.$transaction((transaction) =>
    undoRecord(
      transaction,
      { id: changeId, jobId, now, noChange, readState },
      async (before, after) => {
        const refusal = await whyNotUndo(transaction, jobId, before, after)
        if (refusal !== undefined) return refused(refusal)
        await putBack(transaction, jobId, before, after)
        await touchJob(transaction, jobId)
        return ok(before.turns ?? [])
      },
    ),
  )
  if (!undone.ok) return undone
  await turnRenditions(undone.value)
  return ok(undefined)
}

/** Has the smaller pictures of photos made for the way they are turned now. */
async function turnRenditions(
  turns: readonly { readonly id: string; readonly quarterTurns: number }[],
): Promise<void> {
  if (turns.length === 0) return
  const db = await database()
  const photos = await db.photo.findMany({
    where: { id: { in: turns.map(({ id }) => id) } },
    select: { sha256: true, quarterTurns: true },
  })
  for (const { sha256, quarterTurns } of photos) {
    await queueRenditions([sha256], quarterTurns)
  }
}

const noChange: Refusal = {
  kind: 'not-found',
  detail: 'There is no such change in this job.',
}
function readState(text: string): KeptState {
  return keptState.parse(JSON.parse(text))
}

async function whyNotUndo(
  transaction: Transaction,
  jobId: string,
  before: KeptState,
  after: KeptState,
): Promise<Refusal | undefined> {
  const reach = reachOf(jobId, before, after)
  const standing = await stateOf(transaction, reach)
  if (JSON.stringify(standing) !== JSON.stringify(after)) return changedSince
  const others = await transaction.photo.count({
    where: {
      stepId: { in: addedSteps(before, after) },
      id: { notIn: [...reach.photoIds] },
    },
  })
  if (others > 0) return changedSince
  return whatIsGone(transaction, before)
}

function addedSteps(before: KeptState, after: KeptState): string[] {
  const kept = new Set(before.steps.map((step) => step.id))
  return after.steps.map((step) => step.id).filter((id) => !kept.has(id))
}

function reachOf(jobId: string, before: KeptState, after: KeptState): Reach {
  const steps = [...before.steps, ...after.steps]
  return {
    stepIds: [...new Set(steps.map((step) => step.id))],
    photoIds: after.photos.map((photo) => photo.id),
    ...(after.times && { timesOf: after.times.map(({ id }) => id) }),
    ...(after.words && { wordsOf: after.words.map(({ id }) => id) }),
    ...(after.turns && { turnsOf: after.turns.map(({ id }) => id) }),
    ...(after.facts && { factsOf: jobId }),
    ...(after.handOver && { handOverOf: jobId }),
  }
}

async function timesOf(transaction: Transaction, ids: readonly string[]) {
  const photos = await transaction.photo.findMany({
    where: { id: { in: [...ids] } },
    orderBy: { id: 'asc' },
    select: {
      id: true,
      takenAt: true,
      takenEarliest: true,
      takenLatest: true,
      takenBasis: true,
      warnings: true,
    },
  })
  return photos.map(
    ({ id, takenAt, takenEarliest, takenLatest, takenBasis, warnings }) => ({
      id,
      takenAt: takenAt.toISOString(),
      takenEarliest: takenEarliest.toISOString(),
      takenLatest: takenLatest.toISOString(),
      takenBasis,
      warnings,
    }),
  )
}

async function wordsOf(transaction: Transaction, ids: readonly string[]) {
  return transaction.photo.findMany({
    where: { id: { in: [...ids] } },
    orderBy: { id: 'asc' },
    select: { id: true, view: true, flaw: true },
  })
}

async function turnsOf(transaction: Transaction, ids: readonly string[]) {
  return transaction.photo.findMany({
    where: { id: { in: [...ids] } },
    orderBy: { id: 'asc' },
    select: { id: true, quarterTurns: true },
  })
}

async function handOverOf(transaction: Transaction, jobId: string) {
  const job = await transaction.job.findUniqueOrThrow({
    where: { id: jobId },
    select: { finishedAt: true, soldAt: true, deliveredAt: true },
  })
  return {
    finishedAt: job.finishedAt?.toISOString() ?? null,
    soldAt: job.soldAt?.toISOString() ?? null,
    deliveredAt: job.deliveredAt?.toISOString() ?? null,
  }
}

async function factsOf(transaction: Transaction, jobId: string) {
  const { pieces, ...job } = await transaction.job.findUniqueOrThrow({
    where: { id: jobId },
    select: {
      title: true,
      askingPriceMinor: true,
      collection: true,
      client: true,
      brief: true,
      pieces: {
        orderBy: { id: 'asc' },
        select: {
          id: true,
          name: true,
          kind: true,
          widthMillimetres: true,
          depthMillimetres: true,
          heightMillimetres: true,
          material: true,
          flaws: true,
          style: true,
          age: true,
          ageKnownBy: true,
          hardware: true,
          liner: true,
        },
      },
    },
  })
  return { job, pieces }
}

async function stateOf(
  transaction: Transaction,
  { stepIds, photoIds, ...more }: Reach,
): Promise<KeptState> {
  const steps = await transaction.step.findMany({
    where: { id: { in: [...stepIds] } },
    orderBy: { id: 'asc' },
    select: {
      id: true,
      kind: true,
      productId: true,
      method: true,
      thinningPercent: true,
      grit: true,
      amount: true,
      amountUnit: true,
      weighedBeforeGrams: true,
      weighedAfterGrams: true,
      startedAt: true,
      finishedAt: true,
      note: true,
      createdAt: true,
      surfaces: {
        orderBy: { surfaceId: 'asc' },
        select: { surfaceId: true, coat: true },
      },
      answers: {
        orderBy: [{ rule: 'asc' }, { surfaceId: 'asc' }],
        select: {
          rule: true,
          surfaceId: true,
          answer: true,
          note: true,
          answeredAt: true,
        },
      },
      hours: {
        select: {
          workMinutes: true,
          setUpMinutes: true,
          cleanUpMinutes: true,
          otherPieces: true,
        },
      },
    },
  })
  const photos = await transaction.photo.findMany({
    where: { id: { in: [...photoIds] } },
    orderBy: { id: 'asc' },
    select: {
      id: true,
      stepId: true,
      role: true,
      surfaces: {
        orderBy: { surfaceId: 'asc' },
        select: { surfaceId: true },
      },
    },
  })
  return {
    steps: steps.map((step) => ({
      ...step,
      startedAt: step.startedAt?.toISOString() ?? null,
      finishedAt: step.finishedAt?.toISOString() ?? null,
      createdAt: step.createdAt.toISOString(),
      answers: step.answers.map((answer) => ({
        ...answer,
        answeredAt: answer.answeredAt.toISOString(),
      })),
    })),
    photos: photos.map(({ surfaces, ...photo }) => ({
      ...photo,
      surfaces: surfaces.map((on) => on.surfaceId),
    })),
    ...(more.timesOf && { times: await timesOf(transaction, more.timesOf) }),
    ...(more.wordsOf && { words: await wordsOf(transaction, more.wordsOf) }),
    ...(more.turnsOf && { turns: await turnsOf(transaction, more.turnsOf) }),
    ...(more.handOverOf !== undefined && {
      handOver: await handOverOf(transaction, more.handOverOf),
    }),
    ...(more.factsOf !== undefined && {
      facts: await factsOf(transaction, more.factsOf),
    }),
  }
}

async function whatIsGone(
  transaction: Transaction,
  { steps, photos }: KeptState,
): Promise<Refusal | undefined> {
  const comingBack = new Set(steps.map((step) => step.id))
  const productIds = new Set(steps.flatMap((step) => step.productId ?? []))
  const surfaceIds = new Set([
    ...steps.flatMap((step) => step.surfaces.map((on) => on.surfaceId)),
    ...photos.flatMap((photo) => photo.surfaces),
  ])
  const stepIds = new Set(
    photos
      .flatMap((photo) => photo.stepId ?? [])
      .filter((id) => !comingBack.has(id)),
  )
  const where = (ids: ReadonlySet<string>) => ({ id: { in: [...ids] } })
  const products = await transaction.product.count({ where: where(productIds) })
  const surfaces = await transaction.surface.count({ where: where(surfaceIds) })
  const standing = await transaction.step.count({ where: where(stepIds) })
  if (products < productIds.size) return goneRefusal('a product that it had')
  if (surfaces < surfaceIds.size) return goneRefusal('a surface that it had')
  return standing < stepIds.size
    ? goneRefusal('a step that its photos had')
    : undefined
}

function goneRefusal(what: string): Refusal {
  return {
    kind: 'conflict',
    detail: `It cannot be undone: ${what} is gone.`,
  }
}

async function putBack(
  transaction: Transaction,
  jobId: string,
  before: KeptState,
  after: KeptState,
): Promise<void> {
  await transaction.step.deleteMany({
    where: { id: { in: addedSteps(before, after) }, jobId },
  })
  const standing = new Set(after.steps.map((step) => step.id))
  for (const { surfaces, answers, hours, ...step } of before.steps) {
    const { id: stepId, ...columns } = step
    if (standing.has(stepId)) {
      await transaction.step.update({
        where: { id: stepId },
        data: columns,
        select: { id: true },
      })
      await transaction.stepSurface.deleteMany({ where: { stepId } })
    } else {
      await transaction.step.create({
        data: { ...step, jobId },
        select: { id: true },
      })
      await transaction.ruleAnswer.createMany({
        data: answers.map((answer) => ({ ...answer, jobId, stepId })),
      })
      if (hours !== null) {
        await transaction.stepHours.create({
          data: { ...hours, stepId },
          select: { stepId: true },
        })
      }
    }
    await transaction.stepSurface.createMany({
      data: surfaces.map((on) => ({ ...on, stepId })),
    })
    await settleStep(transaction, stepId)
  }
  for (const { id: photoId, stepId, role, surfaces } of before.photos) {
    await transaction.photo.update({
      where: { id: photoId },
      data: { stepId, role },
      select: { id: true },
    })
    await transaction.photoSurface.deleteMany({ where: { photoId } })
    await transaction.photoSurface.createMany({
      data: surfaces.map((surfaceId) => ({ photoId, surfaceId })),
    })
  }
  for (const { id, ...columns } of [
    ...(before.times ?? []),
    ...(before.words ?? []),
    ...(before.turns ?? []),
  ]) {
    await transaction.photo.update({
      where: { id },
      data: columns,
      select: { id: true },
    })
  }
  if (before.handOver !== undefined) {
    await transaction.job.update({
      where: { id: jobId },
      data: before.handOver,
      select: { id: true },
    })
  }
  if (before.facts === undefined) return
  await transaction.job.update({
    where: { id: jobId },
    data: before.facts.job,
    select: { id: true },
  })
  for (const { id, ...columns } of before.facts.pieces) {
    await transaction.piece.update({
      where: { id },
      data: columns,
      select: { id: true },
    })
  }
}
