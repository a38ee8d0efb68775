import { expect, test } from 'vitest'
import { revealFrames } from '#core/sheets/reveal-frames'

test('a reveal goes from all before to all after, never back, and rests at both ends', () => {
  const shares = revealFrames.map(({ share }) => share)
  expect(shares[0]).toBe(0)
  expect(shares.at(-1)).toBe(1)
  expect(shares).toEqual(shares.toSorted((one, other) => one - other))
  expect(revealFrames[0]?.milliseconds).toBeGreaterThan(1_000)
  expect(revealFrames.at(-1)?.milliseconds).toBeGreaterThan(1_000)
})
