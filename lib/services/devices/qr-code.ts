import { encode } from 'uqr'

/** A QR code as a drawing: its dark squares as an SVG path in a box of `size` by `size`. */
export type QrCode = { readonly path: string; readonly size: number }

/** Source: ISO/IEC 18004, four light modules on each side. */
const quietZone = 4

/** Draws a text as a QR code with medium error correction and its quiet zone. */
export function drawQrCode(text: string): QrCode {
  const { data, size } = encode(text, { ecc: 'M', border: quietZone })
  const path = data
    .flatMap((row, y) =>
      row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : '')),
    )
    .join('')
  return { path, size }
}
