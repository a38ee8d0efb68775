import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { airCourse } from '#core/air/air-course'
import { dryingClocks } from '#core/drying/drying-clock'
import { type StepTime, judgeGap } from '#core/drying/judge-gap'
import { standardAir } from '#core/drying/drying-speed'
import { instant } from '#core/units'
import { span } from '#core/time/span'
import { anyReadings, at, minute, steadyAir } from '../air/any-air'
import {
  anyChemistry,
  anyLabel,
  clocksIn,
  lasting,
  moment,
  sometime,
} from './any-coat'
import { slowDrying } from './slow-drying'

const reference = { celsius: 25, humidity: 50 }
const enamel = {
  chemistry: 'waterborne-acrylic' as const,
  label: { recoatMinutes: 60, reference },
}
const noAir = clocksIn([])

describe('the reason shows its numbers', () => {
  test('cold and damp: the label, the air, the wait it asked for, the wait it was', () => {
    const check = judgeGap(
      { earlier: moment(0), later: moment(38), purpose: 'recoat' },
      enamel,
      clocksIn(steadyAir(14, 78)),
    )
    expect(check.verdict).toBe('too-soon')
    expect(check.reason).toBe(
      'Label: 60 min at 25 °C and 50 %. It was 14 °C and 78 %, so about 4 h 30 min. The wait was 38 min.',
    )
    expect(check.advice).toContain('fingernail')
  })

  test('without readings the label’s air is assumed, and the reason says so', () => {
    const check = judgeGap(
      { earlier: moment(0), later: moment(90), purpose: 'recoat' },
      enamel,
      noAir,
    )
    expect(check).toMatchObject({
      verdict: 'in-window',
      required: 60,
      label: { min: 60 },
      dryness: { low: 1.5, high: 1.5 },
      advice: '',
    })
    expect(check.reason).toContain('no air readings')
  })

  test('a label that names no air is read at 23 °C and 50 %, and the reason says so', () => {
    const check = judgeGap(
      { earlier: moment(0), later: moment(90), purpose: 'recoat' },
      { ...enamel, label: { recoatMinutes: 60 } },
      noAir,
    )
    expect(check.reason).toContain('names no air, so 23 °C and 50 % is taken')
  })

  test.each([
    [
      { celsius: 20 },
      'at 20 °C (it names no humidity, so 50 % is taken)',
      { celsius: 20, humidity: 50 },
    ],
    [
      { humidity: 65 },
      'at 65 % (it names no temperature, so 23 °C is taken)',
      { celsius: 23, humidity: 65 },
    ],
  ])(
    'a label that names half of its air is read as if it named the rest, and the reason says which half it did not: %o',
    (named, words, whole) => {
      const judged = (air: Partial<typeof reference>) =>
        judgeGap(
          { earlier: moment(0), later: moment(90), purpose: 'recoat' },
          { ...enamel, label: { recoatMinutes: 60, reference: air } },
          clocksIn(steadyAir(14, 78)),
        )
      expect(judged(named).reason).toContain(words)
      expect(judged(named)).toMatchObject({
        verdict: judged(whole).verdict,
        dryness: judged(whole).dryness,
      })
    },
  )

  test('readings that end too early are said to cover only part', () => {
    const check = judgeGap(
      { earlier: moment(0), later: moment(3000), purpose: 'recoat' },
      { ...enamel, label: { recoatMinutes: 2000, reference } },
      clocksIn(steadyAir(25, 50, 0)),
    )
    expect(check.reason).toContain('only part of that time')
  })

  test('a product the air is not known for keeps its label', () => {
    const check = judgeGap(
      { earlier: moment(0), later: moment(50), purpose: 'recoat' },
      { chemistry: 'wax', label: { recoatMinutes: 60 } },
      clocksIn(steadyAir(5, 90)),
    )
    expect(check).toMatchObject({ verdict: 'too-soon', required: 60 })
    expect(check.reason).toContain('the label stands as it is')
  })

  test('nothing is said without a label', () => {
    const gap = {
      earlier: moment(0),
      later: moment(50),
      purpose: 'recoat',
    } as const
    for (const coat of [undefined, { ...enamel, label: {} }]) {
      const check = judgeGap(gap, coat, noAir)
      expect(check).toMatchObject({ verdict: 'no-label', label: {} })
      expect(check).not.toHaveProperty('required')
      expect(check.reason).toContain('The wait was 50 min.')
      expect(check.advice).not.toBe('')
    }
  })
})

