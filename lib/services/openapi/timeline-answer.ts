import { z } from 'zod'
import { type DryCheck, verdicts } from '#core/drying/dry-check'
import { stepKinds } from '#core/journal/vocabulary'
import type {
  Forecast,
  Lane,
  LaneStep,
  Timeline,
  TimelineWarning,
} from '#core/timeline/timeline'
import {
  comingTimesAnswer,
  comingTimesToAnswer,
} from '#services/openapi/coming-times-answer'
import {
  instantAnswer,
  instantToAnswer,
  spanAnswer,
  spanToAnswer,
} from '#services/openapi/instant-answer'
import { namedAnswer } from '#services/openapi/job-answer'

const range = z.object({ low: z.number(), high: z.number() })

const laneStep = z.object({
  id: z.string(),
  kind: z.enum(stepKinds),
  coat: z.int().nullable(),
  startedAt: instantAnswer.nullable(),
  finishedAt: instantAnswer.nullable(),
  started: spanAnswer.nullable().meta({
    description: 'The same moment as well as it is known.',
  }),
  finished: spanAnswer.nullable(),
  photos: z.array(z.string()),
})

const check = z
  .object({
    from: z.string().meta({ description: 'The earlier step.' }),
    to: z.string().meta({ description: 'The later step.' }),
    purpose: z.enum(['recoat', 'sand', 'handle']),
    elapsedMinutes: range,
    labelMinutes: z.object({
      min: z.number().nullable(),
      max: z.number().nullable(),
    }),
    requiredMinutes: z.number().nullable(),
    dryness: z.number().nullable().meta({
      description:
        'How dry it was at least when the later step began: 1 is the label minimum in reference air.',
    }),
    drynessRange: range.nullable(),
    verdict: z.enum(verdicts),
    reason: z.string(),
    advice: z.string(),
  })
  .meta({ id: 'DryCheck' })

const forecast = z.object({
  step: z.string().meta({ description: 'The coat that is drying.' }),
  ...comingTimesAnswer,
  reason: z.string(),
})

/** A job's timeline, as the interface gives it. */
export const timelineAnswer = z
  .object({
    lanes: z.array(
      z.object({
        piece: namedAnswer,
        surface: namedAnswer,
        steps: z.array(laneStep),
        checks: z.array(check),
        next: forecast.nullable(),
      }),
    ),
    warnings: z.array(
      z.object({
        kind: z.string(),
        detail: z.string(),
        step: z.string().nullable(),
        camera: z.string().nullable(),
      }),
    ),
  })
  .meta({ id: 'Timeline' })

/** A timeline in the form of {@link timelineAnswer}. */
export function timelineToAnswer(
  timeline: Timeline,
): z.input<typeof timelineAnswer> {
  return {
    lanes: timeline.lanes.map(laneToAnswer),
    warnings: timeline.warnings.map(warningToAnswer),
  }
}

function laneToAnswer(lane: Lane) {
  return {
    piece: { id: lane.piece.id, name: lane.piece.name },
    surface: { id: lane.surface.id, name: lane.surface.name },
    steps: lane.steps.map(stepToAnswer),
    checks: lane.checks.map(checkToAnswer),
    next: lane.next === undefined ? null : forecastToAnswer(lane.next),
  }
}

function stepToAnswer(step: LaneStep): z.input<typeof laneStep> {
  return {
    id: step.id,
    kind: step.kind,
    coat: step.coat ?? null,
    startedAt: instantToAnswer(step.started?.at),
    finishedAt: instantToAnswer(step.finished?.at),
    started: spanToAnswer(step.started),
    finished: spanToAnswer(step.finished),
    photos: [...step.photoIds],
  }
}

function checkToAnswer(found: DryCheck): z.input<typeof check> {
  return {
    from: found.from,
    to: found.to,
    purpose: found.purpose,
    elapsedMinutes: { low: found.elapsed.low, high: found.elapsed.high },
    labelMinutes: {
      min: found.label.min ?? null,
      max: found.label.max ?? null,
    },
    requiredMinutes: found.required ?? null,
    dryness: found.dryness?.low ?? null,
    drynessRange:
      found.dryness === undefined
        ? null
        : { low: found.dryness.low, high: found.dryness.high },
    verdict: found.verdict,
    reason: found.reason,
    advice: found.advice,
  }
}

function forecastToAnswer(next: Forecast): z.input<typeof forecast> {
  return {
    step: next.stepId,
    ...comingTimesToAnswer(next),
    reason: next.reason,
  }
}

function warningToAnswer(warning: TimelineWarning) {
  return {
    kind: warning.kind,
    detail: warning.detail,
    step: warning.stepId ?? null,
    camera: warning.cameraId ?? null,
  }
}
