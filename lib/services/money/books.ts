import 'server-only'
import type { z } from 'zod'
import { type JobBooks, costKinds } from '#core/money/job-books'
import { type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import { notInBin } from '#services/bin/bin'
import { present, toDate } from '#services/database/instants'
import { newId } from '#services/database/new-id'
import { type Transaction, database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import { noJob } from '#services/jobs/jobs'
import type {
  CorrectedHours,
  NewCost,
  NewWork,
  saleFacts,
} from '#services/money/schema'

const noBooks: JobBooks = { costs: [], work: [], hours: [], sale: {} }

/**
 * What is written down of the money of some jobs, by the id of the job; every job has an entry. The number of queries
 * does not depend on the number of jobs.
 */
export async function readBooks(
  jobIds: readonly string[],
): Promise<ReadonlyMap<string, JobBooks>> {
  const db = await database()
  const ids = [...jobIds]
  const inJobs = { where: { jobId: { in: ids } } }
  // What was paid and done for a piece is in the bin with it.
  const inUse = {
    where: {
      jobId: { in: ids },
      OR: [{ pieceId: null }, { piece: notInBin }],
    },
  }
  const [costs, work, hours, sales] = [
    await db.costEntry.findMany({
      ...inUse,
      select: {
        id: true,
        jobId: true,
        kind: true,
        words: true,
        quantity: true,
        eachMinor: true,
        pieceId: true,
        createdAt: true,
      },
    }),
    await db.workEntry.findMany({
      ...inUse,
      select: {
        id: true,
        jobId: true,
        words: true,
        minutes: true,
        pieceId: true,
        createdAt: true,
      },
    }),
    await db.stepHours.findMany({
      where: { step: { jobId: { in: ids }, ...notInBin } },
      select: {
        stepId: true,
        workMinutes: true,
        setUpMinutes: true,
        cleanUpMinutes: true,
        otherPieces: true,
        step: { select: { jobId: true } },
      },
    }),
    await db.sale.findMany({
      ...inJobs,
      select: {
        jobId: true,
        priceMinor: true,
        feesPaidMinor: true,
        taxMinor: true,
        feePercent: true,
        feeFixedMinor: true,
      },
    }),
  ]
  const books = new Map<string, JobBooks>(ids.map((id) => [id, noBooks]))
  const add = (
    jobId: string,
    more: (before: JobBooks) => Partial<JobBooks>,
  ) => {
    const before = books.get(jobId) ?? noBooks
    books.set(jobId, { ...before, ...more(before) })
  }
  for (const row of costs.toSorted(inOrder)) {
    add(row.jobId, (before) => ({
      costs: [
        ...before.costs,
        {
          id: row.id,
          kind: costKinds.find((one) => one === row.kind) ?? 'other',
          words: row.words,
          quantity: row.quantity,
          eachMinor: row.eachMinor,
          ...present({ pieceId: row.pieceId }),
        },
      ],
    }))
  }
  for (const row of work.toSorted(inOrder)) {
    add(row.jobId, (before) => ({
      work: [
        ...before.work,
        {
          id: row.id,
          words: row.words,
          minutes: row.minutes,
          ...present({ pieceId: row.pieceId }),
        },
      ],
    }))
  }
  for (const { step, stepId, otherPieces, ...corrected } of hours) {
    add(step.jobId, (before) => ({
      hours: [...before.hours, { stepId, otherPieces, ...present(corrected) }],
    }))
  }
  for (const { jobId, ...sale } of sales) {
    add(jobId, () => ({ sale: present(sale) }))
  }
  return books
}

function inOrder(
  one: { readonly createdAt: Date; readonly id: string },
  other: { readonly createdAt: Date; readonly id: string },
): number {
  return (
    one.createdAt.getTime() - other.createdAt.getTime() ||
    (one.id < other.id ? -1 : 1)
  )
}

/** Writes down a cost of a job. */
export async function addCost(
  jobId: string,
  cost: NewCost,
  now: Instant,
): Promise<Result<string>> {
  return inJob(jobId, cost.piece, async (transaction) => {
    const id = newId()
    await transaction.costEntry.create({
      data: {
        id,
        jobId,
        kind: cost.kind,
        words: cost.words,
        quantity: cost.quantity,
        eachMinor: cost.eachMinor,
        pieceId: cost.piece ?? null,
        createdAt: toDate(now),
      },
      select: { id: true },
    })
    return ok(id)
  })
}

/** Takes a cost out of a job's books. */
export async function removeCost(
  jobId: string,
  costId: string,
): Promise<Result<undefined>> {
  return inJob(jobId, undefined, async (transaction) => {
    const { count } = await transaction.costEntry.deleteMany({
      where: { id: costId, jobId },
    })
    return count === 0 ? noEntry : ok(undefined)
  })
}

/** Writes down work on a job that is no step. */
export async function addWork(
  jobId: string,
  work: NewWork,
  now: Instant,
): Promise<Result<string>> {
  return inJob(jobId, work.piece, async (transaction) => {
    const id = newId()
    await transaction.workEntry.create({
      data: {
        id,
        jobId,
        words: work.words,
        minutes: work.minutes,
        pieceId: work.piece ?? null,
        createdAt: toDate(now),
      },
      select: { id: true },
    })
    return ok(id)
  })
}

/** Takes work that is no step out of a job's books. */
export async function removeWork(
  jobId: string,
  workId: string,
): Promise<Result<undefined>> {
  return inJob(jobId, undefined, async (transaction) => {
    const { count } = await transaction.workEntry.deleteMany({
      where: { id: workId, jobId },
    })
    return count === 0 ? noEntry : ok(undefined)
  })
}

/** Keeps the hours of steps as the owner corrected them; of a step without any correction none are kept. */
export async function correctHours(
  jobId: string,
  corrections: readonly CorrectedHours[],
): Promise<Result<undefined>> {
  return inJob(jobId, undefined, async (transaction) => {
    const ids = [...new Set(corrections.map(({ step }) => step))]
    const known = await transaction.step.count({
      where: { id: { in: ids }, jobId },
    })
    if (known !== ids.length) return noStep
    await transaction.stepHours.deleteMany({ where: { stepId: { in: ids } } })
    await transaction.stepHours.createMany({
      data: corrections
        .filter(
          (one, index) =>
            isCorrected(one) &&
            corrections.findLastIndex(({ step }) => step === one.step) ===
              index,
        )
        .map(({ step, ...hours }) => ({
          stepId: step,
          workMinutes: hours.workMinutes ?? null,
          setUpMinutes: hours.setUpMinutes ?? null,
          cleanUpMinutes: hours.cleanUpMinutes ?? null,
          otherPieces: hours.otherPieces,
        })),
    })
    return ok(undefined)
  })
}

function isCorrected(hours: CorrectedHours): boolean {
  return (
    hours.workMinutes !== undefined ||
    hours.setUpMinutes !== undefined ||
    hours.cleanUpMinutes !== undefined ||
    hours.otherPieces > 0
  )
}

/** Keeps what a job was sold for and what selling costs; what is left out is forgotten. */
export async function changeSale(
  jobId: string,
  sale: z.output<typeof saleFacts>,
): Promise<Result<undefined>> {
  return inJob(jobId, undefined, async (transaction) => {
    const values = {
      priceMinor: sale.priceMinor ?? null,
      feesPaidMinor: sale.feesPaidMinor ?? null,
      taxMinor: sale.taxMinor ?? null,
      feePercent: sale.feePercent ?? null,
      feeFixedMinor: sale.feeFixedMinor ?? null,
    }
    await transaction.sale.upsert({
      where: { jobId },
      create: { jobId, ...values },
      update: values,
      select: { jobId: true },
    })
    return ok(undefined)
  })
}

const noEntry = refused({
  kind: 'not-found',
  detail: 'There is no such entry in the books. It may have been removed.',
} as const)

const noStep = refused({
  kind: 'not-found',
  detail: 'There is no such step in this job. It may have been removed.',
} as const)

/** Changes the books of a job in one transaction, where the job and the piece are there. */
async function inJob<T>(
  jobId: string,
  pieceId: string | undefined,
  change: (transaction: Transaction) => Promise<Result<T>>,
): Promise<Result<T>> {
  const db = await database()
  return db.$transaction(async (transaction) => {
    const job = await transaction.job.findUnique({
      where: { id: jobId },
      select: { pieces: { select: { id: true } } },
    })
    if (job === null) return noJob
    if (pieceId !== undefined && !job.pieces.some(({ id }) => id === pieceId)) {
      return refused({
        kind: 'invalid',
        detail: 'That piece is not part of this job. Choose another.',
      })
    }
    const changed = await change(transaction)
    if (changed.ok) await touchJob(transaction, jobId)
    return changed
  })
}
