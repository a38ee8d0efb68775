import { z } from 'zod'
import {
  instantAnswer,
  instantToAnswer,
} from '#services/openapi/instant-answer'
import type { JobOutline, JobSummary } from '#services/jobs/jobs'

/** Anything with a name, by its id. */
export const namedAnswer = z
  .object({ id: z.string(), name: z.string() })
  .meta({ id: 'Named' })

/** A job with its pieces and surfaces, as the interface gives it. */
export const jobAnswer = z
  .object({
    id: z.string(),
    title: z.string(),
    createdAt: instantAnswer,
    finishedAt: instantAnswer.nullable(),
    pieces: z.array(
      z.object({
        id: z.string(),
        name: z.string(),
        kind: z.string(),
        surfaces: z.array(namedAnswer),
      }),
    ),
  })
  .meta({ id: 'Job' })

/** A page of jobs, as the interface gives it. */
export const jobListAnswer = z
  .object({
    jobs: z.array(
      z.object({
        id: z.string(),
        title: z.string(),
        createdAt: instantAnswer,
        finishedAt: instantAnswer.nullable(),
        photoCount: z.int(),
        stepCount: z.int(),
        pieces: z.array(
          z.object({ id: z.string(), name: z.string(), kind: z.string() }),
        ),
        coverPhotoId: z.string().nullable(),
      }),
    ),
    next: z.string().optional().meta({
      description: 'Give it as `after` for the next page; absent on the last.',
    }),
  })
  .meta({ id: 'JobList' })

/** A job in the form of {@link jobAnswer}. */
export function jobToAnswer(job: JobOutline): z.input<typeof jobAnswer> {
  return {
    id: job.id,
    title: job.title,
    createdAt: instantToAnswer(job.createdAt),
    finishedAt: instantToAnswer(job.finishedAt),
    pieces: job.pieces.map((piece) => ({
      id: piece.id,
      name: piece.name,
      kind: piece.kind,
      surfaces: piece.surfaces.map(({ id, name }) => ({ id, name })),
    })),
  }
}

/** A page of jobs in the form of {@link jobListAnswer}. */
export function jobListToAnswer(list: {
  readonly jobs: readonly JobSummary[]
  readonly next?: string
}): z.input<typeof jobListAnswer> {
  return {
    jobs: list.jobs.map((job) => ({
      ...job,
      createdAt: instantToAnswer(job.createdAt),
      finishedAt: instantToAnswer(job.finishedAt),
      pieces: [...job.pieces],
    })),
    ...(list.next === undefined ? {} : { next: list.next }),
  }
}
