/** Width and height, in pixels. */
export type Size = { readonly width: number; readonly height: number }

/** A rectangle in pixels, from the upper left corner. */
export type Rectangle = Size & { readonly left: number; readonly top: number }

/**
 * The largest part of a picture with the given ratio of width to height, taken from its middle. Fractions of a pixel
 * are kept; round when you cut.
 *
 * @throws RangeError unless all lengths and the ratio are above 0
 */
export function largestCrop(picture: Size, ratio: number): Rectangle {
  const { width, height } = picture
  if (!(width > 0 && height > 0 && ratio > 0)) {
    throw new RangeError(
      `largestCrop: expected lengths above 0, got ${width} x ${height} for ${ratio}`,
    )
  }
  const wide = width / height > ratio
  const kept = wide
    ? { width: height * ratio, height }
    : { width, height: width / ratio }
  return {
    ...kept,
    left: (width - kept.width) / 2,
    top: (height - kept.height) / 2,
  }
}
