import { describe, expect, test } from 'vitest'
import { judgeGap } from '#core/drying/judge-gap'
import { typicalSentence, typicalTimes } from '#core/drying/typical-times'
import { chemistries, productCategories } from '#core/shelf/product'
import { clocksIn, moment } from './any-coat'

const every = chemistries.flatMap((chemistry) =>
  productCategories.flatMap((category) => {
    const typical = typicalTimes(chemistry, category)
    return typical === undefined ? [] : [{ chemistry, category, typical }]
  }),
)

describe('what is typical for a kind', () => {
  test('comes dry to the touch before it is recoated, and cured last', () => {
    // The order of the stages of drying: ASTM D1640, ISO 9117 (touch, recoat, through).
    expect(every.length).toBeGreaterThan(50)
    for (const { typical } of every) {
      const { touchMinutes, recoatMinutes, cureDays } = typical
      for (const range of [touchMinutes, recoatMinutes, cureDays])
        if (range !== undefined)
          expect(range.low).toBeLessThanOrEqual(range.high)
      if (touchMinutes !== undefined && recoatMinutes !== undefined)
        expect(touchMinutes.low).toBeLessThanOrEqual(recoatMinutes.low)
      if (recoatMinutes !== undefined && cureDays !== undefined)
        expect(recoatMinutes.high).toBeLessThanOrEqual(cureDays.high * 1440)
    }
  })

  test('tells a primer from a paint of the same chemistry', () => {
    expect(typicalTimes('shellac', 'primer')?.kind).toBe('a shellac primer')
    expect(typicalTimes('shellac', 'clear coat')?.kind).toBe('clear shellac')
  })

  test.each([
    ['oil-stain', 'conditioner'],
    ['paste', 'stripper'],
    ['other', 'paint'],
  ] as const)('is not told for %s as a %s', (chemistry, category) => {
    expect(typicalTimes(chemistry, category)).toBeUndefined()
  })

  test('says that it is typical and decides nothing', () => {
    for (const { typical } of every) {
      expect(typicalSentence(typical)).toMatch(/^Typical for /)
      expect(typicalSentence(typical)).toContain('nothing is judged by this')
    }
    expect(
      typicalSentence(
        typicalTimes('waterborne-acrylic', 'paint') ?? { kind: '' },
      ),
    ).toBe(
      'Typical for a waterborne paint: a wait of 2 h to 4 h before the next coat and 14 days to 30 days to cure. Your can may differ, and nothing is judged by this.',
    )
  })
})

test('a silent label stays without a verdict, and gets a word of what is typical', () => {
  const check = judgeGap(
    { earlier: moment(0), later: moment(5), purpose: 'recoat' },
    { chemistry: 'waterborne-acrylic', category: 'paint', label: {} },
    clocksIn([]),
  )
  expect(check.verdict).toBe('no-label')
  expect(check.required).toBeUndefined()
  expect(check.advice).toContain('Typical for a waterborne paint')
})
