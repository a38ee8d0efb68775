import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  dryingSpeed,
  paceIn,
  shareOf,
  windowSpeed,
} from '#core/drying/drying-speed'
import { chemistries } from '#core/shelf/product'
import { anyAir } from '../air/any-air'
import { anyChemistry, anyReference } from './any-coat'

const waterborne = fc.constantFrom(
  'waterborne-acrylic' as const,
  'waterborne-alkyd' as const,
  'water-stain' as const,
)

test('damper air never dries a waterborne coat faster', () => {
  fc.assert(
    fc.property(
      waterborne,
      anyAir,
      anyReference,
      fc.double({ min: 0, max: 99, noNaN: true }),
      (chemistry, air, reference, more) => {
        const damper = {
          ...air,
          humidity: Math.min(100, air.humidity + more),
        }
        const before = dryingSpeed(chemistry, air, reference)
        const after = dryingSpeed(chemistry, damper, reference)
        expect(after.low).toBeLessThanOrEqual(before.low)
        expect(after.high).toBeLessThanOrEqual(before.high)
      },
    ),
  )
})

test('warmer air never dries a coat slower', () => {
  fc.assert(
    fc.property(
      anyChemistry,
      anyAir,
      anyReference,
      fc.double({ min: 0, max: 10, noNaN: true }),
      (chemistry, air, reference, more) => {
        const warmer = { ...air, celsius: air.celsius + more }
        expect(
          dryingSpeed(chemistry, warmer, reference).low,
        ).toBeGreaterThanOrEqual(dryingSpeed(chemistry, air, reference).low)
      },
    ),
  )
})

test('in the label’s own air a coat dries at the label’s speed', () => {
  fc.assert(
    fc.property(anyChemistry, anyReference, (chemistry, reference) => {
      expect(dryingSpeed(chemistry, reference, reference)).toEqual({
        low: 1,
        high: 1,
      })
    }),
  )
})

test('a window closes sooner in warm air and no later in cold', () => {
  fc.assert(
    fc.property(anyAir, anyReference, (air, reference) => {
      const speed = windowSpeed(
        shareOf(paceIn('oxidation', air), paceIn('oxidation', reference)),
      )
      // The doubling every 10 °C by its own definition: common practice, no source.
      const doubled = 2 ** ((air.celsius - reference.celsius) / 10)
      expect(speed).toBeCloseTo(Math.max(1, doubled), 9)
    }),
  )
})

test.each(chemistries)(
  'no weather makes %s dry faster than its label',
  (chemistry) => {
    fc.assert(
      fc.property(anyAir, anyReference, (air, reference) => {
        const speed = dryingSpeed(chemistry, air, reference)
        expect(speed.high).toBeLessThanOrEqual(1)
        expect(speed.low).toBeLessThanOrEqual(speed.high)
      }),
    )
  },
)

test('wax, paste and products nobody knows keep the label’s time in any air', () => {
  fc.assert(
    fc.property(
      fc.constantFrom('wax' as const, 'paste' as const, 'other' as const),
      anyAir,
      anyReference,
      (chemistry, air, reference) => {
        expect(dryingSpeed(chemistry, air, reference)).toEqual({
          low: 1,
          high: 1,
        })
      },
    ),
  )
})

test('below freezing nothing is promised', () => {
  expect(
    dryingSpeed(
      'oil-alkyd',
      { celsius: -1, humidity: 50 },
      { celsius: 23, humidity: 50 },
    ).low,
  ).toBe(0)
})

test('a label stated for air that holds no more water is taken as it stands', () => {
  expect(
    dryingSpeed(
      'water-stain',
      { celsius: 10, humidity: 90 },
      { celsius: 23, humidity: 100 },
    ).low,
  ).toBe(1)
})
