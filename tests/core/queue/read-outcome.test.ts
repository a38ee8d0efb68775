import { expect, test } from 'vitest'
import { readOutcome } from '#core/queue/read-outcome'

test('a photo that was kept is called by its id', () => {
  expect(
    readOutcome(
      201,
      '{"photos":[{"id":"p","warnings":["Dark."]}],"rejected":[]}',
    ),
  ).toEqual({ kind: 'kept', id: 'p', twice: false, message: 'Dark.' })
})

test('a photo that was there before counts as kept', () => {
  expect(
    readOutcome(
      201,
      '{"photos":[{"id":"p","duplicateOf":"p","warnings":[]}],"rejected":[]}',
    ),
  ).toMatchObject({ kind: 'kept', twice: true })
})

test('a step that was written down is called by its id', () => {
  expect(readOutcome(201, '{"id":"s","kind":"coat"}')).toMatchObject({
    kind: 'kept',
    id: 's',
  })
})

test.each([
  [0, '', 'unreachable'],
  [200, '<html>Sign in to the guest network</html>', 'failed'],
  [201, '{"photos":[{"id":"p', 'failed'],
  [401, '{"detail":"Not signed in"}', 'turned-away'],
  [429, '{}', 'failed'],
  [500, '{"detail":"The disk is full."}', 'failed'],
  [502, '<html>Bad gateway</html>', 'failed'],
  [503, '{"detail":"Another program is using the database."}', 'held-up'],
  [507, '{"detail":"The disk that the journal is on is full."}', 'held-up'],
  [404, '{"detail":"There is no such job."}', 'refused'],
  [422, '{"rejected":[{"name":"a","reason":"Not a picture."}]}', 'refused'],
] as const)('an answer %i with %s is %s', (status, text, kind) => {
  const outcome = readOutcome(status, text)
  expect(outcome.kind).toBe(kind)
  expect('message' in outcome && outcome.message).not.toBe('')
})

test('the reason is the one that the workshop gave', () => {
  expect(
    readOutcome(
      422,
      '{"detail":"a: Not a picture.","rejected":[{"name":"a","reason":"Not a picture."}]}',
    ),
  ).toEqual({ kind: 'refused', message: 'Not a picture.' })
})
