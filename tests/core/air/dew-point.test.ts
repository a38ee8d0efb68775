import fc from 'fast-check'
import { expect, test } from 'vitest'
import { dewPoint } from '#core/air/dew-point'
import { relativeHumidity } from '#core/air/relative-humidity'
import { saturationPressure } from '#core/air/saturation-pressure'
import { vapourPressureDeficit } from '#core/air/vapour-pressure-deficit'
import { anyAir } from './any-air'

test('air that is full of water wets a surface as warm as itself', () => {
  fc.assert(
    fc.property(fc.double({ min: -40, max: 60, noNaN: true }), (celsius) => {
      expect(dewPoint({ celsius, humidity: 100 })).toBe(celsius)
      expect(vapourPressureDeficit({ celsius, humidity: 100 })).toBe(0)
    }),
  )
})

test('the humidity follows from the dew point again', () => {
  fc.assert(
    fc.property(anyAir, (air) => {
      const dew = dewPoint(air)
      fc.pre(dew >= -40)
      expect(relativeHumidity(air.celsius, dew)).toBeCloseTo(air.humidity, 6)
    }),
  )
})

test('the dew point rises with the temperature and with the humidity', () => {
  fc.assert(
    fc.property(
      anyAir,
      fc.double({ min: 0.1, max: 5, noNaN: true }),
      (air, more) => {
        const dew = dewPoint(air)
        expect(
          dewPoint({ ...air, celsius: air.celsius + more }),
        ).toBeGreaterThan(dew)
        fc.pre(air.humidity + more <= 100)
        expect(
          dewPoint({ ...air, humidity: air.humidity + more }),
        ).toBeGreaterThan(dew)
      },
    ),
  )
})

test.each([0, -1, 100.1, NaN])('a humidity of %d % is refused', (humidity) => {
  expect(() => dewPoint({ celsius: 20, humidity })).toThrow(RangeError)
})

test('temperatures no workshop has are refused, and so is a dew point above the air', () => {
  expect(() => saturationPressure(-41)).toThrow(RangeError)
  expect(() => saturationPressure(61)).toThrow(RangeError)
  expect(() => relativeHumidity(20, 21)).toThrow(RangeError)
})
