import { expect, test } from 'vitest'
import type { Lab } from '#core/photos/colour-grid'
import { lookSpeaks } from '#core/placing/picture-evidence'

/** A scuffed oak front, as a photo of the demo shows it. */
const scuffed: Lab = [59, 6.6, 15.3]

function speaksFor(kind: 'sand' | 'scuff' | 'strip' | 'prime', to: Lab) {
  return lookSpeaks(
    { move: { share: 0.35, from: scuffed, to }, isSameView: true },
    { kind, isFirst: true },
  )
}

test.each(['sand', 'scuff', 'strip'] as const)(
  'what turned white or green was not laid bare: %s',
  (kind) => {
    expect(speaksFor(kind, [66, 0.6, 3.3])).toBeLessThan(-1)
    expect(speaksFor(kind, [47, -6.6, -0.6])).toBeLessThan(-1)
  },
)

test('what turned white was primed, what turned a paler wood may have been sanded', () => {
  expect(speaksFor('prime', [66, 0.6, 3.3])).toBeGreaterThan(1)
  expect(speaksFor('sand', [70, 5, 18])).toBeGreaterThan(0)
})
