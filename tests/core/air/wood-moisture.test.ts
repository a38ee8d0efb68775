import fc from 'fast-check'
import { expect, test } from 'vitest'
import { woodMoisture } from '#core/air/wood-moisture'

test('damper air never leaves wood drier', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 40, noNaN: true }),
      fc.double({ min: 1, max: 94, noNaN: true }),
      fc.double({ min: 0, max: 5, noNaN: true }),
      (celsius, humidity, more) => {
        expect(
          woodMoisture({ celsius, humidity: humidity + more }),
        ).toBeGreaterThanOrEqual(woodMoisture({ celsius, humidity }))
      },
    ),
  )
})

test('air outside its range is refused', () => {
  expect(() => woodMoisture({ celsius: 20, humidity: 0 })).toThrow(RangeError)
})
