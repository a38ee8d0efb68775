import { expect, test } from 'vitest'
import { exactly } from '#core/time/span'
import { stepNeighbour } from '#core/timeline/step-neighbour'
import { instant } from '#core/units'

const step = (id: string, minute?: number) => ({
  id,
  kind: 'sand' as const,
  photoIds: [],
  ...(minute !== undefined && {
    started: exactly(instant(minute * 60_000)),
    finished: exactly(instant(minute * 60_000)),
  }),
})
const lane = [step('a', 1), step('b', 2), step('c', 2), step('d'), step('e')]

test.each([
  ['a', 'later', 'by-time'],
  ['b', 'earlier', 'by-time'],
  ['c', 'later', 'by-time'],
  ['a', 'earlier', 'none'],
  ['e', 'later', 'none'],
  ['nobody', 'later', 'none'],
] as const)('%s cannot go %s: %s', (id, toward, expected) => {
  expect(stepNeighbour(lane, id, toward)).toBe(expected)
})

test.each([
  ['b', 'later', 'c'],
  ['c', 'earlier', 'b'],
  ['d', 'later', 'e'],
] as const)(
  '%s can go %s, in the place of %s: no time tells',
  (id, toward, expected) => {
    expect(stepNeighbour(lane, id, toward)).toMatchObject({ id: expected })
  },
)
