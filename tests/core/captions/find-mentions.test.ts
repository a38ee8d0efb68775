import { expect, test } from 'vitest'
import { findMentions, mainKind } from '#core/captions/find-mentions'
import type { StepKind } from '#core/journal/vocabulary'

/** How much the kind of work sounds like being done there and then, where somebody says this without full stops. */
function doing(kind: StepKind, said: string): number {
  const words = said.split(' ').map((text, index) => ({
    text,
    at: index * 0.4,
    end: index * 0.4 + 0.3,
    cue: 0,
    opens: index === 0,
  }))
  const found = findMentions(words).filter((one) => mainKind(one) === kind)
  return Math.max(0, ...found.map((one) => one.doing))
}

test.each([
  ['sand', 'once this was dry i sanded it back to the wood'],
  ['strip', 'here is the before picture i stripped the whole dresser'],
  ['coat', 'the prep work is done and i was ready for my paint'],
  ['sand', "it isn't bad so i sanded the top"],
  ['prime', 'so this is the primer'],
] as const)('%s is done in: %s', (kind, said) => {
  expect(doing(kind, said)).toBeGreaterThanOrEqual(0.8)
})

test.each([
  ['strip', "i didn't want to strip it"],
  ['prime', 'now the wood is clean and ready for primer'],
  ['coat', 'it was painted in the seventies'],
  ['sand', 'rough it up before you sand'],
] as const)('%s is not done in: %s', (kind, said) => {
  expect(doing(kind, said)).toBeLessThanOrEqual(0.2)
})
