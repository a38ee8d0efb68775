import type { StepKind } from '#core/journal/vocabulary'
import { newId } from '#services/database/new-id'
import { database } from '#services/database/open-database'

export type TestJob = {
  readonly id: string
  readonly pieceId: string
  readonly surfaceIds: readonly string[]
}

/** A job with one piece and the named surfaces, put straight into the database. */
export async function makeJob(
  title = 'Oak sideboard',
  surfaces: readonly string[] = ['body', 'top'],
): Promise<TestJob> {
  const db = await database()
  const id = newId()
  const pieceId = newId()
  const named = surfaces.map((name) => ({ id: newId(), name }))
  await db.job.create({
    data: {
      id,
      title,
      createdAt: new Date('2026-10-22T07:00:00Z'),
      pieces: {
        create: {
          id: pieceId,
          position: 0,
          name: 'sideboard',
          kind: 'sideboard',
          surfaces: {
            create: named.map((one, position) => ({ ...one, position })),
          },
        },
      },
    },
  })
  return { id, pieceId, surfaceIds: named.map((one) => one.id) }
}

/** A step on the given surfaces, put straight into the database. */
export async function makeStep(
  jobId: string,
  kind: StepKind,
  surfaceIds: readonly string[],
): Promise<string> {
  const db = await database()
  const id = newId()
  await db.step.create({
    data: {
      id,
      jobId,
      kind,
      createdAt: new Date('2026-10-22T07:00:00Z'),
      surfaces: { create: surfaceIds.map((surfaceId) => ({ surfaceId })) },
    },
  })
  return id
}
