import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { whatHelps } from '#core/drying/what-helps'
import { anyAir } from '../air/any-air'
import { anyChemistry, anyReference } from './any-coat'

const reference = { celsius: 23, humidity: 50 }
const enamel = {
  chemistry: 'waterborne-acrylic' as const,
  label: { recoatMinutes: 240, reference },
}
const kindsOf = (found: ReturnType<typeof whatHelps>) =>
  found?.helps.map((help) => help.kind)

describe('what would shorten the wait', () => {
  const cold = whatHelps(enamel, 'recoat', { celsius: 15, humidity: 70 })

  test('of a waterborne coat at 15 °C and 70 %: warmth, drier air, and moving it', () => {
    // 240 x 1401.9 / 510.6 = 658.9 minutes (Dalton, see tests/reference).
    expect(cold?.minutes).toBeCloseTo(658.9, 0)
    expect(kindsOf(cold)).toEqual(['warmer', 'drier', 'moving-air'])
  })

  test('warming adds no water: at 15 °C and 70 % it is 42 % at 23 °C', () => {
    // e = 0.7 x 1702.0 = 1191.4 Pa; over 2803.8 Pa at 23 °C: 42.5 %. The deficit there is 1612.4 Pa, more than the
    // label's 1401.9, so the label's time holds before 23 °C is reached: at 22 °C it is 2639.5 - 1191.4 = 1448.1.
    const warmer = cold?.helps.find((help) => help.kind === 'warmer')
    expect(warmer?.byCelsius).toBe(7)
    expect(warmer?.minutes).toBe(240)
    expect(warmer?.air.celsius).toBe(22)
    expect(warmer?.air.humidity).toBeCloseTo((100 * 1191.4) / 2639.5, 0)
    expect(warmer?.sentence).toContain('the least by the label')
  })

  test('drying to 45 % at 15 °C: 240 x 1401.9 / (1702.0 x 0.55)', () => {
    const drier = cold?.helps.find((help) => help.kind === 'drier')
    expect(drier?.minutes).toBeCloseTo(359.4, 0)
  })

  test('moving air gets a word and no number', () => {
    const moving = cold?.helps.find((help) => help.kind === 'moving-air')
    expect(moving).not.toHaveProperty('minutes')
    expect(moving?.sentence).not.toMatch(/\d/)
  })

  test('nothing, where the label’s time holds already', () => {
    expect(whatHelps(enamel, 'recoat', { celsius: 25, humidity: 45 })).toEqual({
      floorMinutes: 240,
      minutes: 240,
      helps: [],
    })
  })

  test('of an oil coat: warmth and moving air, for damp does not slow it', () => {
    expect(
      kindsOf(
        whatHelps(
          { chemistry: 'oil-alkyd', label: { recoatMinutes: 960, reference } },
          'recoat',
          { celsius: 13, humidity: 80 },
        ),
      ),
    ).toEqual(['warmer', 'moving-air'])
  })

  test('nothing is said without a label', () => {
    expect(
      whatHelps(
        { chemistry: 'waterborne-acrylic', label: {} },
        'recoat',
        reference,
      ),
    ).toBeUndefined()
  })

  test('in air too damp to tell, it says what would make it drier and not how long it is now', () => {
    const damp = whatHelps(enamel, 'recoat', { celsius: 12, humidity: 95 })
    expect(damp?.minutes).toBeUndefined()
    expect(kindsOf(damp)).toContain('drier')
  })
})

test('nothing helps to get under the label', () => {
  fc.assert(
    fc.property(
      anyChemistry,
      anyReference,
      anyAir,
      fc.integer({ min: 5, max: 3000 }),
      (chemistry, labelAir, air, recoatMinutes) => {
        const found = whatHelps(
          { chemistry, label: { recoatMinutes, reference: labelAir } },
          'recoat',
          air,
        )
        expect(found?.floorMinutes).toBe(recoatMinutes)
        for (const help of found?.helps ?? [])
          if (help.kind !== 'moving-air')
            expect(help.minutes).toBeGreaterThanOrEqual(recoatMinutes)
        if (found?.minutes !== undefined)
          expect(found.minutes).toBeGreaterThanOrEqual(recoatMinutes)
      },
    ),
  )
})
