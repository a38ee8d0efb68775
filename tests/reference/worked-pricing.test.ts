/*
 * The worked job of pricing: acquisition 40.00; 24 miles at 0.725 (the 2026 business rate of the US tax office); 19.87 fl oz
 * of a quart at 38.00; four discs at 0.65 and tape at 1.65; 9.5 hours at 25.00, and 3.00 of overhead each; fees of 10 % and
 * 0.30. Worked by hand with the definitions of profit (price less fees less costs), margin (of the price) and mark-up (of
 * the costs); the amounts are invented, the formulas are those of any textbook of cost accounting. Each expected number
 * below was typed from that working and not from the program.
 */
import { describe, expect, test } from 'vitest'
import type { JobBooks, Rates } from '#core/money/job-books'
import { jobMoney } from '#core/money/job-money'
import { decimalText, fractionOf } from '#core/money/fraction'
import {
  breakEven,
  feesAt,
  marginOf,
  markUpOf,
  priceFloor,
  priceForMargin,
  priceForMarkUp,
  profitAt,
} from '#core/money/price'
import { journal, piece, product, step } from '../core/write-ups/jobs.ts'

const chest = piece('chest', 'chest of drawers', ['body'])
const enamel = product(
  'enamel',
  'waterborne enamel, deep teal',
  'paint',
  'waterborne-acrylic',
  {},
  { pack: { amount: { value: 1, unit: 'us-qt' }, priceMinor: 3800 } },
)
const job = (askingPriceMinor?: number) =>
  journal(
    'Chest',
    [chest],
    [
      step('paint', 'coat', 'chest-body:1', undefined, {
        productId: 'enamel',
        amount: { value: 19.87, unit: 'us-fl-oz' },
      }),
    ],
    [enamel],
    askingPriceMinor === undefined ? {} : { askingPriceMinor },
  )
const books: JobBooks = {
  costs: [
    {
      id: 'a',
      kind: 'acquisition',
      words: 'yard sale',
      quantity: 1,
      eachMinor: 4000,
    },
    { id: 'b', kind: 'travel', words: 'miles', quantity: 24, eachMinor: 72.5 },
    {
      id: 'c',
      kind: 'consumables',
      words: 'discs',
      quantity: 4,
      eachMinor: 65,
    },
    {
      id: 'd',
      kind: 'consumables',
      words: 'tape',
      quantity: 1,
      eachMinor: 165,
    },
  ],
  work: [],
  hours: [{ stepId: 'paint', workMinutes: 570, otherPieces: 0 }],
  sale: {},
}
const rates: Rates = {
  hourlyMinor: 2500,
  // 3,600 a year over 1,200 hours are 3.00.
  yearlyOverheadMinor: 360_000,
  productiveHours: 1200,
  feePercent: 10,
  feeFixedMinor: 30,
}
const fees = { percent: 10, fixedMinor: 30 }

describe('what the job cost', () => {
  const money = jobMoney(job(), books, rates, 'USD')

  test.each([
    ['acquisition', 'yard sale', 4000, '40.00'],
    ['travel', 'miles', 1740, '24 × 0.725 = 17.40'],
    ['consumables', 'discs', 260, '4 × 0.65 = 2.60'],
    ['consumables', 'tape', 165, '1.65'],
    ['material', 'waterborne enamel, deep teal', 2360, '0.621 × 38.00 = 23.60'],
    ['labour', '', 23_750, '9.5 h × 25.00 = 237.50'],
    ['overhead', '', 2850, '9.5 h × 3.00 = 28.50'],
  ])('%s %s: %i', (kind, words, minor, arithmetic) => {
    expect(
      money.lines.find((line) => line.kind === kind && line.words === words),
    ).toMatchObject({ minor, arithmetic })
  })

  test('in all 351.25, of which 113.75 are outlay', () => {
    expect(money.costMinor).toBe(35_125)
    expect(money.outlayMinor).toBe(11_375)
    expect(money.gaps).toEqual([])
  })

  test('break-even is 390.6111, so that 390.62 is the lowest price that loses nothing', () => {
    expect(money.breakEven).toEqual({
      exact: '390.6111',
      priceMinor: 39_062,
      arithmetic: '(351.25 + 0.30) ÷ (1 − 0.1) = 390.6111',
    })
  })

  test('with one’s own labour free it is 126.72', () => {
    expect(money.outlayBreakEven?.exact).toBe('126.7222')
  })

  test('a margin of 20 % asks for 502.21', () => {
    expect(money.targets[0]).toMatchObject({
      marginPercent: 20,
      exact: '502.2143',
      priceMinor: 50_221,
    })
  })
})

