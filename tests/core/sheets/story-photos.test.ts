import { describe, expect, test } from 'vitest'
import type { StepKind } from '#core/journal/vocabulary'
import { evenly, stepPhotos, storyPhotos } from '#core/sheets/story-photos'
import { instant } from '#core/units'
import { bareFacts, photo } from '../write-ups/jobs.ts'

const [anyStep] = bareFacts.steps
if (anyStep === undefined) throw new Error('a journal with a step is needed')
const known = anyStep

/** A job of these steps, an hour apart, each with a photo of a view. */
function jobOf(steps: readonly (readonly [StepKind, string])[]) {
  return {
    ...bareFacts,
    steps: steps.map(([kind], index) => ({
      ...known,
      id: `step-${index}`,
      kind,
    })),
    photos: steps.map(([, view], index) => {
      const at = instant(Date.UTC(2026, 9, 1, index))
      return {
        ...photo(`photo-${index}`, 'progress', [], { view }),
        stepId: `step-${index}`,
        taken: { earliest: at, at, latest: at },
      }
    }),
  }
}
const before = photo('before', 'before', [], { view: 'front' })

describe('a story', () => {
  test('shows three different kinds of work in their order, though coats came more often', () => {
    const job = jobOf([
      ['clean', 'front'],
      ['strip', 'front'],
      ['prime', 'front'],
      ['coat', 'front'],
      ['coat', 'front'],
      ['wax', 'front'],
    ])
    expect(storyPhotos(job, before, 3).map(({ step }) => step.kind)).toEqual([
      'strip',
      'prime',
      'coat',
    ])
  })

  test('would rather keep to one view', () => {
    const job = jobOf([
      ['strip', 'top'],
      ['scuff', 'front'],
      ['prime', 'Front'],
      ['coat', 'front'],
    ])
    expect(storyPhotos(job, before, 3).map(({ step }) => step.kind)).toEqual([
      'scuff',
      'prime',
      'coat',
    ])
  })

  test('takes the same work again, or fewer, where there is no other', () => {
    const job = jobOf([
      ['coat', 'front'],
      ['coat', 'front'],
    ])
    expect(storyPhotos(job, before, 3)).toHaveLength(2)
    expect(storyPhotos(jobOf([]), before, 3)).toEqual([])
  })
})

test('a step with several photos is shown by the one of the view, else by its last', () => {
  const job = jobOf([
    ['coat', 'top'],
    ['coat', 'front'],
    ['coat', 'side'],
  ])
  const one = {
    ...job,
    photos: job.photos.map((each) => ({ ...each, stepId: 'step-0' })),
  }
  const shown = (view: string) =>
    stepPhotos(one, photo('b', 'before', [], { view })).map(
      (each) => each.photo.id,
    )
  expect(shown('front')).toEqual(['photo-1'])
  expect(shown('inside')).toEqual(['photo-2'])
})

test.each([
  [3, [0, 5, 9]],
  [2, [0, 9]],
  [1, [0]],
  [12, [0, 1, 2, 3, 4, 5, 6, 7, 8, 9]],
])('%d of ten, evenly', (count, expected) => {
  expect(evenly([0, 1, 2, 3, 4, 5, 6, 7, 8, 9], count)).toEqual(expected)
})
