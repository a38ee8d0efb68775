/*
 * A published data sheet of an interior waterborne enamel (maker not named here): dry to touch after 10, 5 and 3 hours,
 * hard dry after 30, 15 and 9 hours, at 10, 23 and 40 °C and 50 %. Numbers as noted from the sheet; it was not at hand
 * again. What the model must do: never be less careful than the sheet in the cold, nor far from it, and never shorten in
 * the heat.
 */
import { expect, test } from 'vitest'
import { dryingSpeed } from '#core/drying/drying-speed'

const reference = { celsius: 23, humidity: 50 }

test.each([
  ['touch', 10, 5],
  ['hard', 30, 15],
])(
  'dry to %s, the cold lengthens the wait by what the sheet says or a little more',
  (_, cold, mild) => {
    const factor =
      1 /
      dryingSpeed('waterborne-alkyd', { celsius: 10, humidity: 50 }, reference)
        .low
    expect(factor).toBeGreaterThanOrEqual(cold / mild)
    expect(factor).toBeLessThan((1.3 * cold) / mild)
  },
)

test('the heat shortens the sheet’s times, and never ours', () => {
  expect(
    dryingSpeed('waterborne-alkyd', { celsius: 40, humidity: 50 }, reference)
      .high,
  ).toBe(1)
})
