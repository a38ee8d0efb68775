import 'server-only'
import { type Refusal, type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import {
  inBin,
  notInBin,
  readLeaving,
  removePhoto,
  restorePhoto,
} from '#services/bin/bin'
import { type BinnedKind } from '#services/bin/schema'
import { toDate, toInstant } from '#services/database/instants'
import { type Transaction, database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'

/** Something of a job, or a job itself, by what it is. */
export type BinPlace = {
  readonly kind: BinnedKind
  readonly jobId: string
  /** Of a job: its own id again. */
  readonly id: string
}

/** A job, a piece or a surface in the bin. */
export type BinnedPart = {
  readonly kind: Exclude<BinnedKind, 'photo'>
  readonly id: string
  readonly jobId: string
  readonly jobTitle: string
  /** As one names it: the title of a job, the name of a piece, a surface with its piece. */
  readonly name: string
  readonly removedAt: Instant
  /** When it goes for good; absent while the bin keeps everything. */
  readonly goesAt?: Instant
}

const mostShown = 500

/**
 * The jobs, pieces and surfaces in the bin, the last removed first. What went in with something larger is not told by
 * itself: it comes back with it.
 *
 * @param jobId of this job alone
 */
export async function readBinnedParts(
  jobId?: string,
): Promise<readonly BinnedPart[]> {
  const db = await database()
  const leaving = await readLeaving()
  const [jobs, pieces, surfaces] = [
    await db.job.findMany({
      where: { ...inBin, ...(jobId === undefined ? {} : { id: jobId }) },
      orderBy: { removedAt: 'desc' },
      take: mostShown,
      select: { id: true, title: true, removedAt: true },
    }),
    await db.piece.findMany({
      where: {
        ...inBin,
        job: { ...notInBin, ...(jobId === undefined ? {} : { id: jobId }) },
      },
      orderBy: { removedAt: 'desc' },
      take: mostShown,
      select: {
        id: true,
        name: true,
        removedAt: true,
        job: { select: { id: true, title: true } },
      },
    }),
    await db.surface.findMany({
      where: {
        ...inBin,
        piece: {
          ...notInBin,
          job: { ...notInBin, ...(jobId === undefined ? {} : { id: jobId }) },
        },
      },
      orderBy: { removedAt: 'desc' },
      take: mostShown,
      select: {
        id: true,
        name: true,
        removedAt: true,
        piece: {
          select: { name: true, job: { select: { id: true, title: true } } },
        },
      },
    }),
  ]
  return [
    ...jobs.map(({ id, title, removedAt }) => ({
      kind: 'job' as const,
      id,
      name: title,
      job: { id, title },
      removedAt,
    })),
    ...pieces.map((row) => ({ kind: 'piece' as const, ...row })),
    ...surfaces.map(({ id, name, piece, removedAt }) => ({
      kind: 'surface' as const,
      id,
      name: `${piece.name}, ${name}`,
      job: piece.job,
      removedAt,
    })),
  ]
    .flatMap(({ job, removedAt, ...part }) =>
      removedAt === null
        ? []
        : {
            ...part,
            jobId: job.id,
            jobTitle: job.title,
            ...leaving(toInstant(removedAt)),
          },
    )
    .toSorted((one, other) => other.removedAt - one.removedAt)
    .slice(0, mostShown)
}

/**
 * Puts a job, a piece, a surface or a photo in the bin. What belongs to it alone goes with it, and comes back with it: the
 * photos and steps of a job; the surfaces of a piece; the steps on surfaces that are all in the bin, with their photos,
 * and photos that show nothing else. A step that is also on a surface in use stays there. What is there already stays.
 *
 * @returns refused when there is no such thing, and for the last piece of a job or the last surface of a piece
 */
export async function putInBin(
  { kind, jobId, id }: BinPlace,
  now: Instant,
): Promise<Result<undefined>> {
  if (kind === 'photo') return removePhoto(jobId, id, now)
  const db = await database()
  return db.$transaction(async (transaction) => {
    const found = await standingOf(transaction, { kind, jobId, id })
    if (found === undefined) return refused(noneOf[kind])
    if (found.removedAt !== null) return ok(undefined)
    const stamp = toDate(now)
    if (kind === 'job') await moveJob(transaction, jobId, null, stamp)
    else {
      const isLast = await isLastOf(transaction, { kind, jobId, id })
      if (isLast) return refused(lastOf[kind])
      const surfaceIds =
        kind === 'surface'
          ? [id]
          : await movePiece(transaction, id, null, stamp)
      await removeSurfaces(transaction, jobId, surfaceIds, stamp)
    }
    await touchJob(transaction, jobId)
    return ok(undefined)
  })
}

/**
 * Takes a job, a piece, a surface or a photo out of the bin, with all that went in with it. What was removed before by
 * itself stays where it is.
 *
 * @returns refused when there is no such thing, and while what it belongs to is in the bin
 */
export async function takeBack({
  kind,
  jobId,
  id,
}: BinPlace): Promise<Result<undefined>> {
  if (kind === 'photo') return restorePhoto(jobId, id)
  const db = await database()
  return db.$transaction(async (transaction) => {
    const found = await standingOf(transaction, { kind, jobId, id })
    if (found === undefined) return refused(noneOf[kind])
    const stamp = found.removedAt
    if (stamp === null) return ok(undefined)
    if (found.isOwnerInBin) return refused(ownerInBin)
    if (kind === 'job') await moveJob(transaction, jobId, stamp, null)
    else {
      const surfaceIds =
        kind === 'surface'
          ? [id]
          : await movePiece(transaction, id, stamp, null)
      await restoreSurfaces(transaction, jobId, surfaceIds, stamp)
    }
    await touchJob(transaction, jobId)
    return ok(undefined)
  })
}

/** Has a step go into the bin, or come back, as its surfaces are: it is there when all of them are. */
export async function settleStep(
  transaction: Transaction,
  stepId: string,
): Promise<void> {
  const on = await transaction.surface.findMany({
    where: { steps: { some: { stepId } } },
    select: { removedAt: true },
  })
  const stamps = on.flatMap(({ removedAt }) => removedAt ?? [])
  const isGone = stamps.length > 0 && stamps.length === on.length
  await transaction.step.updateMany({
    where: { id: stepId },
    data: {
      removedAt: isGone
        ? new Date(Math.max(...stamps.map((stamp) => stamp.getTime())))
        : null,
    },
  })
}

const noneOf: Record<Exclude<BinnedKind, 'photo'>, Refusal> = {
  job: { kind: 'not-found', detail: 'There is no such job.' },
  piece: { kind: 'not-found', detail: 'There is no such piece in this job.' },
  surface: {
    kind: 'not-found',
    detail: 'There is no such surface in this job.',
  },
}
const lastOf: Record<'piece' | 'surface', Refusal> = {
  piece: {
    kind: 'conflict',
    detail: 'It is the only piece of its job. Put the whole job in the bin.',
  },
  surface: {
    kind: 'conflict',
    detail:
      'It is the only surface of its piece. Put the whole piece in the bin.',
  },
}
const ownerInBin: Refusal = {
  kind: 'conflict',
  detail: 'What it belongs to is in the bin too. Bring that back first.',
}

type Part = BinPlace & { readonly kind: 'piece' | 'surface' }

async function standingOf(
  transaction: Transaction,
  { kind, jobId, id }: BinPlace,
): Promise<
  | { readonly removedAt: Date | null; readonly isOwnerInBin: boolean }
  | undefined
> {
  const job = await transaction.job.findUnique({
    where: { id: jobId },
    select: { removedAt: true },
  })
  if (job === null) return undefined
  const isJobInBin = job.removedAt !== null
  if (kind === 'job') {
    return id === jobId ? { ...job, isOwnerInBin: false } : undefined
  }
  if (kind === 'piece') {
    const piece = await transaction.piece.findFirst({
      where: { id, jobId },
      select: { removedAt: true },
    })
    return piece === null ? undefined : { ...piece, isOwnerInBin: isJobInBin }
  }
  const surface = await transaction.surface.findFirst({
    where: { id, piece: { jobId } },
    select: { removedAt: true, piece: { select: { removedAt: true } } },
  })
  return surface === null
    ? undefined
    : {
        removedAt: surface.removedAt,
        isOwnerInBin: isJobInBin || surface.piece.removedAt !== null,
      }
}

async function isLastOf(
  transaction: Transaction,
  { kind, jobId, id }: Part,
): Promise<boolean> {
  const others =
    kind === 'piece'
      ? await transaction.piece.count({
          where: { jobId, id: { not: id }, ...notInBin },
        })
      : await transaction.surface.count({
          where: {
            id: { not: id },
            piece: { surfaces: { some: { id } } },
            ...notInBin,
          },
        })
  return others === 0
}

/** Of a job, what went in at one moment comes back; what was in use goes in. */
async function moveJob(
  transaction: Transaction,
  jobId: string,
  from: Date | null,
  to: Date | null,
): Promise<void> {
  const all = { where: { jobId, removedAt: from }, data: { removedAt: to } }
  await transaction.photo.updateMany(all)
  await transaction.step.updateMany(all)
  await transaction.job.update({
    where: { id: jobId },
    data: { removedAt: to },
    select: { id: true },
  })
}

/** Returns those of its surfaces that go with it. */
async function movePiece(
  transaction: Transaction,
  pieceId: string,
  from: Date | null,
  to: Date | null,
): Promise<readonly string[]> {
  const surfaces = await transaction.surface.findMany({
    where: { pieceId, removedAt: from },
    select: { id: true },
  })
  await transaction.piece.update({
    where: { id: pieceId },
    data: { removedAt: to },
    select: { id: true },
  })
  return surfaces.map(({ id }) => id)
}

async function removeSurfaces(
  transaction: Transaction,
  jobId: string,
  surfaceIds: readonly string[],
  stamp: Date,
): Promise<void> {
  const ids = [...surfaceIds]
  await transaction.surface.updateMany({
    where: { id: { in: ids } },
    data: { removedAt: stamp },
  })
  const onThemAlone = {
    some: { surfaceId: { in: ids } },
    every: { surface: inBin },
  }
  await transaction.step.updateMany({
    where: { jobId, ...notInBin, surfaces: onThemAlone },
    data: { removedAt: stamp },
  })
  await transaction.photo.updateMany({
    where: {
      jobId,
      ...notInBin,
      OR: [
        { step: { removedAt: stamp, surfaces: onThemAlone } },
        { surfaces: onThemAlone },
      ],
    },
    data: { removedAt: stamp },
  })
}

async function restoreSurfaces(
  transaction: Transaction,
  jobId: string,
  surfaceIds: readonly string[],
  stamp: Date,
): Promise<void> {
  const ids = [...surfaceIds]
  await transaction.surface.updateMany({
    where: { id: { in: ids } },
    data: { removedAt: null },
  })
  const onThem = { surfaces: { some: { surfaceId: { in: ids } } } }
  // A step on two surfaces went in with the second of them, and comes back with the first that does.
  const steps = await transaction.step.findMany({
    where: { jobId, ...inBin, ...onThem },
    select: { id: true, removedAt: true },
  })
  const stepIds = steps.map((step) => step.id)
  const stamps = [stamp, ...steps.flatMap((step) => step.removedAt ?? [])]
  await transaction.step.updateMany({
    where: { id: { in: stepIds } },
    data: { removedAt: null },
  })
  await transaction.photo.updateMany({
    where: {
      jobId,
      removedAt: { in: stamps },
      OR: [{ stepId: { in: stepIds } }, onThem],
    },
    data: { removedAt: null },
  })
}
