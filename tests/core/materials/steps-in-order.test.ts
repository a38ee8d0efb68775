import { expect, test } from 'vitest'
import { stepsInOrder } from '#core/materials/steps-in-order'
import { exactly, span } from '#core/time/span'
import { instant } from '#core/units'
import { journal, photo, piece, step } from '../write-ups/jobs.ts'

const box = piece('box', 'blanket box', ['body'])

test('photos date a step, and what the owner typed wins over them', () => {
  const job = {
    ...journal(
      'Box',
      [box],
      [
        step('late', 'coat', 'box-body', undefined, {
          photoIds: ['p2'],
          startedAt: instant(9000),
        }),
        step('early', 'prime', 'box-body', undefined, {
          photoIds: ['p1', 'p3'],
        }),
      ],
      [],
    ),
    photos: [
      photo('p1', 'progress', ['box-body'], {
        taken: span(instant(1000), instant(1500), instant(2000)),
      }),
      photo('p3', 'progress', ['box-body'], {
        taken: exactly(instant(3000)),
      }),
      photo('p2', 'progress', ['box-body'], { taken: exactly(instant(9500)) }),
    ],
  }
  expect(
    stepsInOrder(job).map(({ step: { id }, started, finished }) => [
      id,
      started?.at,
      finished?.at,
    ]),
  ).toEqual([
    ['early', 1500, 3000],
    ['late', 9000, 9500],
  ])
})

test('a step that nothing dates has no time and stands where it was written down', () => {
  const [first, second] = stepsInOrder(
    journal(
      'Box',
      [box],
      [
        step('b', 'coat', 'box-body', undefined, { createdAt: instant(20) }),
        step('a', 'clean', 'box-body', undefined, { createdAt: instant(10) }),
      ],
      [],
    ),
  )
  expect(first?.step.id).toBe('a')
  expect(first?.started).toBeUndefined()
  expect(second?.step.id).toBe('b')
})
