import 'server-only'
import { type StepKind, stepKinds } from '#core/journal/vocabulary'
import { type Refusal, type Result, ok, refused } from '#core/result'
import { type Instant, addMinutes, minutesPerDay } from '#core/units'
import { settleStep } from '#services/bin/bin-parts'
import {
  type ChangeKind,
  type KeptState,
  changeKinds,
  keptState,
} from '#services/changes/schema'
import { toDate, toInstant } from '#services/database/instants'
import { newId } from '#services/database/new-id'
import { type Transaction, database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'

/** A change that can be undone, told by its step: as the change left it, or as it was when it was removed. */
export type LastChange = {
  readonly id: string
  readonly kind: ChangeKind
  readonly changedAt: Instant
  readonly stepKind: StepKind
  readonly surfaceIds: readonly string[]
}

/** What a change reaches: nobody else's photos and steps are looked at. */
type Reach = {
  readonly stepIds: readonly string[]
  readonly photoIds: readonly string[]
}

/**
 * Does something to steps and keeps what they were, in the same transaction, so that it can be undone. What is refused,
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
  const before = await stateOf(transaction, {
    stepIds: reach.stepIds,
    photoIds,
  })
  const done = await change()
  if (!done.ok) return done
  const after = await stateOf(transaction, {
    stepIds: [...reach.stepIds, ...added(done.value)],
    photoIds,
  })
  const texts = { before: JSON.stringify(before), after: JSON.stringify(after) }
  if (texts.before !== texts.after) {
    await transaction.change.create({
      data: {
        id: newId(),
        jobId: about.jobId,
        kind: about.kind,
        changedAt: toDate(about.now),
        ...texts,
      },
      select: { id: true },
    })
  }
  return done
}

/** For so long a page offers to undo a change; the record itself stays. */
const offeredDays = 30

/**
 * The last change to the steps of a job that has not been undone, where undoing it would be accepted as things stand;
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
      changedAt: { gte: toDate(addMinutes(now, -offeredDays * minutesPerDay)) },
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
    placedSince === 0 && (await whyNotUndo(db, before, after)) === undefined
  if (
    !isOffered ||
    step === undefined ||
    kind === undefined ||
    stepKind === undefined
  )
    return undefined
  return {
    id: row.id,
    kind,
    changedAt: toInstant(row.changedAt),
    stepKind,
    surfaceIds: step.surfaces.map((on) => on.surfaceId),
  }
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
  return db.$transaction(async (transaction) => {
    const row = await transaction.change.findFirst({
      where: { id: changeId, jobId },
      select: { undoneAt: true, before: true, after: true },
    })
    if (row === null) return refused(noChange)
    if (row.undoneAt !== null) return refused(undoneBefore)
    const before = readState(row.before)
    const after = readState(row.after)
    const refusal = await whyNotUndo(transaction, before, after)
    if (refusal !== undefined) return refused(refusal)
    await putBack(transaction, jobId, before, after)
    await transaction.change.update({
      where: { id: changeId },
      data: { undoneAt: toDate(now) },
      select: { id: true },
    })
    await touchJob(transaction, jobId)
    return ok(undefined)
  })
}

const noChange: Refusal = {
  kind: 'not-found',
  detail: 'There is no such change in this job.',
}
const undoneBefore: Refusal = {
  kind: 'conflict',
  detail: 'It has been undone already.',
}
const changedSince: Refusal = {
  kind: 'conflict',
  detail:
    'It cannot be undone: its steps or photos were changed again since. Undo what came later first, or open the step and mend it there.',
}

function readState(text: string): KeptState {
  return keptState.parse(JSON.parse(text))
}

async function whyNotUndo(
  transaction: Transaction,
  before: KeptState,
  after: KeptState,
): Promise<Refusal | undefined> {
  const reach = reachOf(before, after)
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

function reachOf(before: KeptState, after: KeptState): Reach {
  const steps = [...before.steps, ...after.steps]
  return {
    stepIds: [...new Set(steps.map((step) => step.id))],
    photoIds: after.photos.map((photo) => photo.id),
  }
}

async function stateOf(
  transaction: Transaction,
  { stepIds, photoIds }: Reach,
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
}
