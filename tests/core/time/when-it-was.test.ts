import { expect, test } from 'vitest'
import { whyNotThen } from '#core/time/when-it-was'
import { instant } from '#core/units'

const at = (text: string) => instant(Date.parse(text))
const now = at('2026-11-25T12:00:00Z')

test.each([
  '1900-01-01T00:00:00Z',
  '2026-11-25T12:00:00Z',
  '2026-11-26T11:00:00Z',
])('work can be of %s', (text) => {
  expect(whyNotThen(at(text), now)).toBeUndefined()
})

test('work cannot be older than furniture is kept', () => {
  expect(whyNotThen(at('0001-01-01T00:00:00Z'), now)).toContain('before 1900')
})

test('work cannot be still to come', () => {
  expect(whyNotThen(at('2027-11-25T12:00:00Z'), now)).toContain('future')
})
