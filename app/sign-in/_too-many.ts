import type { FormState } from '../_components/action-form.client'

/** What is said to whoever tried too often to get in. */
export const tooMany: FormState = {
  outcome: 'refused',
  message: 'That was tried too often. Wait a quarter of an hour and try again.',
}
