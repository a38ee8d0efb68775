import 'server-only'
import { laysFilm } from '#core/journal/coats'
import { longestNote } from '#core/journal/vocabulary'
import { type Refusal, type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import { notInBin } from '#services/bin/bin'
import { settleStep } from '#services/bin/bin-parts'
import { keepChange } from '#services/changes/changes'
import { toDate, toInstant } from '#services/database/instants'
import { newId } from '#services/database/new-id'
import { type Transaction, database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import { noJob } from '#services/jobs/jobs'
import {
  fingerprintOf,
  readReceipt,
  writeReceipt,
} from '#services/receipts/receipts'
import type { NewStep } from '#services/steps/schema'

/** A step as it was kept. */
export type KeptStep = {
  readonly id: string
  readonly kind: string
  readonly product: string | null
  readonly surfaces: readonly {
    readonly id: string
    readonly coat: number | null
  }[]
  readonly startedAt: Instant | null
  readonly finishedAt: Instant | null
  readonly photos: readonly string[]
}

/**
 * Adds a step to a job. Its photos become photos of the step and of its surfaces. Where the kind is counted in coats and
 * no number is given, each surface gets its next one.
 *
 * @param sendingKey the same for each sending of one step: it is added once, and answered as it was the first time
 */
export async function addStep(
  jobId: string,
  step: NewStep,
  now: Instant,
  sendingKey?: string,
): Promise<Result<KeptStep>> {
  const db = await database()
  return db.$transaction((transaction) =>
    once(transaction, { jobId, sendingKey, request: step, now }, () =>
      keepChange(
        transaction,
        { jobId, kind: 'added', now },
        { stepIds: [], photoIds: step.photos ?? [] },
        () => createStep(transaction, jobId, step, now),
        (added) => [added.id],
      ),
    ),
  )
}

/** Adds a step as part of a larger change, which keeps by itself what it takes to undo it. */
export async function createStep(
  transaction: Transaction,
  jobId: string,
  step: NewStep,
  now: Instant,
): Promise<Result<KeptStep>> {
  const refusal = await whyNot(transaction, jobId, step)
  if (refusal !== undefined) return refused(refusal)
  const id = newId()
  await transaction.step.create({
    data: {
      id,
      jobId,
      createdAt: toDate(now),
      ...toColumns(step),
    },
    select: { id: true },
  })
  await placeSurfaces(transaction, id, step, new Map())
  await placePhotosOnStep(
    transaction,
    id,
    [...new Set(step.surfaces)],
    [...new Set(step.photos ?? [])],
  )
  await settleStep(transaction, id)
  await touchJob(transaction, jobId)
  return ok(await readStep(transaction, id))
}

/**
 * Changes all that a step says. Its photos stay with it unless others are named; photos that are no longer named are let
 * go, not removed. A photo keeps its role and the surfaces that it shows, except where the step's own surfaces change.
 */
export async function changeStep(
  jobId: string,
  stepId: string,
  step: NewStep,
  now: Instant,
): Promise<Result<KeptStep>> {
  const db = await database()
  return db.$transaction((transaction) =>
    keepChange(
      transaction,
      { jobId, kind: 'changed', now },
      { stepIds: [stepId], photoIds: step.photos ?? [] },
      () => writeStep(transaction, jobId, stepId, step),
    ),
  )
}

async function writeStep(
  transaction: Transaction,
  jobId: string,
  stepId: string,
  step: NewStep,
): Promise<Result<KeptStep>> {
  const found = await transaction.step.findFirst({
    where: { id: stepId, jobId },
    select: {
      kind: true,
      surfaces: {
        where: { surface: notInBin },
        select: { surfaceId: true, coat: true },
      },
      photos: { where: notInBin, select: { id: true } },
    },
  })
  if (found === null) return noStep
  const refusal = await whyNot(transaction, jobId, step)
  if (refusal !== undefined) return refused(refusal)
  await transaction.step.update({
    where: { id: stepId },
    data: toColumns(step),
    select: { id: true },
  })
  const before = found.surfaces.map((on) => on.surfaceId)
  const after = [...new Set(step.surfaces)]
  // A surface in the bin is in no form; it comes back with its steps.
  await transaction.stepSurface.deleteMany({
    where: { stepId, surface: notInBin },
  })
  // Where no number is given, a surface that had this kind of coat keeps its number: later coats count on it.
  const numbers =
    found.kind === step.kind
      ? new Map(found.surfaces.map((on) => [on.surfaceId, on.coat]))
      : new Map<string, number | null>()
  await placeSurfaces(transaction, stepId, step, numbers)
  const had = found.photos.map((photo) => photo.id)
  const named = step.photos === undefined ? had : [...new Set(step.photos)]
  await transaction.photo.updateMany({
    where: { stepId, id: { notIn: named }, ...notInBin },
    data: { stepId: null },
  })
  const kept = named.filter((id) => had.includes(id))
  const added = named.filter((id) => !had.includes(id))
  if (!sameIds(before, after)) {
    await showSurfaces(transaction, after, kept)
  }
  await placePhotosOnStep(transaction, stepId, after, added)
  await settleStep(transaction, stepId)
  await touchJob(transaction, jobId)
  return ok(await readStep(transaction, stepId))
}

function sameIds(one: readonly string[], other: readonly string[]): boolean {
  return one.length === other.length && one.every((id) => other.includes(id))
}

/** One step of a job. */
export async function readStepOf(
  jobId: string,
  stepId: string,
): Promise<Result<KeptStep>> {
  const db = await database()
  const found = await db.step.findFirst({
    where: { id: stepId, jobId, ...notInBin },
    select: { id: true },
  })
  return found === null ? noStep : ok(await readStep(db, stepId))
}

/**
 * Adds a line to the note of a step, as a change that can be undone; once, however often it comes under one sending key.
 *
 * @returns the step with its note
 */
export async function addToNote(
  jobId: string,
  stepId: string,
  words: string,
  now: Instant,
  sendingKey?: string,
): Promise<Result<KeptStep>> {
  const db = await database()
  return db.$transaction((transaction) =>
    once(
      transaction,
      { jobId, sendingKey, request: ['note', stepId, words], now },
      () =>
        keepChange(
          transaction,
          { jobId, kind: 'changed', now },
          { stepIds: [stepId], photoIds: [] },
          () => lengthenNote(transaction, jobId, stepId, words),
        ),
    ),
  )
}

async function lengthenNote(
  transaction: Transaction,
  jobId: string,
  stepId: string,
  words: string,
): Promise<Result<KeptStep>> {
  const step = await transaction.step.findFirst({
    where: { id: stepId, jobId, ...notInBin },
    select: { note: true },
  })
  if (step === null) return noStep
  const note = [step.note ?? '', words.trim()]
    .filter((line) => line !== '')
    .join('\n')
  if (note.length > longestNote) return tooLong
  await transaction.step.update({
    where: { id: stepId },
    data: { note: note === '' ? null : note },
    select: { id: true },
  })
  await touchJob(transaction, jobId)
  return ok(await readStep(transaction, stepId))
}

/** Does what is asked unless it was done before under the same sending key; then it is answered as it was then. */
async function once(
  transaction: Transaction,
  asked: {
    readonly jobId: string
    readonly sendingKey: string | undefined
    readonly request: unknown
    readonly now: Instant
  },
  work: () => Promise<Result<KeptStep>>,
): Promise<Result<KeptStep>> {
  const { jobId, sendingKey, request, now } = asked
  if (sendingKey === undefined) return work()
  const sending = {
    key: sendingKey,
    part: 0,
    jobId,
    fingerprint: fingerprintOf(request),
  }
  const before = await readReceipt(transaction, sending)
  if (!before.ok) return before
  // Ours, as it was answered the first time.
  if (before.value !== undefined) return ok(before.value as KeptStep)
  const done = await work()
  if (done.ok) await writeReceipt(transaction, sending, done.value, now)
  return done
}

const tooLong = refused({
  kind: 'invalid',
  detail: 'With that the note is longer than 2,000 characters. Shorten it.',
} as const)

/** Takes a step out of a job. Its photos stay, and show what they showed. */
export async function removeStep(
  jobId: string,
  stepId: string,
  now: Instant,
): Promise<Result<undefined>> {
  const db = await database()
  return db.$transaction((transaction) =>
    keepChange(
      transaction,
      { jobId, kind: 'removed', now },
      { stepIds: [stepId], photoIds: [] },
      async () => {
        const { count } = await transaction.step.deleteMany({
          where: { id: stepId, jobId },
        })
        if (count === 0) return noStep
        await touchJob(transaction, jobId)
        return ok(undefined)
      },
    ),
  )
}

const noStep = refused({
  kind: 'not-found',
  detail: 'There is no such step in this job. It may have been removed.',
} as const)

function toColumns(step: NewStep) {
  return {
    kind: step.kind,
    productId: step.product ?? null,
    method: step.method ?? null,
    thinningPercent: step.thinningPercent ?? null,
    grit: step.grit ?? null,
    amount: step.amount?.value ?? null,
    amountUnit: step.amount?.unit ?? null,
    weighedBeforeGrams: step.weighed?.beforeGrams ?? null,
    weighedAfterGrams: step.weighed?.afterGrams ?? null,
    startedAt: step.startedAt === undefined ? null : toDate(step.startedAt),
    finishedAt: step.finishedAt === undefined ? null : toDate(step.finishedAt),
    note: step.note === undefined || step.note === '' ? null : step.note,
  }
}

async function whyNot(
  transaction: Transaction,
  jobId: string,
  step: NewStep,
): Promise<Refusal | undefined> {
  const job = await transaction.job.findUnique({
    where: { id: jobId },
    select: { id: true },
  })
  if (job === null) return noJob.refusal
  const surfaceIds = [...new Set(step.surfaces)]
  const surfaces = await transaction.surface.count({
    where: { id: { in: surfaceIds }, piece: { jobId } },
  })
  if (surfaces !== surfaceIds.length) {
    return {
      kind: 'invalid',
      detail: 'One of the surfaces is not part of this job. Choose them again.',
    }
  }
  if (step.product !== undefined) {
    const product = await transaction.product.findUnique({
      where: { id: step.product },
      select: { id: true },
    })
    if (product === null) {
      return {
        kind: 'invalid',
        detail: 'That product is not on the shelf. Choose another or add it.',
      }
    }
  }
  const photoIds = [...new Set(step.photos ?? [])]
  const photos = await transaction.photo.count({
    where: { id: { in: photoIds }, jobId, ...notInBin },
  })
  return photos === photoIds.length
    ? undefined
    : {
        kind: 'invalid',
        detail: 'One of the photos is not part of this job. Choose them again.',
      }
}

async function placeSurfaces(
  transaction: Transaction,
  stepId: string,
  step: NewStep,
  numbers: ReadonlyMap<string, number | null>,
): Promise<void> {
  const surfaceIds = [...new Set(step.surfaces)]
  const coats = await coatsFor(transaction, stepId, step, surfaceIds)
  await transaction.stepSurface.createMany({
    data: surfaceIds.map((surfaceId) => ({
      stepId,
      surfaceId,
      coat:
        (step.coat === undefined ? numbers.get(surfaceId) : undefined) ??
        coats.get(surfaceId) ??
        null,
    })),
  })
}

/** Makes photos show a step and its surfaces. */
export async function placePhotosOnStep(
  transaction: Transaction,
  stepId: string,
  surfaceIds: readonly string[],
  photoIds: readonly string[],
): Promise<void> {
  if (photoIds.length === 0) return
  await transaction.photo.updateMany({
    where: { id: { in: [...photoIds] } },
    data: { stepId, role: 'progress' },
  })
  await showSurfaces(transaction, surfaceIds, photoIds)
}

/** Makes photos show these surfaces and no others. */
export async function showSurfaces(
  transaction: Transaction,
  surfaceIds: readonly string[],
  photoIds: readonly string[],
): Promise<void> {
  await transaction.photoSurface.deleteMany({
    where: { photoId: { in: [...photoIds] }, surface: notInBin },
  })
  await transaction.photoSurface.createMany({
    data: photoIds.flatMap((photoId) =>
      surfaceIds.map((surfaceId) => ({ photoId, surfaceId })),
    ),
  })
}

async function coatsFor(
  transaction: Transaction,
  stepId: string,
  step: NewStep,
  surfaceIds: readonly string[],
): Promise<ReadonlyMap<string, number>> {
  const given = step.coat
  if (given !== undefined) return new Map(surfaceIds.map((id) => [id, given]))
  if (!laysFilm(step.kind, step.product)) return new Map()
  const highest = await transaction.stepSurface.groupBy({
    by: ['surfaceId'],
    where: {
      surfaceId: { in: [...surfaceIds] },
      step: { kind: step.kind, id: { not: stepId } },
    },
    _max: { coat: true },
  })
  const numbers = new Map(
    highest.map((row) => [row.surfaceId, row._max.coat ?? 0]),
  )
  return new Map(surfaceIds.map((id) => [id, (numbers.get(id) ?? 0) + 1]))
}

async function readStep(
  transaction: Transaction,
  id: string,
): Promise<KeptStep> {
  const row = await transaction.step.findUniqueOrThrow({
    where: { id },
    select: {
      id: true,
      kind: true,
      productId: true,
      startedAt: true,
      finishedAt: true,
      surfaces: {
        where: { surface: notInBin },
        select: { surfaceId: true, coat: true },
      },
      photos: {
        where: notInBin,
        orderBy: { takenAt: 'asc' },
        select: { id: true },
      },
    },
  })
  return {
    id: row.id,
    kind: row.kind,
    product: row.productId,
    surfaces: row.surfaces.map((on) => ({ id: on.surfaceId, coat: on.coat })),
    startedAt: row.startedAt === null ? null : toInstant(row.startedAt),
    finishedAt: row.finishedAt === null ? null : toInstant(row.finishedAt),
    photos: row.photos.map((photo) => photo.id),
  }
}
