/** Pixels across and down. */
export type PictureSize = { readonly width: number; readonly height: number }

/** The size of a picture after so many quarter turns. */
export function turnedSize(
  { width, height }: PictureSize,
  quarterTurns: number,
): PictureSize {
  return quarterTurns % 2 === 0
    ? { width, height }
    : { width: height, height: width }
}
