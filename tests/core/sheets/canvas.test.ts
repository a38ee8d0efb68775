import { expect, test } from 'vitest'
import { canvasOf, fillOn, layOn } from '#core/sheets/canvas'
import { openPicture } from '#services/renditions/open-picture'

/** Bytes that look like nothing, the same ones each time. */
function noise(length: number): Uint8Array {
  let state = 7
  return Uint8Array.from({ length }, () => {
    state = (state * 48_271) % 2_147_483_647
    return state % 256
  })
}

test('words and pictures lie on it as the image library lays them, to a step of 255', async () => {
  const canvas = canvasOf({ width: 40, height: 30 }, '#f7f4ef')
  const opaque = { width: 20, height: 10, data: noise(20 * 10 * 3) }
  const clear = { width: 16, height: 12, data: noise(16 * 12 * 4) }
  layOn(canvas, opaque, { left: 5, top: 4 })
  layOn(canvas, clear, { left: 10.4, top: 8.6 })
  const raw = ({ width, height, data }: typeof clear, channels: 3 | 4) => ({
    input: Buffer.from(data),
    raw: { width, height, channels },
  })
  const wanted = await openPicture(Buffer.alloc(40 * 30 * 3, 0), {
    raw: { width: 40, height: 30, channels: 3 },
  })
    .composite([
      {
        input: {
          create: { width: 40, height: 30, channels: 3, background: '#f7f4ef' },
        },
      },
      { ...raw(opaque, 3), left: 5, top: 4 },
      { ...raw(clear, 4), left: 10, top: 9 },
    ])
    .removeAlpha()
    .raw()
    .toBuffer()
  expect(wanted).toHaveLength(canvas.data.length)
  const apart = wanted.map((value, at) =>
    Math.abs(value - (canvas.data[at] ?? 0)),
  )
  expect(Math.max(...apart)).toBeLessThanOrEqual(1)
})

test('what reaches past the rim is cut off, and a hair is a pixel', () => {
  const canvas = canvasOf({ width: 4, height: 2 }, '#000000')
  fillOn(canvas, { left: 3, top: 0, width: 9, height: 0.2 }, '#ff8001')
  layOn(
    canvas,
    { width: 3, height: 3, data: new Uint8Array(27).fill(9) },
    { left: 2, top: 1 },
  )
  expect([...canvas.data.subarray(9, 12)]).toEqual([255, 128, 1])
  expect([...canvas.data.subarray(12)]).toEqual([
    0, 0, 0, 0, 0, 0, 9, 9, 9, 9, 9, 9,
  ])
})
