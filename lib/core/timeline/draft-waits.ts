import type { DryCheck } from '#core/drying/dry-check'
import { closedBefore, labelTimes } from '#core/drying/recoat-windows'
import { type DraftStep, withDraft } from '#core/finish/with-draft'
import type { Journal } from '#core/journal/journal'
import type { Units } from '#core/measures/units-of-measure'
import { readTimeline } from '#core/timeline/read-timeline'
import type { Forecast } from '#core/timeline/timeline'

/** A surface that is not ready for a step that is being written down. */
export type DraftWait = {
  readonly piece: { readonly id: string; readonly name: string }
  readonly surface: { readonly id: string; readonly name: string }
  readonly verdict: 'too-soon' | 'past-window' | 'unsure'
  /** An earlier window of its label has closed, and the next has not opened. */
  readonly isBetween: boolean
  /** The arithmetic as a sentence for the owner. */
  readonly reason: string
  /** When the surface may be coated, as it stands without the step. */
  readonly readyAt?: Forecast['readyAt']
}

/**
 * Which surfaces a step would be too soon on, too late on, or perhaps either, if it were kept as it stands: what to say
 * before the brush is wet. A draft needs a time for it, from its photos or in `startedAt`.
 *
 * @param units what its sentences are written in
 */
export function draftWaits(
  journal: Journal,
  draft: DraftStep,
  units: Units = 'metric',
): readonly DraftWait[] {
  const { journal: drafted, stepId } = withDraft(journal, draft)
  const without = {
    ...journal,
    steps: journal.steps.filter((step) => step.id !== stepId),
  }
  const forecasts = new Map(
    readTimeline(without, units).lanes.map((lane) => [
      lane.surface.id,
      lane.next,
    ]),
  )
  return readTimeline(drafted, units).lanes.flatMap(
    ({ piece, surface, checks }) => {
      const check = checks.findLast(({ to }) => to === stepId)
      if (check === undefined || !isTold(check.verdict)) return []
      // A forecast is about the next coat; sanding and handling have times of their own.
      const readyAt =
        check.purpose === 'recoat'
          ? forecasts.get(surface.id)?.readyAt
          : undefined
      return [
        {
          piece,
          surface,
          verdict: check.verdict,
          isBetween: isBetween(journal, check),
          reason: check.reason,
          ...(readyAt !== undefined && { readyAt }),
        },
      ]
    },
  )
}

/** Whether a surface is between two windows of the label that it is held against. */
function isBetween(
  { steps, products }: Journal,
  { from, verdict, purpose, elapsed, label: { min } }: DryCheck,
): boolean {
  if (verdict !== 'too-soon' || purpose !== 'recoat' || min === undefined) {
    return false
  }
  const productId = steps.find((step) => step.id === from)?.productId
  const label = products.find((one) => one.id === productId)?.label
  const windows = label && labelTimes(label, 'recoat')?.windows
  // Whatever a window asks for first, it has closed.
  return closedBefore(windows ?? [], min, elapsed.low, 'sand') !== undefined
}

function isTold(verdict: DryCheck['verdict']): verdict is DraftWait['verdict'] {
  return verdict !== 'in-window' && verdict !== 'no-label'
}
