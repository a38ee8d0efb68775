import { expect, test } from 'vitest'
import { stepValues } from '../../../app/jobs/[job]/_step-values'
import { journalOf, photo, utc } from '../../core/timeline/journal-of'

/** What the fields of the times begin with, for a step with these typed times and photos. */
function times(
  typed: { readonly startedAt?: string; readonly finishedAt?: string },
  photoTimes: readonly string[] = [],
) {
  const { startedAt, finishedAt } = typed
  const journal = journalOf({
    photos: photoTimes.map((at, index) => photo(`photo ${index}`, at)),
    steps: [
      {
        id: 'step',
        kind: 'coat',
        ...(startedAt !== undefined && { startedAt: utc(startedAt) }),
        ...(finishedAt !== undefined && { finishedAt: utc(finishedAt) }),
      },
    ],
  })
  const [step] = journal.steps
  if (step === undefined) throw new Error('the journal has a step')
  const photos = journal.photos.map((one) => ({ ...one, stepId: 'step' }))
  const values = stepValues({ ...journal, photos }, step, 'Europe/London')
  return {
    startedAt: values.startedAt,
    finishedAt: values.finishedAt,
    startedStamp: values.startedStamp,
    finishedStamp: values.finishedStamp,
  }
}

test('what photos say of a time stands in its field, and only that', () => {
  const startedAt = '2026-10-22T08:00:00Z'
  expect(times({ startedAt })).toEqual({
    startedAt: '2026-10-22T09:00',
    finishedAt: '',
    startedStamp: '',
    finishedStamp: '',
  })
  expect(times({ startedAt }, ['2026-10-22T08:12:00Z'])).toMatchObject({
    startedStamp: '',
    finishedStamp: '2026-10-22T09:12',
  })
  // Taken before it began, a photo does not tell when it ended.
  expect(times({ startedAt }, ['2026-10-22T07:50:00Z'])).toMatchObject({
    finishedStamp: '',
  })
  const finishedAt = '2026-10-22T09:00:00Z'
  expect(times({ finishedAt })).toMatchObject({
    finishedAt: '2026-10-22T10:00',
    startedStamp: '',
    finishedStamp: '',
  })
  expect(times({ finishedAt }, ['2026-10-22T08:12:00Z'])).toMatchObject({
    startedStamp: '2026-10-22T09:12',
  })
})

test('without typed times both stand there, also from one photo alone', () => {
  expect(times({}, ['2026-10-22T08:12:00Z'])).toEqual({
    startedAt: '',
    finishedAt: '',
    startedStamp: '2026-10-22T09:12',
    finishedStamp: '2026-10-22T09:12',
  })
})