describe('the bounds themselves', () => {
  test.each([
    [59.999, 'too-soon'],
    [60, 'in-window'],
    [1440, 'in-window'],
    [1440.001, 'past-window'],
  ])('a wait of %d min against 60 min to 24 h is %s', (wait, verdict) => {
    expect(
      judgeGap(
        { earlier: moment(0), later: moment(wait), purpose: 'recoat' },
        { ...enamel, label: { recoatMinutes: 60, recoatByMinutes: 1440 } },
        noAir,
      ).verdict,
    ).toBe(verdict)
  })

  test('the minimum is held against the spot that waited least, the maximum against the one that waited most', () => {
    const label = { recoatMinutes: 60, recoatByMinutes: 120, reference }
    const verdictOf = (earlier: StepTime, later: StepTime) =>
      judgeGap(
        { earlier, later, purpose: 'recoat' },
        { ...enamel, label },
        noAir,
      ).verdict
    // 40 min on the spot coated last, 100 min on the one coated first.
    expect(verdictOf(lasting(0, 30), lasting(70, 100))).toBe('too-soon')
    expect(verdictOf(lasting(0, 30), lasting(90, 120))).toBe('in-window')
    expect(verdictOf(lasting(0, 30), lasting(100, 130))).toBe('past-window')
  })

  test('a passed window counts again after a scuff or a sand', () => {
    const coat = {
      ...enamel,
      label: { recoatMinutes: 60, recoatByMinutes: 1440 },
    }
    const gap = {
      earlier: moment(0),
      later: moment(3000),
      purpose: 'recoat',
    } as const
    expect(judgeGap(gap, coat, noAir)).toMatchObject({
      verdict: 'past-window',
      label: { min: 60, max: 1440 },
    })
    for (const prepared of ['scuff', 'sand'] as const)
      expect(judgeGap({ ...gap, prepared }, coat, noAir).verdict).toBe(
        'in-window',
      )
    expect(
      judgeGap({ ...gap, later: moment(30), prepared: 'sand' }, coat, noAir)
        .verdict,
    ).toBe('too-soon')
  })

  test('cold never keeps a window open: it may close before the coat is dry', () => {
    const coat = {
      ...enamel,
      label: { recoatMinutes: 60, recoatByMinutes: 120, reference },
    }
    const cold = clocksIn(steadyAir(14, 78))
    const verdictAfter = (wait: number) =>
      judgeGap(
        { earlier: moment(0), later: moment(wait), purpose: 'recoat' },
        coat,
        cold,
      )
    expect(verdictAfter(110).verdict).toBe('too-soon')
    expect(verdictAfter(200).verdict).toBe('too-soon')
    expect(verdictAfter(300).verdict).toBe('past-window')
    expect(verdictAfter(300).reason).toContain('closed before')
  })

  test('an aerosol has a dead zone between its windows', () => {
    const coat = {
      chemistry: 'aerosol' as const,
      label: {
        recoatWindows: [
          { fromMinutes: 0, toMinutes: 60 },
          { fromMinutes: 2880 },
        ],
      },
    }
    const judged = (later: StepTime) =>
      judgeGap({ earlier: moment(0), later, purpose: 'recoat' }, coat, noAir)
    expect(judged(moment(40)).verdict).toBe('in-window')
    expect(judged(moment(600))).toMatchObject({
      verdict: 'too-soon',
      label: { min: 2880 },
      required: 2880,
    })
    expect(judged(moment(600)).reason).toContain(
      'That is between two windows: the one before closed after 60 min.',
    )
    expect(judged(moment(3000)).verdict).toBe('in-window')
    // Begun in time, ended in the dead zone.
    expect(judged(lasting(50, 80)).verdict).toBe('past-window')
  })

  test('an aerosol’s early window closes sooner in warm air', () => {
    const coat = {
      chemistry: 'aerosol' as const,
      label: {
        recoatWindows: [
          { fromMinutes: 0, toMinutes: 60 },
          { fromMinutes: 2880 },
        ],
      },
    }
    const verdictAt = (celsius: number) =>
      judgeGap(
        { earlier: moment(0), later: moment(40), purpose: 'recoat' },
        coat,
        clocksIn(steadyAir(celsius, 50)),
      ).verdict
    expect(verdictAt(23)).toBe('in-window')
    expect(verdictAt(33)).toBe('too-soon')
    expect(verdictAt(13)).toBe('in-window')
  })

  test('after its first window a fast varnish wants a day and a sand', () => {
    const coat = {
      chemistry: 'oil-alkyd' as const,
      label: {
        recoatWindows: [
          { fromMinutes: 240, toMinutes: 360 },
          { fromMinutes: 1440, needs: 'sand' as const },
        ],
      },
    }
    const verdictAfter = (wait: number, prepared?: 'sand' | 'scuff') =>
      judgeGap(
        {
          earlier: moment(0),
          later: moment(wait),
          purpose: 'recoat',
          ...(prepared !== undefined && { prepared }),
        },
        coat,
        noAir,
      ).verdict
    expect(verdictAfter(200)).toBe('too-soon')
    expect(verdictAfter(300)).toBe('in-window')
    expect(verdictAfter(600)).toBe('too-soon')
    expect(verdictAfter(600, 'sand')).toBe('too-soon')
    expect(verdictAfter(1500)).toBe('past-window')
    expect(verdictAfter(1500, 'scuff')).toBe('past-window')
    expect(verdictAfter(1500, 'sand')).toBe('in-window')
  })

  test('a label that only says by when can be passed, never met', () => {
    const coat = { ...enamel, label: { recoatByMinutes: 60 } }
    const judged = (wait: number) =>
      judgeGap(
        { earlier: moment(0), later: moment(wait), purpose: 'recoat' },
        coat,
        noAir,
      )
    expect(judged(30)).toMatchObject({
      verdict: 'no-label',
      label: { max: 60 },
    })
    expect(judged(90)).toMatchObject({
      verdict: 'past-window',
      label: { max: 60 },
    })
  })
})

