import { expect, test } from 'vitest'
import {
  clockWords,
  guessedClockWords,
  spanWidthWords,
} from '#core/time/clock-words'
import { span } from '#core/time/span'
import { instant } from '#core/units'

test.each([
  [4020, 31, 'is 67 min slow, to within 31 s'],
  [-125, 0, 'is 2 min 5 s fast, to within 0 s'],
  [90, 30, 'is 1 min 30 s slow, to within 30 s'],
  [3 * 86_400, 60, 'is 3 days slow, to within 1 min'],
])('a clock to be corrected by %d s, known to %d s, %s', (by, to, words) => {
  expect(clockWords({ correctionSeconds: by, uncertaintySeconds: to })).toBe(
    words,
  )
})

test.each([0, 20, -30])(
  'a clock that is off by %d s and known to half a minute is called right',
  (correctionSeconds) => {
    expect(clockWords({ correctionSeconds, uncertaintySeconds: 30 })).toBe(
      'is right, to within 30 s',
    )
  },
)

test.each([
  [0, 'to the second'],
  [999, 'to the second'],
  [59_000, 'to within 59 s'],
  [720_000, 'to within 12 min'],
  [36_000_000, 'to within 10 h'],
])('a time that may be %d ms later is known %s', (milliseconds, words) => {
  const at = instant(Date.parse('2026-10-22T08:00:00Z'))
  const latest = instant(at + milliseconds)
  expect(spanWidthWords(span(at, at, latest))).toBe(words)
})

test('a guess at a clock does not say how closely it is known', () => {
  const guess = { correctionSeconds: 4020, uncertaintySeconds: 31 }
  expect(guessedClockWords(guess)).toBe('is 67 min slow')
})
