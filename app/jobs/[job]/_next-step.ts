import type { Journal } from '#core/journal/journal'
import { instantText } from '#services/instant-text'
import { localText } from '../../_local-text'
import type { StepChoices, StepValues } from './_components/step-fields.client'
import { noValues } from './_no-values'

/** What the address of a step form says to begin with, as a page gets it. */
export type StepAsked = Readonly<Record<string, string | string[] | undefined>>

/**
 * The values that the form of a next step begins with (see `nextStepPath`): the surfaces asked for, and the same step again
 * with its product and the next coat number where that is one for all of them; or when it was done (`at`, ISO 8601), where
 * a place on the timeline was tapped. What the job does not know is passed over.
 *
 * @param zone the workshop's, in which the field has the time
 */
export function nextStepValues(
  asked: StepAsked,
  journal: Journal,
  choices: StepChoices,
  zone: string,
): StepValues {
  const wanted = [asked['surface'] ?? []].flat()
  const surfaces = journal.pieces
    .flatMap((piece) => piece.surfaces.map((surface) => surface.id))
    .filter((id) => wanted.includes(id))
  const after = journal.steps.find((step) => step.id === asked['after'])
  if (after === undefined) {
    const at = instantText.safeParse(asked['at'])
    return {
      ...noValues,
      surfaces,
      startedAt: at.success ? localText(at.data, zone) : '',
    }
  }
  if (asked['kind'] === 'scuff') {
    return { ...noValues, kind: 'scuff', surfaces }
  }
  const numbers = new Set(
    surfaces.map((id) => choices.nextCoats[after.kind]?.[id]),
  )
  const [coat] = numbers
  return {
    ...noValues,
    kind: after.kind,
    surfaces,
    product: after.productId ?? '',
    coat: numbers.size === 1 && coat !== undefined ? String(coat) : '',
    method: after.method ?? '',
  }
}
