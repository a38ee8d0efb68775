import type { Journal, Step } from '#core/journal/journal'
import { stepTimesIn } from '#core/timeline/step-times'
import type { Instant } from '#core/units'
import { localText } from '../../_local-text'
import type { StepValues } from './_components/step-fields.client'

/** The values that the form of a step begins with: what the step says, and the times that its photos give where none is written down. */
export function stepValues(
  journal: Journal,
  step: Step,
  zone: string,
): StepValues {
  const times = stepTimesIn(journal, step)?.faceTime
  return {
    kind: step.kind,
    surfaces: step.surfaces.map((on) => on.surfaceId),
    product: step.productId ?? '',
    // Left empty, it keeps its number: that is what the form proposes.
    coat: '',
    method: step.method ?? '',
    thinningPercent: text(step.thinningPercent),
    grit: text(step.grit),
    amount: text(step.amount?.value),
    amountUnit: step.amount?.unit ?? 'ml',
    beforeGrams: text(step.weighed?.beforeGrams),
    afterGrams: text(step.weighed?.afterGrams),
    startedAt:
      step.startedAt === undefined ? '' : localText(step.startedAt, zone),
    finishedAt:
      step.finishedAt === undefined ? '' : localText(step.finishedAt, zone),
    startedWas: isoText(step.startedAt),
    finishedWas: isoText(step.finishedAt),
    // Where photos say nothing of an end, the other one stands in for it: that is no stamp of theirs.
    startedStamp:
      step.startedAt === undefined &&
      times !== undefined &&
      times.started.at !== step.finishedAt
        ? localText(times.started.at, zone)
        : '',
    finishedStamp:
      step.finishedAt === undefined &&
      times !== undefined &&
      times.finished.at !== step.startedAt
        ? localText(times.finished.at, zone)
        : '',
    note: step.note ?? '',
  }
}

function isoText(at: Instant | undefined): string {
  return at === undefined ? '' : new Date(at).toISOString()
}

function text(value: number | undefined): string {
  return value === undefined ? '' : String(value)
}
