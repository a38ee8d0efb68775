import { expect, test } from 'vitest'
import { readStepForm } from '../../../app/jobs/[job]/_read-step-form'

const stamp = '2026-10-22T22:12'

function read(startedAt: string) {
  const form = new FormData()
  form.set('kind', 'coat')
  form.append('surfaces', 'top')
  form.set('startedAt', startedAt)
  form.set('startedAt.stamp', stamp)
  const step = readStepForm(form, 'Europe/London')
  if (!step.success) throw step.error
  return step.data.startedAt
}

test('a time that the photos said and nobody touched is not typed', () => {
  expect(read(stamp)).toBeUndefined()
})

test('a time that was changed is, and one that was emptied is not', () => {
  expect(read('2026-10-22T22:13')).toBe(Date.parse('2026-10-22T21:13:00Z'))
  expect(read('')).toBeUndefined()
})
