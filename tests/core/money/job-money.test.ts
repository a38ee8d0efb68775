import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type JobBooks, costKinds } from '#core/money/job-books'
import { entryMinor, jobMoney } from '#core/money/job-money'
import { journal, piece, product, step } from '../write-ups/jobs.ts'

const table = piece('table', 'table', ['top'], {
  widthMillimetres: 1000,
  depthMillimetres: 1000,
})
const stool = piece('stool', 'stool', ['top'], {
  widthMillimetres: 500,
  depthMillimetres: 500,
})
const clear = product(
  'clear',
  'waterborne clear coat, satin',
  'clear coat',
  'waterborne-acrylic',
  { spreadSquareMetresPerLitre: 10 },
  { pack: { amount: { value: 1, unit: 'l' }, priceMinor: 3400 } },
)
const empty: JobBooks = { costs: [], work: [], hours: [], sale: {} }
const both = step('seal', 'seal', 'table-top stool-top', '2026-10-24T10:00', {
  productId: 'clear',
  method: 'brush',
})
const set = journal('Set', [table, stool], [both], [clear])

describe('the money of a job', () => {
  test('reckons what was not measured, says so, and shares it out by area', () => {
    const { lines } = jobMoney(set, empty, {}, 'GBP')
    // 1.25 m² ÷ (10 m²/l × 0.95) = 0.131579 l of a litre at 34.00: 4.47, four fifths of it on the table.
    expect(lines).toEqual([
      {
        kind: 'material',
        words: 'waterborne clear coat, satin',
        arithmetic: '0.1316 × 34.00 = 4.47',
        minor: 447,
        byPiece: [358, 89],
        isReckoned: true,
      },
    ])
  })

  test('says what is missing before its sums are whole', () => {
    expect(jobMoney(set, empty, {}, 'GBP').gaps).toEqual([
      'acquisition',
      'hourly rate',
      'overhead',
      'hours',
    ])
  })

  test('has no floor while an hour has no rate, and knows what is paid for all the same', () => {
    const money = jobMoney(set, empty, {}, 'GBP')
    expect(money.breakEven).toBeNull()
    expect(money.outlayBreakEven?.priceMinor).toBe(447)
  })

  test('a wanted hourly rate that is tried takes the place of the usual one', () => {
    const hours = [{ stepId: 'seal', workMinutes: 120, otherPieces: 0 }]
    const money = jobMoney(
      set,
      { ...empty, hours },
      { hourlyMinor: 2000 },
      'GBP',
      { hourlyMinor: 3500 },
    )
    // 2 h × 35.00 + 4.47.
    expect(money.breakEven?.priceMinor).toBe(7447)
    expect(
      jobMoney(set, { ...empty, hours }, { hourlyMinor: 2000 }, 'GBP').breakEven
        ?.priceMinor,
    ).toBe(4447)
  })

  test('costs of selling are fees and no costs of the piece', () => {
    const money = jobMoney(
      set,
      {
        ...empty,
        costs: [
          {
            id: 's',
            kind: 'selling',
            words: 'delivery',
            quantity: 1,
            eachMinor: 1500,
          },
        ],
      },
      { feePercent: 10, feeFixedMinor: 30 },
      'GBP',
    )
    expect(money.costMinor).toBe(447)
    expect(money.fees).toEqual({ percent: 10, fixedMinor: 1530 })
  })

  test('what is nothing stands in no sum, and a share of a pack has no more decimals than it needs', () => {
    const bought = (quantity: number, eachMinor: number): JobBooks => ({
      ...empty,
      costs: [{ id: 'a', kind: 'acquisition', words: '', quantity, eachMinor }],
    })
    const quarter = { ...both, amount: { value: 0.25, unit: 'l' as const } }
    const used = journal('Set', [table, stool], [quarter], [clear])
    const money = jobMoney(used, bought(1, 10_000), {}, 'GBP')
    expect(money.outlayBreakEven?.arithmetic).toBe('')
    expect(
      money.lines.find(({ kind }) => kind === 'material')?.arithmetic,
    ).toBe('0.25 × 34.00 = 8.50')
    expect(
      jobMoney(used, bought(1, 10_000), { feePercent: 10 }, 'GBP')
        .outlayBreakEven?.arithmetic,
    ).toBe('108.50 ÷ (1 − 0.1) = 120.5556')
    expect(
      jobMoney(used, bought(1, 10_000), { feeFixedMinor: 30 }, 'GBP')
        .outlayBreakEven?.arithmetic,
    ).toBe('108.50 + 0.30 = 108.80')
  })

  test('yen have no decimals in any sum', () => {
    const money = jobMoney(
      set,
      {
        ...empty,
        costs: [
          {
            id: 'a',
            kind: 'acquisition',
            words: '',
            quantity: 3,
            eachMinor: 1250,
          },
        ],
        sale: { priceMinor: 20_000 },
      },
      {},
      'JPY',
    )
    expect(money.lines[0]?.arithmetic).toBe('3 × 1250 = 3750')
    expect(money.sold?.arithmetic).toEqual(['20000 − 4197 = 15803'])
  })
})

