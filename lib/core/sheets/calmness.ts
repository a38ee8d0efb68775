import type { Rectangle, Size } from '#core/sheets/largest-crop'

/** A picture in greys, 0 to 255, row after row. */
export type GreyPicture = Size & { readonly data: Uint8Array }

/**
 * How much goes on in a part of a picture: the mean of the squared differences between neighbours, across and down, in
 * grey levels. A wall comes to a few, mouldings and handles to hundreds.
 *
 * @param part in pixels of the picture; what lies outside does not count
 * @returns 0 for a part without neighbours
 * Source: the local energy of the gradient; as a measure of where words may stand, common practice, no source.
 */
export function gradientEnergy(picture: GreyPicture, part: Rectangle): number {
  const { data, width } = picture
  const left = Math.max(0, Math.floor(part.left))
  const top = Math.max(0, Math.floor(part.top))
  const right = Math.min(width, Math.ceil(part.left + part.width)) - 1
  const bottom = Math.min(picture.height, Math.ceil(part.top + part.height))
  let sum = 0
  let count = 0
  for (let y = top; y < bottom - 1; y += 1) {
    for (let x = left; x < right; x += 1) {
      const at = y * width + x
      const here = data[at] ?? 0
      const across = (data[at + 1] ?? 0) - here
      const down = (data[at + width] ?? 0) - here
      sum += across * across + down * down
      count += 1
    }
  }
  return count === 0 ? 0 : sum / count
}

/** Words may stand on what has at most so much energy, seen at a quarter of its size. Common practice, no source. */
export const calmEnergy = 60

/**
 * The corner of a picture where a word disturbs least.
 *
 * @param room what the word needs, in pixels of the picture
 * @returns the calmest of the four corners, the upper left one of equals; undefined when even that one is not calm
 */
export function calmestCorner(
  picture: GreyPicture,
  room: Size,
): Rectangle | undefined {
  const right = picture.width - room.width
  const bottom = picture.height - room.height
  const corners = [
    { left: 0, top: 0 },
    { left: right, top: 0 },
    { left: 0, top: bottom },
    { left: right, top: bottom },
  ].map((corner) => {
    const part = { ...corner, ...room }
    return { part, energy: gradientEnergy(picture, part) }
  })
  return corners
    .filter(({ energy }) => energy <= calmEnergy)
    .toSorted((one, other) => one.energy - other.energy)
    .at(0)?.part
}
