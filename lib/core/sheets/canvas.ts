import type { Rectangle, Size } from '#core/sheets/largest-crop'

/** Red, green and blue pixels, row after row, one byte each; with opacity as a fourth where there are as many bytes. */
export type Pixels = Size & { readonly data: Uint8Array }

/** A field of one colour. @param colour such as `#f7f4ef` */
export function canvasOf({ width, height }: Size, colour: string): Pixels {
  const canvas = { width, height, data: new Uint8Array(width * height * 3) }
  fillOn(canvas, { left: 0, top: 0, width, height }, colour)
  return canvas
}

/** Fills a part of a canvas, at least a pixel wide and high. @param colour such as `#f7f4ef` */
export function fillOn(
  canvas: Pixels,
  { left, top, width, height }: Rectangle,
  colour: string,
): void {
  const [red, green, blue] = [1, 3, 5].map((at) =>
    Number.parseInt(colour.slice(at, at + 2), 16),
  )
  const from = Math.max(0, Math.round(left))
  const to = Math.min(canvas.width, Math.round(left) + atLeastOne(width))
  const last = Math.min(canvas.height, Math.round(top) + atLeastOne(height))
  const row = new Uint8Array(Math.max(0, to - from) * 3)
  for (let at = 0; at < row.length; at += 3) {
    row.set([red ?? 0, green ?? 0, blue ?? 0], at)
  }
  for (let y = Math.max(0, Math.round(top)); y < last; y += 1) {
    canvas.data.set(row, (y * canvas.width + from) * 3)
  }
}

/**
 * Lays a picture on a canvas, over what is there; what reaches past the rim is cut off.
 *
 * Source: T. Porter and T. Duff, "Compositing digital images", SIGGRAPH 1984, "over" on an opaque ground; cited from
 * memory. Channels are blended as they are stored.
 */
export function layOn(
  canvas: Pixels,
  picture: Pixels,
  place: { readonly left: number; readonly top: number },
): void {
  const left = Math.max(0, Math.round(place.left))
  const top = Math.max(0, Math.round(place.top))
  const channels = picture.data.length / (picture.width * picture.height)
  const width = Math.min(picture.width, canvas.width - left)
  const height = Math.min(picture.height, canvas.height - top)
  const { data } = canvas
  for (let y = 0; y < height; y += 1) {
    const from = y * picture.width * channels
    const to = ((top + y) * canvas.width + left) * 3
    if (channels === 3) {
      data.set(picture.data.subarray(from, from + width * 3), to)
      continue
    }
    for (let x = 0; x < width; x += 1) {
      const source = from + x * 4
      const target = to + x * 3
      const opacity = (picture.data[source + 3] ?? 0) / 255
      if (opacity === 0) continue
      for (let channel = 0; channel < 3; channel += 1) {
        const under = data[target + channel] ?? 0
        const over = picture.data[source + channel] ?? 0
        data[target + channel] = Math.round(under + (over - under) * opacity)
      }
    }
  }
}

function atLeastOne(length: number): number {
  return Math.max(1, Math.round(length))
}
