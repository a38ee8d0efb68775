import { describe, expect, test } from 'vitest'
import {
  type AlignmentEvidence,
  judgeAlignment,
} from '#core/geometry/judge-alignment'

const sound: AlignmentEvidence = {
  agreeing: 120,
  halvesApart: 0.003,
  moved: 0.05,
  shared: 0.8,
  information: { aligned: 2, unaligned: 1.4, displaced: 1.5 },
}

test('is accepted when all witnesses speak for it', () => {
  const judgement = judgeAlignment(sound)
  expect(judgement.accepted).toBe(true)
  expect(judgement.confidence).toBeGreaterThan(0.9)
})

describe('one witness against it is enough to refuse it', () => {
  test.each<readonly [string, Partial<AlignmentEvidence>]>([
    ['few-places', { agreeing: 11 }],
    ['halves-disagree', { halvesApart: 0.04 }],
    ['halves-disagree', { halvesApart: Infinity }],
    [
      'no-better',
      { information: { aligned: 2, unaligned: 1.4, displaced: 2 } },
    ],
    ['little-shared', { shared: 0.2 }],
  ])('%s', (doubt, change) => {
    expect(judgeAlignment({ ...sound, ...change })).toMatchObject({
      accepted: false,
      doubt,
    })
  })
})

test('what is no better than the photos as they are is refused, however sure all else is', () => {
  const information = { aligned: 2, unaligned: 2, displaced: 1.5 }
  expect(judgeAlignment({ ...sound, information })).toEqual({
    accepted: false,
    confidence: 0,
    doubt: 'no-better',
  })
})

test('photos from the very same stand need not become better', () => {
  const information = { aligned: 2, unaligned: 2, displaced: 1.5 }
  expect(judgeAlignment({ ...sound, moved: 0.001, information }).accepted).toBe(
    true,
  )
})
