import { expect, test } from 'vitest'
import { gapAdvice } from '#core/drying/gap-advice'

const facts = {
  verdict: 'too-soon',
  purpose: 'recoat',
  chemistry: 'waterborne-acrylic',
  needs: undefined,
  isAirToBlame: false,
} as const

test.each([
  [60, '60 min'],
  [61, '65 min'],
  [240, '4 h '],
  [241, '5 h '],
  [1914.2, '32 h '],
])(
  'a wait of %d minutes is told no finer than paint knows, and never shorter: %s',
  (requiredMinutes, words) => {
    expect(gapAdvice({ ...facts, requiredMinutes })).toContain(
      `at least another ${words}`,
    )
  },
)

test('what to do stands whenever it is read: the wait counts from the coat, not from now', () => {
  for (const chemistry of ['waterborne-acrylic', 'gel-stain'] as const)
    expect(gapAdvice({ ...facts, chemistry, requiredMinutes: 60 })).toMatch(
      /^From the later coat on/,
    )
})
