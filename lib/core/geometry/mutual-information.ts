/** Two grey pictures of one size, one brought over the other. */
export type GreyOverlap = {
  readonly width: number
  readonly height: number
  readonly before: Uint8Array
  readonly after: Uint8Array
  /** 255 where both show something. */
  readonly inside: Uint8Array
}

/** Levels of grey that are told apart. */
const bins = 32

/**
 * How much each of two pictures tells about the other, in bits, where both show something: high when the same things lie
 * on each other, whatever their colours have become.
 *
 * @param shift moves the after by so many pixels first
 * @returns 0 when there is nothing to compare
 * Source: P. Viola and W. M. Wells III, "Alignment by maximization of mutual information", International Journal of
 * Computer Vision 24 (1997) 137-154, here from a histogram of 32 x 32; cited from memory.
 */
export function mutualInformation(
  { width, height, before, after, inside }: GreyOverlap,
  shift: { readonly x: number; readonly y: number } = { x: 0, y: 0 },
): number {
  const joint = new Float64Array(bins * bins)
  let count = 0
  for (
    let y = Math.max(0, shift.y);
    y < Math.min(height, height + shift.y);
    y += 1
  ) {
    for (
      let x = Math.max(0, shift.x);
      x < Math.min(width, width + shift.x);
      x += 1
    ) {
      const at = y * width + x
      const from = at - shift.y * width - shift.x
      if (inside[from] !== 255 || inside[at] !== 255) continue
      const one = ((before[at] ?? 0) * bins) >> 8
      const other = ((after[from] ?? 0) * bins) >> 8
      const cell = one * bins + other
      joint[cell] = (joint[cell] ?? 0) + 1
      count += 1
    }
  }
  return count === 0 ? 0 : informationOf(joint, count)
}

function informationOf(joint: Float64Array, count: number): number {
  const rows = new Float64Array(bins)
  const columns = new Float64Array(bins)
  for (let one = 0; one < bins; one += 1) {
    for (let other = 0; other < bins; other += 1) {
      const share = joint[one * bins + other] ?? 0
      rows[one] = (rows[one] ?? 0) + share
      columns[other] = (columns[other] ?? 0) + share
    }
  }
  let bits = 0
  for (let one = 0; one < bins; one += 1) {
    for (let other = 0; other < bins; other += 1) {
      const share = joint[one * bins + other] ?? 0
      if (share === 0) continue
      const expected = (rows[one] ?? 0) * (columns[other] ?? 0)
      bits += (share / count) * Math.log2((share * count) / expected)
    }
  }
  return bits
}
