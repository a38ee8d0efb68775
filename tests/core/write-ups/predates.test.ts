import { expect, test } from 'vitest'
import { mayPredate } from '#core/write-ups/predates'

// Common practice, no source: in doubt a piece counts as old.
test.each([
  [undefined, true],
  ['', true],
  ['old', true],
  ['Victorian', true],
  ['19th century', true],
  ['1930s', true],
  ['1991', true],
  ['1992', false],
  ['2015', false],
  ['2000s', false],
  ['about 2005', true],
  ['about 2015', false],
  ['1990 or 2010', true],
  ['before 2010', true],
  ['no later than 2005', true],
  ['made in 2004', false],
])('furniture of %j may be from before 1992: %s', (age, old) => {
  expect(mayPredate(1992, age)).toBe(old)
})
