import { expect, test } from 'vitest'
import { plainView } from '#core/pairs/pair-photo'
import { exactly } from '#core/time/span'
import { instant } from '#core/units'

test.each([
  ['Left three-quarter', 'left three quarter'],
  ['  left_three - quarter ', 'left three quarter'],
  ['FRONT', 'front'],
  [' - ', ''],
])('the view %j is compared as %j', (view, plain) => {
  const taken = exactly(instant(0))
  expect(plainView({ id: 'photo', role: 'before', view, taken })).toBe(plain)
})

test('a photo without a view has an empty one', () => {
  const taken = exactly(instant(0))
  expect(plainView({ id: 'photo', role: 'after', taken })).toBe('')
})
