import { z } from 'zod'
import type { Bench, BenchEntry } from '#core/bench/bench'
import { stepKinds } from '#core/journal/vocabulary'
import { waitsFor } from '#core/timeline/timeline'
import {
  comingTimesAnswer,
  comingTimesToAnswer,
} from '#services/openapi/coming-times-answer'
import {
  instantAnswer,
  instantToAnswer,
} from '#services/openapi/instant-answer'
import { namedAnswer } from '#services/openapi/job-answer'

const entry = z
  .object({
    job: z.object({ id: z.string(), title: z.string(), finished: z.boolean() }),
    piece: namedAnswer,
    surface: namedAnswer,
    step: z.object({
      id: z.string(),
      kind: z.enum(stepKinds),
      coat: z.int().nullable(),
    }),
    product: namedAnswer.nullable(),
    coatedAt: instantAnswer,
    ...comingTimesAnswer,
    waitsFor: z.enum(waitsFor).nullable().meta({
      description: 'What must be told before its times can be.',
    }),
    doubt: z.string().nullable().meta({
      description:
        'Why its times may be off by any amount, such as a clock that nobody has checked.',
    }),
    reason: z.string(),
  })
  .meta({ id: 'BenchEntry' })

const entries = z.array(entry)
const groups = ['wet', 'ready', 'closing', 'past', 'curing', 'unknown'] as const

/** The bench, as the interface gives it. */
export const benchAnswer = z
  .object({
    at: instantAnswer,
    wet: entries.meta({ description: 'Not ready yet.' }),
    ready: entries.meta({ description: 'May be coated now.' }),
    closing: entries.meta({
      description: 'May be coated now, but not for longer than a day.',
    }),
    past: entries.meta({ description: 'Waited too long: scuff first.' }),
    curing: entries.meta({ description: 'Finished, and not hard yet.' }),
    unknown: entries.meta({
      description: 'Waits for something else than time: see waitsFor.',
    }),
    counts: z
      .record(z.enum(groups), z.int())
      .meta({ description: 'How long each list is when nothing is cut.' }),
  })
  .meta({ id: 'Bench' })

/**
 * The bench in the form of {@link benchAnswer}.
 *
 * @param size how many of each list at most, the most pressing first; all when absent
 */
export function benchToAnswer(
  bench: Bench,
  size?: number,
): z.input<typeof benchAnswer> {
  const list = (group: (typeof groups)[number]) =>
    bench[group].slice(0, size).map(entryToAnswer)
  return {
    at: instantToAnswer(bench.at),
    wet: list('wet'),
    ready: list('ready'),
    closing: list('closing'),
    past: list('past'),
    curing: list('curing'),
    unknown: list('unknown'),
    counts: {
      wet: bench.wet.length,
      ready: bench.ready.length,
      closing: bench.closing.length,
      past: bench.past.length,
      curing: bench.curing.length,
      unknown: bench.unknown.length,
    },
  }
}

function entryToAnswer(one: BenchEntry): z.input<typeof entry> {
  return {
    job: {
      id: one.job.id,
      title: one.job.title,
      finished: one.job.finished,
    },
    piece: { id: one.piece.id, name: one.piece.name },
    surface: { id: one.surface.id, name: one.surface.name },
    step: {
      id: one.step.id,
      kind: one.step.kind,
      coat: one.step.coat ?? null,
    },
    product:
      one.product === undefined
        ? null
        : { id: one.product.id, name: one.product.name },
    coatedAt: instantToAnswer(one.coatedAt),
    ...comingTimesToAnswer(one),
    waitsFor: one.waitsFor ?? null,
    doubt: one.doubt ?? null,
    reason: one.reason,
  }
}
