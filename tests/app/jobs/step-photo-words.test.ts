import { describe, expect, test } from 'vitest'
import { stepTimes } from '#core/timeline/step-times'
import {
  noPhotosWords,
  stepOverWords,
} from '../../../app/jobs/[job]/_step-photo-words'
import { journalOf, photo, utc } from '../../core/timeline/journal-of'

const startedAt = utc('2026-10-22T09:00:00Z')
const finishedAt = utc('2026-10-22T10:00:00Z')

/** What may be typed of a step, and whether a photo before, and one long after, then moves its start and its end. */
const cases = [
  ['nothing', {}, { start: true, end: true }],
  ['a start', { startedAt }, { start: false, end: true }],
  ['an end', { finishedAt }, { start: true, end: false }],
  ['both', { startedAt, finishedAt }, { start: false, end: false }],
] as const

describe.each(cases)('a step of which %s is typed', (_, typed, moves) => {
  test('says of photos to come what they will do', () => {
    const words = noPhotosWords(typed)
    expect(words).toMatch(/^No photos of this step yet\. /)
    expect(words.includes('when it began')).toBe(moves.start)
    expect(words.includes('when it ended')).toBe(moves.end)
    expect(words.includes('leave them as they are')).toBe(
      !moves.start && !moves.end,
    )
  })

  test('is stretched by a photo taken now exactly where it says so', () => {
    for (const before of [[], ['2026-10-22T09:30:00Z']]) {
      const told = stepOverWords(typed, before.length > 0, 'yesterday 10:00')
      const isStretched = endOf(typed, [...before, now]) === utc(now)
      expect(isStretched).toBe(moves.end)
      expect(told.includes('would stretch it until now')).toBe(isStretched)
    }
  })
})

test('a step of which only the start is known is not said to have ended then', () => {
  expect(stepOverWords({ startedAt }, false, 'yesterday 10:00')).toBe(
    'This step began yesterday 10:00, and nothing says yet when it ended. A photo taken now would stretch it until now.',
  )
  expect(stepOverWords({ startedAt }, true, 'yesterday 10:30')).toBe(
    'This step ended yesterday 10:30. A photo taken now would stretch it until now.',
  )
  expect(stepOverWords({ finishedAt }, false, 'yesterday 11:00')).toBe(
    'This step ended yesterday 11:00. A photo of what came after it belongs to a new step.',
  )
})

const now = '2026-10-24T09:00:00Z'

function endOf(
  typed: Parameters<typeof stepTimes>[0],
  photoTimes: readonly string[],
) {
  const { photos } = journalOf({
    photos: photoTimes.map((at, index) => photo(`photo ${index}`, at)),
    steps: [],
  })
  return stepTimes(typed, photos, new Set())?.time.finished.at
}
