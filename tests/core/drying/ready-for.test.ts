import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { forecastNext } from '#core/drying/forecast-next'
import { type Use, uses } from '#core/drying/ready-for'
import type { Label } from '#core/shelf/product'
import { addMinutes, minutesBetween } from '#core/units'
import { anyReadings, at, steadyAir } from '../air/any-air'
import { anyChemistry, clocksIn, lasting } from './any-coat'

const day = 1440
const label = {
  recoatMinutes: 60,
  sandMinutes: 240,
  handleMinutes: 480,
  cureDays: 21,
}
const usesOf = (said: Label, air = clocksIn([])) =>
  forecastNext(
    [lasting(0, 30)],
    { chemistry: 'waterborne-acrylic', label: said },
    undefined,
    air,
  ).uses
const minutesTo = (use: Use, said: Label, air = clocksIn([])) => {
  const found = usesOf(said, air).find((one) => one.use === use)
  return found === undefined ? undefined : minutesBetween(at(30), found.at)
}

describe('from when on a coat stands', () => {
  // Sanding, handling and cure by the label; tape after a day, liner, stack and delivery after a week: common practice.
  test.each([
    ['sand', 240],
    ['handle', 480],
    ['tape', day],
    ['line', 7 * day],
    ['stack', 7 * day],
    ['deliver', 7 * day],
    ['cure', 21 * day],
  ] as const)('%s: %d minutes', (use, minutes) => {
    expect(minutesTo(use, label)).toBe(minutes)
  })

  test('nothing but handling before it may be handled', () => {
    expect(minutesTo('tape', { ...label, handleMinutes: 3 * day })).toBe(
      3 * day,
    )
  })

  test('a coat that cures in a day is ready for everything then', () => {
    expect(minutesTo('deliver', { ...label, cureDays: 1 })).toBe(day)
  })

  test('what no label tells is marked as usual', () => {
    const basis = Object.fromEntries(
      usesOf(label).map((one) => [one.use, one.basis]),
    )
    expect(basis).toEqual({
      sand: 'label',
      handle: 'label',
      tape: 'usual',
      line: 'usual',
      stack: 'usual',
      deliver: 'usual',
      cure: 'label',
    })
  })

  test('handling waits longer in the cold and damp', () => {
    // 1401.9 / 510.6 = 2.7456 (Dalton, see tests/reference); 480 x 2.7456 = 1317.9.
    const cold = clocksIn(steadyAir(15, 70))
    const reference = { celsius: 23, humidity: 50 }
    expect(
      minutesTo('handle', { ...label, reference }, cold) ?? NaN,
    ).toBeCloseTo(1317.9, 0)
  })
})

test('no use is ever allowed before its label time, whatever the air', () => {
  fc.assert(
    fc.property(
      anyReadings,
      anyChemistry,
      fc.integer({ min: 5, max: 5000 }),
      fc.integer({ min: 1, max: 40 }),
      (readings, chemistry, handleMinutes, cureDays) => {
        const found = forecastNext(
          [lasting(0, 30)],
          { chemistry, label: { handleMinutes, cureDays } },
          undefined,
          clocksIn(readings),
        ).uses
        const ofUse = (use: Use) => found.find((one) => one.use === use)?.at
        const handled = ofUse('handle')
        if (handled !== undefined)
          expect(handled).toBeGreaterThanOrEqual(
            addMinutes(at(30), handleMinutes),
          )
        for (const use of uses) {
          const one = ofUse(use)
          if (use === 'sand' || use === 'cure' || one === undefined) continue
          if (handled !== undefined) expect(one).toBeGreaterThanOrEqual(handled)
        }
        expect(ofUse('cure')).toBe(addMinutes(at(30), cureDays * day))
      },
    ),
  )
})
