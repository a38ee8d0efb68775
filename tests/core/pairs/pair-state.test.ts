import { expect, test } from 'vitest'
import { doubtSentence, pairDoubts } from '#core/pairs/pair-state'

test('every doubt has a sentence of its own', () => {
  const sentences = pairDoubts.map(doubtSentence)
  expect(new Set(sentences).size).toBe(pairDoubts.length)
  for (const sentence of sentences) expect(sentence).toMatch(/^[A-Z].*\.$/)
})
