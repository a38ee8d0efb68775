import { describe, expect, test } from 'vitest'
import { photoOutsideTimes } from '#core/timeline/photo-outside-times'
import { journalOf, photo, utc } from './journal-of'

const { photos } = journalOf({
  photos: [
    photo('first', '2026-10-26T22:12:00Z'),
    photo('last', '2026-10-26T22:40:00Z'),
  ],
  steps: [],
})
const typed = (started?: string, finished?: string) => ({
  ...(started !== undefined && { startedAt: utc(started) }),
  ...(finished !== undefined && { finishedAt: utc(finished) }),
})

describe('the times typed for a step, held against its photos', () => {
  test('ten hours later than its photo leave it out, and the farthest is named', () => {
    expect(
      photoOutsideTimes(typed('2026-10-27T08:12:00Z'), photos),
    ).toMatchObject({ photo: { id: 'first' }, side: 'before', minutes: 600 })
  })

  test('a day too early leave it out, though a photo of the next morning is none to mention', () => {
    const end = '2026-10-26T11:00:00Z'
    expect(photoOutsideTimes(typed(undefined, end), photos)).toBeUndefined()
    expect(
      photoOutsideTimes(typed('2026-10-25T22:12:00Z'), photos),
    ).toMatchObject({ photo: { id: 'last' }, side: 'after', minutes: 1468 })
  })

  test('a photo taken while the brush was made ready is none to mention', () => {
    expect(
      photoOutsideTimes(typed('2026-10-26T23:10:00Z'), photos),
    ).toBeUndefined()
  })

  test('without typed times and without photos there is nothing to say', () => {
    expect(photoOutsideTimes({}, photos)).toBeUndefined()
    expect(photoOutsideTimes(typed('2026-10-27T08:12:00Z'), [])).toBeUndefined()
  })
})
