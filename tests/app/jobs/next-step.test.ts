import { expect, test } from 'vitest'
import { nextStepPath } from '../../../app/_next-step-path'
import { nextStepValues } from '../../../app/jobs/[job]/_next-step'
import { stepChoices } from '../../../app/jobs/[job]/_step-choices'
import { noValues } from '../../../app/jobs/[job]/_no-values'
import { at } from '../../core/air/any-air'
import { journalOf, product } from '../../core/timeline/journal-of'

const enamel = product('enamel', 'waterborne-acrylic', { recoatMinutes: 60 })
const journal = journalOf({
  surfaces: { sideboard: ['body', 'top', 'legs'] },
  products: [enamel],
  steps: [
    {
      id: 'first',
      kind: 'coat',
      productId: 'enamel',
      on: { body: 1, top: 1 },
      startedAt: at(0),
    },
    {
      id: 'second',
      kind: 'coat',
      productId: 'enamel',
      on: { body: 2 },
      startedAt: at(90),
    },
  ],
})
const choices = stepChoices(journal, [enamel])

/** What a page gets of an address. */
function askedIn(path: string) {
  const query = new URL(path, 'http://localhost').searchParams
  return {
    after: query.get('after') ?? undefined,
    surface: query.getAll('surface'),
    kind: query.get('kind') ?? undefined,
  }
}

const values = (...asked: Parameters<typeof nextStepPath>) =>
  nextStepValues(
    askedIn(nextStepPath(...asked)),
    journal,
    choices,
    'Europe/London',
  )

test('the next coat begins with the surfaces, the product and the coat number that follow', () => {
  expect(values('job', 'second', ['body'])).toMatchObject({
    kind: 'coat',
    surfaces: ['body'],
    product: 'enamel',
    coat: '3',
  })
})

test('surfaces with different numbers leave the number to each of them', () => {
  expect(values('job', 'first', ['body', 'top'])).toMatchObject({
    surfaces: ['body', 'top'],
    coat: '',
  })
})

test('a scuff begins without product and number', () => {
  expect(values('job', 'first', ['top'], 'scuff')).toEqual({
    ...noValues,
    kind: 'scuff',
    surfaces: ['top'],
  })
})

test('what the job does not know is passed over', () => {
  expect(values('job', 'no such step', ['body'])).toEqual({
    ...noValues,
    surfaces: ['body'],
  })
  expect(values('job', 'second', ['no such surface']).surfaces).toEqual([])
})

test('a place on the timeline that was tapped gives the surface and the time, on the clock of the workshop', () => {
  const asked = (at: string) =>
    nextStepValues({ surface: 'top', at }, journal, choices, 'Europe/London')
  expect(asked('2026-10-24T09:40:00.000Z')).toEqual({
    ...noValues,
    surfaces: ['top'],
    startedAt: '2026-10-24T10:40',
  })
  expect(asked('yesterday').startedAt).toBe('')
})
