import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  againstOtherCamera,
  againstSatellite,
  againstShownClock,
  clockError,
} from '#core/time/clock-error'
import { exactly, span } from '#core/time/span'
import { instant } from '#core/units'

const at = (text: string) => instant(Date.parse(text))
const second = (text: string) => {
  const start = at(text)
  return span(start, start, instant(start + 999))
}

describe('how far a clock is off', () => {
  test('a phone that shows 14:07 tells to about half a minute', () => {
    // The camera says 13:00:10 to 13:00:10.999; it was 14:07:00 to 14:07:59.999: 66 min 49.001 s to 67 min 49.999 s.
    expect(
      clockError([
        againstShownClock(
          second('2026-10-22T13:00:10Z'),
          at('2026-10-22T14:07:00Z'),
          'minute',
        ),
      ]),
    ).toEqual({ correctionSeconds: 66 * 60 + 49 + 31, uncertaintySeconds: 31 })
  })

  test('a phone that shows seconds tells to a second', () => {
    const found = clockError([
      againstShownClock(
        second('2026-10-22T13:00:10Z'),
        at('2026-10-22T14:07:20Z'),
        'second',
      ),
    ])
    expect(found).toEqual({
      correctionSeconds: 67 * 60 + 10,
      uncertaintySeconds: 1,
    })
  })

  test('one satellite fix tells to five minutes, several of different age tell more', () => {
    // 67 minutes slow; fixes 5 s, 4 min and 9 min 59 s old.
    const photo = (taken: string, staleSeconds: number) => {
      const truth = at(taken)
      return againstSatellite(
        exactly(instant(truth - 67 * 60_000)),
        instant(truth - staleSeconds * 1000),
      )
    }
    const one = photo('2026-10-22T10:00:00Z', 240)
    const many = [
      one,
      photo('2026-10-22T10:10:00Z', 5),
      photo('2026-10-22T11:00:00Z', 599),
    ]
    expect(clockError([one])).toEqual({
      correctionSeconds: 67 * 60 - 240 + 300,
      uncertaintySeconds: 300,
    })
    expect(clockError(many)).toEqual({
      correctionSeconds: 67 * 60 - 2,
      uncertaintySeconds: 3,
    })
  })

  test('is not known from nothing, nor from moments that no one correction fits', () => {
    expect(clockError([])).toBeUndefined()
    const moment = (minutes: number) =>
      againstOtherCamera(
        exactly(instant(0)),
        exactly(instant(minutes * 60_000)),
        30,
      )
    expect(clockError([moment(0), moment(60)])).toBeUndefined()
  })
})

test('the true correction is never outside what is said', () => {
  const moment = fc.integer({ min: 1e12, max: 2e12 }).map(instant)
  fc.assert(
    fc.property(
      fc.array(fc.tuple(moment, fc.integer({ min: 0, max: 600_000 })), {
        minLength: 1,
        maxLength: 8,
      }),
      fc.integer({ min: -4_000_000, max: 4_000_000 }),
      (photos, milliseconds) => {
        const found = clockError(
          photos.map(([truth, stale]) =>
            againstSatellite(
              exactly(instant(truth - milliseconds)),
              instant(truth - stale),
            ),
          ),
        )
        const apart = Math.abs(
          (found?.correctionSeconds ?? NaN) * 1000 - milliseconds,
        )
        expect(apart).toBeLessThanOrEqual(
          (found?.uncertaintySeconds ?? NaN) * 1000,
        )
      },
    ),
  )
})
