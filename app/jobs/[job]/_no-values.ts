import type { StepValues } from './_components/step-fields.client'

/** An empty step form. */
export const noValues: StepValues = {
  kind: '',
  surfaces: [],
  product: '',
  coat: '',
  method: '',
  thinningPercent: '',
  grit: '',
  amount: '',
  amountUnit: 'ml',
  beforeGrams: '',
  afterGrams: '',
  startedAt: '',
  finishedAt: '',
  startedWas: '',
  finishedWas: '',
  startedStamp: '',
  finishedStamp: '',
  note: '',
}
