/**
 * How sharp a picture is: the variance of its Laplacian, which grows with the number and the steepness of its edges. It
 * compares pictures of the same thing in the same size, and says nothing of one alone.
 *
 * @param grey samples of lightness, row after row
 * @returns 0 for an even picture; in squares of the samples' unit
 * @throws RangeError when the samples do not fill the picture or it has no inside
 * Source: J. L. Pech-Pacheco et al., "Diatom autofocusing in brightfield microscopy: a comparative study", Proc. 15th
 * ICPR (2000), vol. 3, 314-317 (LAP4), cited from memory; the mask is 0 1 0, 1 -4 1, 0 1 0.
 */
export function sharpness(
  grey: ArrayLike<number>,
  width: number,
  height: number,
): number {
  if (grey.length !== width * height || width < 3 || height < 3) {
    throw new RangeError(
      `sharpness: expected ${width} x ${height} samples of at least 3 x 3, got ${grey.length}`,
    )
  }
  let sum = 0
  let squares = 0
  for (let row = 1; row < height - 1; row += 1) {
    for (let column = 1; column < width - 1; column += 1) {
      const at = row * width + column
      const value =
        (grey[at - 1] ?? 0) +
        (grey[at + 1] ?? 0) +
        (grey[at - width] ?? 0) +
        (grey[at + width] ?? 0) -
        4 * (grey[at] ?? 0)
      sum += value
      squares += value * value
    }
  }
  const count = (width - 2) * (height - 2)
  return squares / count - (sum / count) ** 2
}
