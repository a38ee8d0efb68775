import { expect, test } from 'vitest'
import { stepWhen } from '../../../app/jobs/[job]/_step-when'
import { journalOf, photo, utc } from '../../core/timeline/journal-of'

const style = { zone: 'Europe/London', units: 'metric' } as const
const present = utc('2026-10-23T12:00:00Z')

/** The words for a step with these photos and typed times. */
function when(
  photoTimes: readonly string[],
  typed: { readonly startedAt?: string; readonly finishedAt?: string } = {},
  writtenDownAt = '2026-10-23T09:00:00Z',
) {
  const ids = photoTimes.map((_, index) => `photo ${index}`)
  const journal = journalOf({
    photos: photoTimes.map((at, index) => photo(`photo ${index}`, at)),
    steps: [
      {
        id: 'step',
        kind: 'coat',
        photoIds: ids,
        ...(typed.startedAt !== undefined && {
          startedAt: utc(typed.startedAt),
        }),
        ...(typed.finishedAt !== undefined && {
          finishedAt: utc(typed.finishedAt),
        }),
      },
    ],
  })
  const [step] = journal.steps
  if (step === undefined) throw new Error('the journal has a step')
  const photos = journal.photos.map((one) => ({ ...one, stepId: 'step' }))
  return stepWhen(
    { ...journal, photos },
    { ...step, createdAt: utc(writtenDownAt) },
    present,
    style,
  )
}

test('a step says when it was, and whether its photos or the owner said so', () => {
  expect(when([])).toBeUndefined()
  expect(when(['2026-10-22T08:12:00Z'])).toBe('yesterday 09:12, by its photo')
  expect(when(['2026-10-22T08:12:00Z', '2026-10-22T08:42:00Z'])).toBe(
    'yesterday 09:12 to 09:42, by its photos',
  )
  expect(
    when([], {
      startedAt: '2026-10-22T22:30:00Z',
      finishedAt: '2026-10-22T23:10:00Z',
    }),
  ).toBe('yesterday 23:30 to today 00:10, as typed')
  expect(
    when(['2026-10-22T08:12:00Z'], { startedAt: '2026-10-22T08:00:00Z' }),
  ).toBe('yesterday 09:00 to 09:12, as typed and by its photo')
})

test('a step that was started as it began is typed by nobody, until its end is', () => {
  const startedAt = '2026-10-22T11:45:12.345Z'
  const photos = ['2026-10-22T11:47:00Z']
  expect(when([], { startedAt }, startedAt)).toBe(
    'yesterday 12:45, as noted at its start',
  )
  expect(when(photos, { startedAt }, startedAt)).toBe(
    'yesterday 12:45 to 12:47, as noted at its start and by its photo',
  )
  expect(
    when(photos, { startedAt, finishedAt: '2026-10-22T12:05Z' }, startedAt),
  ).toBe('yesterday 12:45 to 13:05, as noted at its start and as typed')
  expect(when([], { startedAt })).toBe('yesterday 12:45, as typed')
  expect(when(photos, { finishedAt: '2026-10-22T12:05Z' })).toBe(
    'yesterday 12:47 to 13:05, as typed and by its photo',
  )
})