const anyBooks: fc.Arbitrary<JobBooks> = fc.record({
  costs: fc.array(
    fc.record(
      {
        id: fc.uuid(),
        kind: fc.constantFrom(...costKinds),
        words: fc.string(),
        quantity: fc.nat({ max: 10_000 }).map((value) => value / 8),
        eachMinor: fc.nat({ max: 1_000_000 }).map((value) => value / 10),
        pieceId: fc.constantFrom('table', 'stool'),
      },
      { requiredKeys: ['id', 'kind', 'words', 'quantity', 'eachMinor'] },
    ),
    { maxLength: 8 },
  ),
  work: fc.array(
    fc.record(
      {
        id: fc.uuid(),
        words: fc.string(),
        minutes: fc.nat({ max: 3000 }),
        pieceId: fc.constantFrom('table', 'stool'),
      },
      { requiredKeys: ['id', 'words', 'minutes'] },
    ),
    { maxLength: 4 },
  ),
  hours: fc.constantFrom(
    [],
    [{ stepId: 'seal', workMinutes: 77, otherPieces: 1 }],
  ),
  sale: fc.record(
    { priceMinor: fc.nat({ max: 1_000_000 }), feePercent: fc.nat({ max: 90 }) },
    { requiredKeys: [] },
  ),
})

test('lines add up to the costs, and the shares of the pieces to each line', () => {
  fc.assert(
    fc.property(anyBooks, fc.nat({ max: 10_000 }), (books, hourlyMinor) => {
      const money = jobMoney(
        set,
        books,
        { hourlyMinor, yearlyOverheadMinor: 77_777, productiveHours: 1111 },
        'GBP',
      )
      const sum = (values: readonly number[]) =>
        values.reduce((all, value) => all + value, 0)
      for (const line of money.lines) expect(sum(line.byPiece)).toBe(line.minor)
      expect(sum(money.lines.map(({ minor }) => minor))).toBe(money.costMinor)
      expect(sum(money.byPiece.map(({ costMinor }) => costMinor))).toBe(
        money.costMinor,
      )
      expect(sum(money.byPiece.map(({ minutes }) => minutes))).toBe(
        money.hours.minutes,
      )
      expect(sum(money.byPiece.map(({ floorMinor }) => floorMinor ?? 0))).toBe(
        money.breakEven?.priceMinor,
      )
      expect(
        sum(
          books.costs
            .filter(({ kind }) => kind !== 'selling')
            .map((entry) => entryMinor(entry)),
        ),
      ).toBe(
        sum(
          money.lines
            .filter(
              ({ kind }) => !['material', 'labour', 'overhead'].includes(kind),
            )
            .map(({ minor }) => minor),
        ),
      )
    }),
  )
})

test('at the lowest price the hours earn their rate', () => {
  fc.assert(
    fc.property(anyBooks, fc.nat({ max: 10_000 }), (books, hourlyMinor) => {
      const rates = { hourlyMinor }
      const floor = jobMoney(set, books, rates, 'GBP').breakEven?.priceMinor
      if (floor === undefined) return
      const { supposed, hours } = jobMoney(set, books, rates, 'GBP', {
        priceMinor: floor,
      })
      // Fees are charged in whole minor units, so the profit is within one of none.
      expect(Math.abs(supposed?.profitMinor ?? NaN)).toBeLessThanOrEqual(1)
      if (hours.minutes >= 60) {
        expect(
          Math.abs((supposed?.hourlyMinor ?? NaN) - hourlyMinor),
        ).toBeLessThanOrEqual(2)
      }
    }),
  )
})
