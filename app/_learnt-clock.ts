import type { Result } from '#core/result'
import { clockWords } from '#core/time/clock-words'
import type { LearntClock } from '#services/cameras/learn-clock'
import type { FormState } from './_components/action-form.client'

/** What a form is told after a camera's clock was learnt. */
export function learntState(learnt: Result<LearntClock>): FormState {
  if (!learnt.ok) return { outcome: 'refused', message: learnt.refusal.detail }
  const { clock, photoCount } = learnt.value
  const photos =
    photoCount === 1
      ? 'Its one photo here is'
      : `Its ${photoCount} photos here are`
  return {
    outcome: 'saved',
    message: `The clock ${clockWords(clock)}. ${photos} put right.`,
  }
}
