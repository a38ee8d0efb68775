import { expect, test } from 'vitest'
import { minutesPerDay, minutesBetween } from '#core/units'
import { cureOf } from '#core/write-ups/cure-of'
import { surfaceWork } from '#core/write-ups/surface-work'
import {
  bareFacts,
  journal,
  local,
  paintedBookcase,
  piece,
  product,
  sideboardAndBench,
  step,
} from './jobs.ts'

test("a cure is the label's days after the last coat, to the minute, across a change of clocks", () => {
  const cure = cureOf(paintedBookcase, surfaceWork(paintedBookcase), undefined)
  // Clocks in London go forward on 29 March 2026, so thirty days of 24 hours end at 11:00 summer time.
  expect(cure?.full?.at).toBe(local('2026-04-01T11:00'))
})

test('the slowest coat decides, not the last', () => {
  const cure = cureOf(
    sideboardAndBench,
    surfaceWork(sideboardAndBench),
    undefined,
  )
  expect(cure?.lastCoat).toEqual({
    at: local('2026-10-25T22:12'),
    stepId: 'seal2',
    doubtful: false,
  })
  expect(cure?.full).toMatchObject({ days: 30, stepId: 'coat2' })
  expect(
    minutesBetween(
      local('2026-10-24T11:51'),
      cure?.full?.at ?? local('2026-10-24T11:51'),
    ) / minutesPerDay,
  ).toBe(30)
})

test('a label that does not say is named, and the rest is told without its coats', () => {
  const stool = journal(
    'Stool',
    [piece('stool', 'stool', ['seat', 'legs'])],
    [
      step('a', 'coat', 'stool-seat:1', '2026-05-01T10:00', { productId: 'x' }),
      step('b', 'coat', 'stool-legs:1', '2026-05-01T11:00', { productId: 'y' }),
    ],
    [
      product('x', 'x', 'paint', 'other', { cureDays: 5 }),
      product('y', 'y', 'paint', 'other'),
    ],
  )
  const cure = cureOf(stool, surfaceWork(stool), undefined)
  expect(cure?.full).toMatchObject({ days: 5, stepId: 'a' })
  expect(cure?.unlabelled.map(({ id }) => id)).toEqual(['y'])
})

test('without a time there is no cure to tell', () => {
  expect(cureOf(bareFacts, surfaceWork(bareFacts), undefined)).toBeUndefined()
})