test('a mark-up of 50 % on the costs asks for 585.75', () => {
  const price = priceForMarkUp(35_125, fees, 50)
  expect(price && decimalText(price, 0)).toBe('58575')
})

describe('what a price brings', () => {
  test('450 bring 53.45: a margin of 11.88 %, and 30.63 an hour', () => {
    const { asking } = jobMoney(job(45_000), books, rates, 'USD')
    expect(asking).toMatchObject({
      feesMinor: 4530,
      profitMinor: 5345,
      marginPercent: 11.88,
      hourlyMinor: 3063,
      arithmetic: [
        '450.00 − 45.30 − 351.25 = 53.45',
        '450.00 − 45.30 − 113.75 = 290.95',
        '290.95 ÷ 9.5 h = 30.63',
      ],
    })
  })

  test('300 lose 81.55, and still leave 16.42 an hour', () => {
    const { supposed } = jobMoney(job(), books, rates, 'USD', {
      priceMinor: 30_000,
    })
    expect(supposed).toMatchObject({ profitMinor: -8155, hourlyMinor: 1642 })
  })

  test('15 % off 502.21 leave 32.64', () => {
    // 0.85 x 502.21 = 426.8785.
    const { sold } = jobMoney(
      job(),
      { ...books, sale: { priceMinor: 42_688 } },
      rates,
      'USD',
    )
    expect(sold?.profitMinor).toBe(3264)
  })

  test('tax that is handed on is no income: 240 with a fifth on top hold 40.00', () => {
    const { sold } = jobMoney(
      job(),
      {
        ...books,
        sale: { priceMinor: 24_000, taxMinor: 4000, feesPaidMinor: 0 },
      },
      rates,
      'USD',
    )
    // 240.00 - 40.00 - 113.75.
    expect(sold?.earnedMinor).toBe(8625)
  })
})

// margin = u / (1 + u), u = margin / (1 - margin), without fees.
test.each([
  [20, 16.67],
  [25, 20],
  [50, 33.33],
  [100, 50],
  [150, 60],
  [200, 66.67],
])('a mark-up of %d %% is a margin of %d %%', (markUp, margin) => {
  const none = { percent: 0, fixedMinor: 0 }
  const price = Number(priceForMarkUp(10_000, none, markUp)?.numerator)
  const percent = (share = fractionOf(0)) =>
    Math.round((Number(share.numerator) / Number(share.denominator)) * 10_000) /
    100
  expect(percent(marginOf(price - 10_000, price))).toBe(margin)
  expect(percent(markUpOf(price - 10_000, 10_000))).toBe(markUp)
})

test('no price has a margin of 100 %, nor of 90 % after fees of a tenth', () => {
  expect(priceForMargin(35_125, fees, 100)).toBeUndefined()
  expect(priceForMargin(35_125, fees, 90)).toBeUndefined()
  expect(breakEven(35_125, { percent: 100, fixedMinor: 0 })).toBeUndefined()
})

test('the check of the 20 % price: 502.2143 less fees and costs are a fifth of it', () => {
  const price = priceForMargin(35_125, fees, 20)
  if (price === undefined) throw new Error('expected a price')
  expect(decimalText(profitAt(price, 35_125, fees), 0)).toBe('10044')
})

test('390.61 loses a tenth of a cent', () => {
  expect(decimalText(profitAt(fractionOf(39_061), 35_125, fees), 1)).toBe(
    '-0.1',
  )
  expect(priceFloor(fractionOf(39_061.1111))).toBe(39_062)
  expect(feesAt(42_688, fees)).toBe(4299)
})
