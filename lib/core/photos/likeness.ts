/** Samples across and down that `likeness` looks at. */
export const likenessGrid = { width: 9, height: 8 } as const

/**
 * What a picture looks like, in 64 bits: for each of eight rows, whether it grows lighter from each sample to the next.
 * Pictures of the same thing from the same place differ in few of them, however light, large or compressed they are.
 *
 * @param grey 9 x 8 samples of lightness, row after row
 * @returns 16 hexadecimal digits
 * @throws RangeError when there are not 72 samples
 * Known as a difference hash; common practice, no source.
 */
export function likeness(grey: ArrayLike<number>): string {
  const { width, height } = likenessGrid
  if (grey.length !== width * height) {
    throw new RangeError(
      `likeness: expected ${width * height} samples, got ${grey.length}`,
    )
  }
  let digits = ''
  for (let row = 0; row < height; row += 1) {
    let bits = 0
    for (let column = 0; column < width - 1; column += 1) {
      const at = row * width + column
      bits = bits * 2 + ((grey[at + 1] ?? 0) > (grey[at] ?? 0) ? 1 : 0)
    }
    digits += bits.toString(16).padStart(2, '0')
  }
  return digits
}

/** In how many of their 64 bits two likenesses differ: the Hamming distance. */
export function unlikeness(one: string, other: string): number {
  let bits = 0
  for (let at = 0; at < one.length; at += 1) {
    let differing =
      Number.parseInt(one[at] ?? '0', 16) ^
      Number.parseInt(other[at] ?? '0', 16)
    while (differing > 0) {
      bits += differing & 1
      differing >>= 1
    }
  }
  return bits
}
