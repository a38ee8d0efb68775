import { expect, test } from 'vitest'
import { woodOf } from '#core/finish/wood-of'

// Which woods bleed, weep and blotch: common practice, no source.
test.each([
  ['oak veneer on a solid oak frame', 'oak', undefined, undefined, true],
  ['solid pine', undefined, 'pine', 'pine', false],
  ['Birch ply', undefined, undefined, 'birch', false],
  ['beech, no oak', undefined, undefined, undefined, false],
  ['mahogany', 'mahogany', undefined, undefined, false],
  ['soakaway cedar', 'cedar', undefined, undefined, false],
])('%s', (material, tannin, knots, blotches, isVeneer) => {
  expect(woodOf({ material })).toEqual({ tannin, knots, blotches, isVeneer })
})

test('nothing is held against a piece of which the wood is not named', () => {
  expect(woodOf({})).toEqual({
    tannin: undefined,
    knots: undefined,
    blotches: undefined,
    isVeneer: false,
  })
})
