import { expect, test } from 'vitest'
import { coatProposal } from '../../../app/jobs/[job]/_coat-proposal'
import { stepChoices } from '../../../app/jobs/[job]/_step-choices'
import { at } from '../../core/air/any-air'
import { journalOf } from '../../core/timeline/journal-of'

const kind = 'coat'
const journal = journalOf({
  surfaces: { sideboard: ['body', 'top', 'legs'] },
  steps: [
    { id: 'third', kind, on: { body: 3 }, startedAt: at(180) },
    { id: 'mistyped', kind, on: { body: 7, top: 7 }, startedAt: at(90) },
    { id: 'first', kind, on: { body: 1, top: 1 }, startedAt: at(0) },
    { id: 'uneven', kind, on: { top: 8, legs: 1 }, startedAt: at(240) },
  ],
})

function proposed(id: string | undefined, of: string, ...surfaces: string[]) {
  const changed = journal.steps.find((step) => step.id === id)
  return coatProposal(stepChoices(journal, [], changed), of, surfaces)
}

test('a coat that is changed keeps its number, and is told the one that the coats before it give', () => {
  expect(proposed('mistyped', kind, 'body', 'top')).toEqual({
    hint: 'Left empty, it stays coat 7. Counted anew, it would be coat 2: type 2 for that.',
    number: '7',
  })
  expect(proposed('first', kind, 'body', 'top')).toEqual({
    hint: 'Left empty, it stays coat 1.',
    number: '1',
  })
})

test('surfaces with numbers of their own keep them, and one that is added gets its next one', () => {
  expect(proposed('uneven', kind, 'top', 'legs').hint).toBe(
    'Left empty, each surface keeps its number.',
  )
  expect(proposed('mistyped', kind, 'body', 'legs').hint).toBe(
    'Left empty, each surface keeps its number, and one that is added gets its next one.',
  )
})

test('of another kind, and as a new step, it is the next one', () => {
  expect(proposed('mistyped', 'prime', 'body')).toEqual({
    hint: 'Left empty, it is coat 1.',
    number: '1',
  })
  expect(proposed(undefined, kind, 'body').hint).toBe(
    'Left empty, it is coat 8.',
  )
  expect(proposed(undefined, kind, 'body', 'legs').hint).toBe(
    'Left empty, each surface gets its next one.',
  )
  expect(proposed(undefined, kind).hint).toBe('Left empty, it is the next one.')
})
