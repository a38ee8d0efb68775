import 'server-only'
import { type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import { notInBin } from '#services/bin/bin'
import { keepChange } from '#services/changes/changes'
import { now } from '#services/clock'
import { toDate, toInstant } from '#services/database/instants'
import { newId } from '#services/database/new-id'
import { type Transaction, database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import type { JobFacts, NewJob, NewPiece } from '#services/jobs/schema'

/** A job in a list. */
export type JobSummary = {
  readonly id: string
  readonly title: string
  readonly createdAt: Instant
  readonly finishedAt: Instant | null
  readonly photoCount: number
  readonly stepCount: number
  readonly pieces: readonly {
    readonly id: string
    readonly name: string
    readonly kind: string
  }[]
  /** What it is shown by: an after where there is one, else what was taken last of the work. */
  readonly coverPhotoId: string | null
}

/** A job with its pieces and surfaces. */
export type JobOutline = {
  readonly id: string
  readonly title: string
  readonly createdAt: Instant
  readonly finishedAt: Instant | null
  readonly pieces: readonly {
    readonly id: string
    readonly name: string
    readonly kind: string
    readonly surfaces: readonly { readonly id: string; readonly name: string }[]
  }[]
}

const outline = {
  id: true,
  title: true,
  createdAt: true,
  finishedAt: true,
  pieces: {
    where: notInBin,
    orderBy: { position: 'asc' },
    select: {
      id: true,
      name: true,
      kind: true,
      surfaces: {
        where: notInBin,
        orderBy: { position: 'asc' },
        select: { id: true, name: true },
      },
    },
  },
} as const

/** The refusal for an id that no job has. */
export const noJob = refused({
  kind: 'not-found',
  detail:
    'There is no such job. It may be in the bin: look under Workshop, and bring it back.',
} as const)

/** Starts a job with its pieces and their surfaces. */
export async function addJob(job: NewJob, now: Instant): Promise<JobOutline> {
  const db = await database()
  const id = newId()
  await db.$transaction(async (transaction) => {
    await transaction.job.create({
      data: { id, title: job.title, createdAt: toDate(now) },
      select: { id: true },
    })
    for (const [position, piece] of job.pieces.entries()) {
      await createPiece(transaction, id, position, piece)
    }
  })
  const added = await readJob(id)
  if (added === undefined) throw new Error(`the job ${id} was not kept`)
  return added
}

/** Adds a piece to a job that is under way. */
export async function addPiece(
  jobId: string,
  piece: NewPiece,
): Promise<Result<JobOutline>> {
  const db = await database()
  const added = await db.$transaction(async (transaction) => {
    const job = await transaction.job.findUnique({
      where: { id: jobId },
      select: { _count: { select: { pieces: true } } },
    })
    if (job === null) return noJob
    await createPiece(transaction, jobId, job._count.pieces, piece)
    await touchJob(transaction, jobId)
    return ok(undefined)
  })
  if (!added.ok) return added
  const job = await readJob(jobId)
  return job === undefined ? noJob : ok(job)
}

/** Adds a surface to a piece of a job. */
export async function addSurface(
  jobId: string,
  pieceId: string,
  name: string,
): Promise<Result<{ readonly id: string; readonly name: string }>> {
  const db = await database()
  return db.$transaction(async (transaction) => {
    const piece = await transaction.piece.findFirst({
      where: { id: pieceId, jobId, ...notInBin },
      select: { surfaces: { select: { name: true, removedAt: true } } },
    })
    if (piece === null) {
      return refused({
        kind: 'not-found',
        detail: 'There is no such piece in this job.',
      })
    }
    const taken = piece.surfaces.find(
      (one) => one.name.toLowerCase() === name.toLowerCase(),
    )
    if (taken !== undefined) {
      return refused({
        kind: 'conflict',
        detail:
          taken.removedAt === null
            ? `This piece has a surface "${name}" already.`
            : `A surface "${name}" of this piece is in the bin. Bring it back from there.`,
      })
    }
    const surface = await transaction.surface.create({
      data: { id: newId(), pieceId, position: piece.surfaces.length, name },
      select: { id: true, name: true },
    })
    await touchJob(transaction, jobId)
    return ok(surface)
  })
}

/** One job with its pieces and surfaces, or undefined when there is none with this id. */
export async function readJob(id: string): Promise<JobOutline | undefined> {
  const db = await database()
  const row = await db.job.findUnique({
    where: { id, ...notInBin },
    select: outline,
  })
  if (row === null) return undefined
  return {
    ...row,
    createdAt: toInstant(row.createdAt),
    finishedAt: row.finishedAt === null ? null : toInstant(row.finishedAt),
  }
}

/**
 * Jobs, the newest first, a page at a time.
 *
 * @param after the `next` of the page before
 * @param size 1 to 100
 * @returns `next` is absent on the last page
 */
export async function readJobs(
  after: string | undefined,
  size: number,
): Promise<{ readonly jobs: readonly JobSummary[]; readonly next?: string }> {
  const db = await database()
  const rows = await db.job.findMany({
    where: notInBin,
    orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
    take: size + 1,
    ...(after === undefined ? {} : { cursor: { id: after } }),
    select: {
      id: true,
      title: true,
      createdAt: true,
      finishedAt: true,
      pieces: {
        where: notInBin,
        orderBy: { position: 'asc' },
        select: { id: true, name: true, kind: true },
      },
    },
  })
  const page = rows.slice(0, size)
  const ids = page.map((row) => row.id)
  const photoCounts = await countPhotos(ids)
  const stepCounts = await countSteps(ids)
  const covers = await readCovers(ids)
  const next = rows[size]
  const jobs = page.map((row) => ({
    id: row.id,
    title: row.title,
    createdAt: toInstant(row.createdAt),
    finishedAt: row.finishedAt === null ? null : toInstant(row.finishedAt),
    photoCount: photoCounts.get(row.id) ?? 0,
    stepCount: stepCounts.get(row.id) ?? 0,
    pieces: row.pieces,
    coverPhotoId: covers.get(row.id) ?? null,
  }))
  return next === undefined ? { jobs } : { jobs, next: next.id }
}

// Counted for the page alone: a count inside the query above would count the whole table.
async function countPhotos(
  jobIds: readonly string[],
): Promise<ReadonlyMap<string, number>> {
  const db = await database()
  const rows = await db.photo.groupBy({
    by: ['jobId'],
    where: { jobId: { in: [...jobIds] }, ...notInBin },
    _count: true,
  })
  return new Map(rows.map((row) => [row.jobId, row._count]))
}

async function countSteps(
  jobIds: readonly string[],
): Promise<ReadonlyMap<string, number>> {
  const db = await database()
  const rows = await db.step.groupBy({
    by: ['jobId'],
    where: { jobId: { in: [...jobIds] }, ...notInBin },
    _count: true,
  })
  return new Map(rows.map((row) => [row.jobId, row._count]))
}

/**
 * What each job is shown by: the after of its first pair, which shows the piece as the first before does; else its first
 * after, else what was taken last of the work, else its first before.
 */
async function readCovers(
  jobIds: readonly string[],
): Promise<ReadonlyMap<string, string>> {
  const db = await database()
  const where = { jobId: { in: [...jobIds] }, ...notInBin }
  // Who goes round a piece begins with its front.
  const firsts = await db.photo.findMany({
    where: { ...where, role: { in: ['before', 'after'] } },
    distinct: ['jobId', 'role'],
    orderBy: [{ takenAt: 'asc' }, { id: 'asc' }],
    select: { id: true, jobId: true, role: true },
  })
  const latest = await db.photo.findMany({
    where: { ...where, role: 'progress' },
    distinct: ['jobId'],
    orderBy: [{ takenAt: 'desc' }, { id: 'desc' }],
    select: { id: true, jobId: true },
  })
  const pairs = await db.pair.findMany({
    where: {
      jobId: { in: [...jobIds] },
      how: { in: ['computed', 'by-hand'] },
      separatedAt: null,
      before: { role: 'before', ...notInBin },
      after: { role: 'after', ...notInBin },
    },
    distinct: ['jobId'],
    orderBy: [{ before: { takenAt: 'asc' } }, { id: 'asc' }],
    select: { jobId: true, afterId: true },
  })
  const of = (role: string) => firsts.filter((row) => row.role === role)
  return new Map([
    ...of('before').map((row) => [row.jobId, row.id] as const),
    ...latest.map((row) => [row.jobId, row.id] as const),
    ...of('after').map((row) => [row.jobId, row.id] as const),
    ...pairs.map((row) => [row.jobId, row.afterId] as const),
  ])
}

/** Keeps what is told of a job and its pieces: title, price, sizes, material, flaws. */
export async function changeJobFacts(
  jobId: string,
  facts: JobFacts,
  at: Instant = now(),
): Promise<Result<undefined>> {
  const db = await database()
  return db.$transaction(async (transaction) => {
    const job = await transaction.job.findUnique({
      where: { id: jobId },
      select: { pieces: { select: { id: true } } },
    })
    if (job === null) return noJob
    const known = new Set(job.pieces.map((piece) => piece.id))
    // A refusal commits what was written before it, so everything is checked first.
    if (!facts.pieces.every((piece) => known.has(piece.id))) {
      return refused({
        kind: 'not-found',
        detail: 'There is no such piece in this job.',
      })
    }
    return keepChange(
      transaction,
      { jobId, kind: 'facts-told', now: at },
      { stepIds: [], photoIds: [], factsOf: jobId },
      async () => {
        for (const piece of facts.pieces) {
          await transaction.piece.update({
            where: { id: piece.id },
            data: {
              name: piece.name,
              kind: piece.kind,
              material: piece.material,
              flaws: piece.flaws,
              style: piece.style,
              age: piece.age,
              ageKnownBy: piece.ageKnownBy,
              hardware: piece.hardware,
              liner: piece.liner,
              ...piece.dimensions,
            },
            select: { id: true },
          })
        }
        await transaction.job.update({
          where: { id: jobId },
          data: {
            title: facts.title,
            askingPriceMinor: facts.askingPriceMinor,
            collection: facts.collection,
            client: facts.client,
            brief: facts.brief,
          },
          select: { id: true },
        })
        await touchJob(transaction, jobId)
        return ok(undefined)
      },
    )
  })
}

async function createPiece(
  transaction: Transaction,
  jobId: string,
  position: number,
  piece: NewPiece,
): Promise<void> {
  const { dimensions, surfaces, name, kind } = piece
  await transaction.piece.create({
    data: {
      id: newId(),
      jobId,
      position,
      name,
      kind,
      ...(dimensions ?? {}),
      surfaces: {
        create: surfaces.map((surface, index) => ({
          id: newId(),
          position: index,
          name: surface,
        })),
      },
    },
    select: { id: true },
  })
}
