import { describe, expect, test } from 'vitest'
import { whyNotHandedOver } from '#core/journal/hand-over'
import { type Instant, instant } from '#core/units'

const style = { zone: 'Europe/London', units: 'metric' } as const
const at = (text: string): Instant => instant(Date.parse(text))
const noonOf = (day: string) => at(`${day}T12:00:00Z`)
const begunAt = at('2026-10-22T08:10:00Z')
const now = at('2026-11-25T09:00:00Z')

const why = (sold: string | null, delivered: string | null, more = {}) =>
  whyNotHandedOver(
    {
      soldAt: sold === null ? null : noonOf(sold),
      deliveredAt: delivered === null ? null : noonOf(delivered),
    },
    { begunAt, isOrdered: false, ...more },
    now,
    style,
  )

describe('the days of a hand-over', () => {
  test.each([
    [null, null],
    ['2026-11-20', null],
    ['2026-11-20', '2026-11-20'],
    ['2026-11-20', '2026-11-25'],
    // Noon of today is later than this morning, and still today.
    ['2026-11-25', '2026-11-25'],
    ['2026-10-22', null],
    [null, '2026-11-20'],
  ])('sold %s, delivered %s', (sold, delivered) => {
    expect(why(sold, delivered)).toBeUndefined()
  })

  test('are not before the first photo or step, and say of when that is', () => {
    expect(why('2025-01-01', null)).toEqual({
      day: 'sold',
      reason:
        'That is before the first photo or step of this job, of 22 October 2026.',
    })
    expect(why(null, '2026-10-21')).toMatchObject({ day: 'delivered' })
  })

  test('begin where they like in a job that has no photo and no step', () => {
    expect(
      why('2025-01-01', '2025-01-02', { begunAt: undefined }),
    ).toBeUndefined()
  })

  test('may begin before the work where somebody ordered it, but nobody takes what is not begun', () => {
    const ordered = { isOrdered: true }
    expect(why('2026-09-01', '2026-11-20', ordered)).toBeUndefined()
    expect(why('2026-09-01', '2026-09-30', ordered)).toMatchObject({
      day: 'delivered',
    })
  })

  test('come in their order', () => {
    expect(why('2026-11-20', '2026-11-19')).toEqual({
      day: 'delivered',
      reason: 'That is before it was sold. Look at both days.',
    })
  })

  test('are not still to come', () => {
    expect(why('2026-11-26', null)).toMatchObject({ day: 'sold' })
    expect(why('2027-11-26', null)?.reason).toContain('future')
  })
})
