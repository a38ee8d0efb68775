import { type RuleFinding, findingsIn } from '#core/finish/judge-finish'
import { type DraftStep, withDraft } from '#core/finish/with-draft'
import type { Journal } from '#core/journal/journal'
import type { Units } from '#core/measures/units-of-measure'

/**
 * Where a step would pass over the rules of a sound finish if it were kept as it stands: what to show beside the form.
 *
 * Without a time it is taken to come after everything else, and no wait is held against it; give `startedAt` the
 * present to have waits judged as well.
 *
 * @param units what its sentences are written in
 */
export function judgeDraftStep(
  journal: Journal,
  draft: DraftStep,
  units: Units = 'metric',
): readonly RuleFinding[] {
  const { journal: drafted, stepId } = withDraft(journal, draft)
  return findingsIn(drafted, units, stepId).filter(
    (finding) => finding.stepId === stepId,
  )
}
