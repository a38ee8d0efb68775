import { expect, test } from 'vitest'
import { leadNotes } from '#core/write-ups/lead-notes'
import { journal, piece, step } from './jobs.ts'

const withNote = (note: string) =>
  leadNotes(
    journal(
      'Box',
      [piece('box', 'box', ['lid'])],
      [step('a', 'clean', 'box-lid', undefined, { note })],
      [],
    ),
  )

test.each([
  'lead swab on the lid: no colour change',
  'Lead test negative.',
  'lead test: positive on the back',
  'laboratory report: 40 ppm lead',
])('%j is a test with its result', (note) => {
  expect(withNote(note)).toMatchObject({
    notes: [{ text: note }],
    tested: true,
  })
})

test.each([
  'not tested for lead',
  'no lead test yet',
  'need to test for lead before sanding, clear the bench first',
  'lead swab done?',
  'should get a lead swab',
  'lead test kit bought',
])('in doubt, %j does not count as tested', (note) => {
  expect(withNote(note).tested).toBe(false)
})

test.each(['misleading test of the swab', 'heavy, mind the lid'])(
  '%j is not about lead',
  (note) => {
    expect(withNote(note).notes).toEqual([])
  },
)
