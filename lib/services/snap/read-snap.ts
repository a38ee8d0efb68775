import 'server-only'
import {
  type RecentStep,
  type SnapTarget,
  snapTargets,
} from '#core/snap/snap-target'
import { methods, stepKinds } from '#core/journal/vocabulary'
import { amountUnits } from '#core/shelf/product'
import type { Instant } from '#core/units'
import { readAhead } from '#services/bench/bench'
import { notInBin } from '#services/bin/bin'
import { present, toInstant } from '#services/database/instants'
import { database } from '#services/database/open-database'

/** So many steps back is what somebody may still be working on. */
const recentSteps = 12
/** Of those that were written down last: a whole card of photos may have come in since. */
const latestWritten = 60
/** Of those that photos are offered for: nobody looks for a job beyond them in a hurry. */
const openJobs = 40

/** A job that photos can be taken for, with what it is made of. */
export type SnapJob = {
  readonly id: string
  readonly title: string
  /** Whether nothing has been done to it yet, so that its next photos are before photos. */
  readonly isNew: boolean
  readonly pieces: readonly {
    readonly id: string
    readonly name: string
    readonly surfaces: readonly { readonly id: string; readonly name: string }[]
  }[]
}

/** What the next photo may be of, the likeliest first, `most` of them; across all jobs that are not finished. */
export async function readSnapTargets(
  at: Instant,
  most: number,
): Promise<readonly SnapTarget[]> {
  const [{ coming }, recent] = await Promise.all([
    readAhead(at),
    readRecentSteps(),
  ])
  return snapTargets(at, coming, recent, most)
}

async function readRecentSteps(): Promise<readonly RecentStep[]> {
  const db = await database()
  const rows = await db.step.findMany({
    where: { ...notInBin, job: { finishedAt: null } },
    orderBy: { createdAt: 'desc' },
    take: latestWritten,
    select: {
      id: true,
      kind: true,
      method: true,
      thinningPercent: true,
      grit: true,
      amount: true,
      amountUnit: true,
      startedAt: true,
      finishedAt: true,
      createdAt: true,
      job: { select: { id: true, title: true } },
      product: { select: { id: true, name: true } },
      surfaces: {
        where: { surface: notInBin },
        orderBy: [
          { surface: { piece: { position: 'asc' } } },
          { surface: { position: 'asc' } },
        ],
        select: {
          coat: true,
          surface: {
            select: { id: true, name: true, piece: { select: { name: true } } },
          },
        },
      },
      photos: {
        where: notInBin,
        orderBy: { takenAt: 'desc' },
        take: 1,
        select: { takenAt: true, arrivedAt: true },
      },
    },
  })
  const steps = rows.flatMap((row): readonly RecentStep[] => {
    const kind = stepKinds.find((one) => one === row.kind)
    if (kind === undefined) return []
    const unit = amountUnits.find((one) => one === row.amountUnit)
    return [
      {
        id: row.id,
        job: row.job,
        kind,
        surfaces: row.surfaces.map(({ surface }) => ({
          id: surface.id,
          name: surface.name,
          piece: surface.piece.name,
        })),
        usedAt: toInstant(lastMoment(row)),
        isBegun:
          row.startedAt !== null &&
          row.finishedAt === null &&
          row.photos.length === 0,
        ...present({
          coat: row.surfaces[0]?.coat,
          product: row.product,
          method: methods.find((one) => one === row.method),
          thinningPercent: row.thinningPercent,
          grit: row.grit,
        }),
        ...(row.amount !== null && unit !== undefined
          ? { amount: { value: row.amount, unit } }
          : {}),
      },
    ]
  })
  return steps
    .toSorted((one, other) => other.usedAt - one.usedAt)
    .slice(0, recentSteps)
}

/** When a step was last worked on, by typed times and photos; when it was written down where neither is there. */
function lastMoment(step: {
  readonly startedAt: Date | null
  readonly finishedAt: Date | null
  readonly createdAt: Date
  readonly photos: readonly {
    readonly takenAt: Date
    readonly arrivedAt: Date
  }[]
}): Date {
  const { startedAt, finishedAt, createdAt, photos } = step
  const typed = [startedAt, finishedAt].filter((one) => one !== null)
  // Photos tell nothing more where both ends were typed.
  const shown =
    typed.length === 2
      ? []
      : photos.map(({ takenAt, arrivedAt }) =>
          // A clock that runs ahead cannot make a photo younger than its arrival.
          takenAt < arrivedAt ? takenAt : arrivedAt,
        )
  const moments = [...typed, ...shown].map((one) => one.getTime())
  return moments.length === 0 ? createdAt : new Date(Math.max(...moments))
}

/** The jobs that are not finished, the newest first. */
export async function readSnapJobs(): Promise<readonly SnapJob[]> {
  const db = await database()
  const rows = await db.job.findMany({
    where: { finishedAt: null, ...notInBin },
    orderBy: { createdAt: 'desc' },
    take: openJobs,
    select: {
      id: true,
      title: true,
      steps: { where: notInBin, take: 1, select: { id: true } },
      pieces: {
        where: notInBin,
        orderBy: { position: 'asc' },
        select: {
          id: true,
          name: true,
          surfaces: {
            where: notInBin,
            orderBy: { position: 'asc' },
            select: { id: true, name: true },
          },
        },
      },
    },
  })
  return rows.map(({ steps, ...job }) => ({
    ...job,
    isNew: steps.length === 0,
  }))
}

/** The newest job that nothing has been done to yet, of the newest that are open: its next photos are before photos. */
export async function readNewJob(): Promise<
  { readonly id: string; readonly title: string } | undefined
> {
  const db = await database()
  const newest = await db.job.findMany({
    where: { finishedAt: null, ...notInBin },
    orderBy: { createdAt: 'desc' },
    take: openJobs,
    select: {
      id: true,
      title: true,
      steps: { where: notInBin, take: 1, select: { id: true } },
    },
  })
  const job = newest.find(({ steps }) => steps.length === 0)
  return job === undefined ? undefined : { id: job.id, title: job.title }
}
