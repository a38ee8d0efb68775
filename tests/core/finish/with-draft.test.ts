import { expect, test } from 'vitest'
import { withDraft } from '#core/finish/with-draft'
import { kinds, toldJob } from './told-work'

const journal = toldJob([
  { at: 0, kind: 'scuff' },
  { at: 1, kind: 'coat', with: 'enamel' },
])

test('a draft comes last, with the next number of its coat and its product on the shelf', () => {
  const { journal: drafted, stepId } = withDraft(journal, {
    kind: 'coat',
    surfaces: [{ surfaceId: 'body' }],
    product: kinds.blocker,
  })
  const step = drafted.steps.find(({ id }) => id === stepId)
  expect(step?.surfaces).toEqual([{ surfaceId: 'body', coat: 2 }])
  expect(drafted.products).toContain(kinds.blocker)
  expect(
    drafted.steps.every(
      (one) => one.id === stepId || one.createdAt < (step?.createdAt ?? 0),
    ),
  ).toBe(true)
  expect(drafted.steps).toHaveLength(journal.steps.length + 1)
})

test('a draft of a kept step stands in its place', () => {
  const coat = journal.steps.find(({ kind }) => kind === 'coat')
  if (coat === undefined) throw new Error('no coat')
  const { journal: drafted } = withDraft(journal, {
    id: coat.id,
    kind: 'seal',
    surfaces: [{ surfaceId: 'body' }],
  })
  expect(drafted.steps).toHaveLength(journal.steps.length)
  expect(drafted.steps.find(({ id }) => id === coat.id)).toMatchObject({
    kind: 'seal',
    createdAt: coat.createdAt,
  })
})