describe('what cannot be told is not told', () => {
  test('an hour that may be one or two leaves the verdict open only where a bound lies between', () => {
    const judged = (label: number) =>
      judgeGap(
        { earlier: moment(0), later: sometime(60, 120), purpose: 'recoat' },
        { ...enamel, label: { recoatMinutes: label } },
        noAir,
      )
    expect(judged(30).verdict).toBe('in-window')
    expect(judged(90).verdict).toBe('unsure')
    expect(judged(90).reason).toContain('between 60 min and 2 h')
    expect(judged(150).verdict).toBe('too-soon')
  })

  test('air too damp for an estimate makes no wait long enough for certain, unless it was far too short', () => {
    const damp = clocksIn(steadyAir(8, 99))
    const judged = (wait: number) =>
      judgeGap(
        { earlier: moment(0), later: moment(wait), purpose: 'recoat' },
        enamel,
        damp,
      )
    expect(judged(300)).toMatchObject({ verdict: 'too-soon', required: 360 })
    expect(judged(3000).verdict).toBe('unsure')
    expect(judged(3000).reason).toContain('too cold or too damp to tell')
    expect(judged(3000).advice).toContain('Treat it as too soon')
  })
})

describe('laws', () => {
  const anyWait = fc.integer({ min: 0, max: 20_000 })

  test('no weather makes the wait shorter than the label', () => {
    fc.assert(
      fc.property(
        anyReadings,
        anyChemistry,
        anyLabel,
        anyWait,
        (readings, chemistry, label, wait) => {
          const check = judgeGap(
            { earlier: moment(0), later: moment(wait), purpose: 'recoat' },
            { chemistry, label },
            clocksIn(readings),
          )
          expect(check.required).toBeGreaterThanOrEqual(label.recoatMinutes)
          if (wait < label.recoatMinutes) expect(check.verdict).toBe('too-soon')
          if (check.verdict === 'in-window')
            expect(wait).toBeGreaterThanOrEqual(label.recoatMinutes)
        },
      ),
    )
  })

  test('waiting longer never turns a ready surface into one recoated too soon', () => {
    fc.assert(
      fc.property(
        anyReadings,
        anyChemistry,
        anyLabel,
        anyWait,
        anyWait,
        (readings, chemistry, label, wait, longer) => {
          const clocks = clocksIn(readings)
          const verdictAfter = (minutes: number) =>
            judgeGap(
              { earlier: moment(0), later: moment(minutes), purpose: 'recoat' },
              { chemistry, label },
              clocks,
            ).verdict
          fc.pre(verdictAfter(wait) === 'in-window')
          expect(['in-window', 'past-window']).toContain(
            verdictAfter(wait + longer),
          )
        },
      ),
    )
  })

  test('in air that does not change, the day does not matter', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 35, noNaN: true }),
        fc.double({ min: 20, max: 90, noNaN: true }),
        anyChemistry,
        anyLabel,
        anyWait,
        (celsius, humidity, chemistry, label, wait) => {
          const clocks = clocksIn(steadyAir(celsius, humidity, 60 * 1440))
          const judged = (day: number) =>
            judgeGap(
              {
                earlier: moment(day * 1440),
                later: moment(day * 1440 + wait),
                purpose: 'recoat',
              },
              { chemistry, label },
              clocks,
            )
          const [today, tomorrow] = [judged(0), judged(1)]
          expect(tomorrow.verdict).toBe(today.verdict)
          expect(tomorrow.required).toBeCloseTo(today.required ?? NaN, 4)
          expect(tomorrow.dryness?.low).toBeCloseTo(
            today.dryness?.low ?? NaN,
            6,
          )
        },
      ),
    )
  })

  test('all times and readings a day later change nothing', () => {
    const day = 1440 * minute
    fc.assert(
      fc.property(
        anyReadings,
        anyChemistry,
        anyLabel,
        anyWait,
        (readings, chemistry, label, wait) => {
          const later = readings.map((one) => ({
            ...one,
            at: instant(one.at + day),
          }))
          const judged = (offset: number, air: typeof readings) =>
            judgeGap(
              {
                earlier: moment(offset),
                later: moment(offset + wait),
                purpose: 'recoat',
              },
              { chemistry, label },
              clocksIn(air),
            )
          expect(judged(1440, later).verdict).toBe(judged(0, readings).verdict)
        },
      ),
    )
  })

  test('the verdict holds for every time the spans allow, and is unsure only where they differ', () => {
    const anySpan = fc.record({
      first: fc.integer({ min: 0, max: 400 }),
      width: fc.integer({ min: 0, max: 120 }),
    })
    const plain = (
      readings: Parameters<typeof airCourse>[0],
      chemistry: 'waterborne-acrylic' | 'oil-alkyd' | 'other',
      label: { recoatMinutes: number; recoatByMinutes?: number },
      times: readonly [number, number, number, number],
    ) => {
      const [start1, end1, start2, end2] = times
      const dried = slowDrying(
        readings,
        chemistry,
        standardAir,
        at(end1),
        at(start2),
      ).low
      if (dried < label.recoatMinutes - 1e-5) return 'too-soon'
      return end2 - start1 > (label.recoatByMinutes ?? Infinity)
        ? 'past-window'
        : 'in-window'
    }
    fc.assert(
      fc.property(
        fc.constantFrom('waterborne-acrylic', 'oil-alkyd', 'other'),
        fc.record({
          recoatMinutes: fc.integer({ min: 5, max: 300 }),
          open: fc.integer({ min: 0, max: 500 }),
        }),
        fc.tuple(anySpan, anySpan, anySpan, anySpan),
        fc.double({ min: 12, max: 30, noNaN: true }),
        fc.double({ min: 30, max: 70, noNaN: true }),
        (chemistry, { recoatMinutes, open }, spans, celsius, humidity) => {
          const label = { recoatMinutes, recoatByMinutes: recoatMinutes + open }
          const readings = steadyAir(celsius, humidity, 1440)
          // Four moments in order, each anywhere in its span.
          let before = 0
          const bounds = spans.map(({ first, width }) => {
            const low = before + first
            before = low + width
            return [low, low + width] as const
          })
          const [a, b, c, d] = bounds
          if (!a || !b || !c || !d) throw new RangeError('four spans')
          const asSpan = ([low, high]: readonly [number, number]) =>
            span(at(low), at(low), at(high))
          const check = judgeGap(
            {
              earlier: { started: asSpan(a), finished: asSpan(b) },
              later: { started: asSpan(c), finished: asSpan(d) },
              purpose: 'recoat',
            },
            { chemistry, label },
            dryingClocks(airCourse(readings)),
          )
          const possible = new Set<string>()
          const looks = ([low, high]: readonly [number, number]) => [
            low,
            (low + high) / 2,
            high,
          ]
          for (const start1 of looks(a))
            for (const end1 of looks(b))
              for (const start2 of looks(c))
                for (const end2 of looks(d))
                  possible.add(
                    plain(readings, chemistry, label, [
                      start1,
                      end1,
                      start2,
                      end2,
                    ]),
                  )
          if (check.verdict === 'unsure')
            expect(possible.size).toBeGreaterThan(1)
          else expect([...possible]).toEqual([check.verdict])
        },
      ),
      { numRuns: 300 },
    )
  })
})
