import { expect, test } from 'vitest'
import { instant } from '#core/units'
import { doubtSentence, isSurePair, pairDoubts } from '#core/pairs/pair-state'

test('every doubt has a sentence of its own', () => {
  const sentences = pairDoubts.map(doubtSentence)
  expect(new Set(sentences).size).toBe(pairDoubts.length)
  for (const sentence of sentences) expect(sentence).toMatch(/^[A-Z].*\.$/)
})

test('a pair is sure when its pictures or its owner say so', () => {
  const none = { how: 'none', confidence: 0.1, doubt: 'few-places' } as const
  const computed = {
    how: 'computed',
    confidence: 0.9,
    model: 'similarity',
    homography: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  } as const
  expect(isSurePair({ state: { how: 'waiting' } })).toBe(false)
  expect(isSurePair({ state: none })).toBe(false)
  expect(isSurePair({ state: computed })).toBe(true)
  expect(isSurePair({ state: none, confirmedAt: instant(0) })).toBe(true)
})
