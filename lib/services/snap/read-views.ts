import 'server-only'
import { turnedSize } from '#core/photos/turned-size'
import type { Instant } from '#core/units'
import { notInBin } from '#services/bin/bin'
import { toInstant } from '#services/database/instants'
import { database } from '#services/database/open-database'

/** A before photo whose view can be taken again. Width and height are upright pixels. */
export type ViewPhoto = {
  readonly id: string
  readonly jobId: string
  readonly jobTitle: string
  readonly view: string | undefined
  readonly width: number
  readonly height: number
  readonly takenAt: Instant
}

const mostViews = 24

const columns = {
  id: true,
  view: true,
  takenAt: true,
  quarterTurns: true,
  job: { select: { id: true, title: true } },
  original: { select: { width: true, height: true } },
} as const

type Row = {
  readonly id: string
  readonly view: string | null
  readonly takenAt: Date
  readonly quarterTurns: number
  readonly job: { readonly id: string; readonly title: string }
  readonly original: { readonly width: number; readonly height: number }
}

function toViewPhoto(row: Row): ViewPhoto {
  return {
    id: row.id,
    jobId: row.job.id,
    jobTitle: row.job.title,
    view: row.view ?? undefined,
    ...turnedSize(row.original, row.quarterTurns),
    takenAt: toInstant(row.takenAt),
  }
}

/** One photo, to take its view again; undefined when there is none with this id. */
export async function readViewPhoto(
  id: string,
): Promise<ViewPhoto | undefined> {
  const db = await database()
  const row = await db.photo.findFirst({
    where: { id, ...notInBin },
    select: columns,
  })
  return row === null ? undefined : toViewPhoto(row)
}

/** The before photos of jobs that are not finished, whose view has no after photo yet; the newest jobs first. */
export async function readOpenViews(): Promise<readonly ViewPhoto[]> {
  const db = await database()
  const rows = await db.photo.findMany({
    where: { role: 'before', ...notInBin, job: { finishedAt: null } },
    orderBy: [{ job: { createdAt: 'desc' } }, { takenAt: 'asc' }],
    take: mostViews,
    select: columns,
  })
  const afters = await db.photo.findMany({
    where: {
      role: 'after',
      ...notInBin,
      jobId: { in: rows.map((row) => row.job.id) },
    },
    select: { jobId: true, view: true },
  })
  const taken = new Set(
    afters.flatMap(({ jobId, view }) =>
      view === null ? [] : [`${jobId} ${view}`],
    ),
  )
  return rows
    .filter((row) => !taken.has(`${row.job.id} ${row.view ?? ''}`))
    .map(toViewPhoto)
}
