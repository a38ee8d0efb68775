import fc from 'fast-check'
import { expect, test } from 'vitest'
import { fractionOf, times } from '#core/money/fraction'
import {
  breakEven,
  priceFloor,
  priceForMargin,
  priceForMarkUp,
  profitAt,
} from '#core/money/price'

const anyCost = fc.nat({ max: 10_000_000 })
const anyFees = fc.record({
  percent: fc.nat({ max: 9_900 }).map((value) => value / 100),
  fixedMinor: fc.nat({ max: 100_000 }),
})

function known<T>(value: T | undefined): T {
  if (value === undefined) throw new Error('expected a price')
  return value
}

test('the break-even price earns nothing, exactly', () => {
  fc.assert(
    fc.property(anyCost, anyFees, (cost, fees) => {
      const profit = profitAt(known(breakEven(cost, fees)), cost, fees)
      expect(profit.numerator).toBe(0n)
    }),
  )
})

test('the floor never loses, and a minor unit less does', () => {
  fc.assert(
    fc.property(anyCost, anyFees, (cost, fees) => {
      const floor = priceFloor(known(breakEven(cost, fees)))
      const at = (price: number) => profitAt(fractionOf(price), cost, fees)
      expect(at(floor).numerator >= 0n).toBe(true)
      if (floor > 0) expect(at(floor - 1).numerator < 0n).toBe(true)
    }),
  )
})

test('a price for a margin leaves that share of itself, one for a mark-up that share of the costs', () => {
  fc.assert(
    fc.property(
      anyCost,
      fc.record({
        percent: fc.nat({ max: 40 }),
        fixedMinor: fc.nat({ max: 100_000 }),
      }),
      fc.nat({ max: 50 }),
      (cost, fees, percent) => {
        const forMargin = known(priceForMargin(cost, fees, percent))
        expect(profitAt(forMargin, cost, fees)).toEqual(
          times(forMargin, fractionOf(percent / 100)),
        )
        const forMarkUp = known(priceForMarkUp(cost, fees, percent))
        expect(profitAt(forMarkUp, cost, fees)).toEqual(
          times(fractionOf(cost), fractionOf(percent / 100)),
        )
      },
    ),
  )
})

test('no costs have a floor of nothing', () => {
  expect(priceFloor(fractionOf(0))).toBe(0)
})
