import { expect, test } from 'vitest'
import { mutualInformation } from '#core/geometry/mutual-information'

const width = 64
const height = 64
const everywhere = new Uint8Array(width * height).fill(255)

/** A picture by a rule for each pixel. */
function picture(value: (x: number, y: number) => number): Uint8Array {
  return Uint8Array.from({ length: width * height }, (_, at) =>
    value(at % width, Math.floor(at / width)),
  )
}

const board = picture((x, y) => (((x >> 3) + (y >> 3)) % 2 === 0 ? 30 : 220))

test('two equal halves of dark and light tell one bit, whichever is the lighter in the other', () => {
  // Entropy of a fair coin: 1 bit (C. E. Shannon, 1948, section 6).
  const negative = board.map((value) => 250 - value)
  expect(
    mutualInformation({
      width,
      height,
      before: board,
      after: negative,
      inside: everywhere,
    }),
  ).toBeCloseTo(1, 12)
})

test('pictures that have nothing to do with each other tell nothing', () => {
  const columns = picture((x) => (x % 2 === 0 ? 30 : 220))
  const rows = picture((_, y) => (y % 2 === 0 ? 30 : 220))
  expect(
    mutualInformation({
      width,
      height,
      before: columns,
      after: rows,
      inside: everywhere,
    }),
  ).toBeCloseTo(0, 12)
})

test('a picture that is moved tells less, and all when it is moved back', () => {
  const moved = picture((x, y) => board[y * width + ((x + 4) % width)] ?? 0)
  const overlap = {
    width,
    height,
    before: board,
    after: moved,
    inside: everywhere,
  }
  expect(mutualInformation(overlap)).toBeLessThan(0.1)
  expect(mutualInformation(overlap, { x: 4, y: 0 })).toBeGreaterThan(0.99)
})

test('where one of them shows nothing is not counted', () => {
  const inside = picture((x) => (x < 32 ? 255 : 0))
  const half = picture((x, y) => (x < 32 ? (board[y * width + x] ?? 0) : 128))
  expect(
    mutualInformation({ width, height, before: board, after: half, inside }),
  ).toBeCloseTo(1, 12)
  expect(
    mutualInformation({
      width,
      height,
      before: board,
      after: half,
      inside: new Uint8Array(width * height),
    }),
  ).toBe(0)
})
