import { describe, expect, test } from 'vitest'
import { contentKind } from '#services/intake/content-kind'
import { headBytes } from '#services/photo-store/photo-store'
import { isCameraRaw } from '#services/intake/is-camera-raw'
import { newPicture } from '#services/renditions/open-picture'

/** The head of a little- or big-endian TIFF whose first directory holds these tags, all of 32 bits but the shorts. */
function tiff(
  entries: readonly (readonly [tag: number, value: number, short?: 'short'])[],
  little = true,
): Buffer {
  const bytes = Buffer.alloc(10 + entries.length * 12 + 4)
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  bytes.write(little ? 'II' : 'MM', 'latin1')
  view.setUint16(2, 42, little)
  view.setUint32(4, 8, little)
  view.setUint16(8, entries.length, little)
  for (const [index, [tag, value, short]] of entries.entries()) {
    const at = 10 + index * 12
    view.setUint16(at, tag, little)
    view.setUint16(at + 2, short === undefined ? 4 : 3, little)
    view.setUint32(at + 4, 1, little)
    if (short === undefined) view.setUint32(at + 8, value, little)
    else view.setUint16(at + 8, value, little)
  }
  return bytes
}

describe('a TIFF is a raw file', () => {
  // TIFF 6.0 section 8: bit 0 of NewSubfileType says that there is a larger version of this picture in the file.
  test.each([true, false])('when it begins with a preview: %s', (little) => {
    expect(isCameraRaw(tiff([[254, 1]], little))).toBe(true)
  })

  // DNG 1.7 chapter 4: DNGVersion, four bytes, required.
  test('when it is a digital negative', () => {
    const head = tiff([
      [254, 0],
      [50_706, 0x01_04_00_00],
    ])
    expect(isCameraRaw(head)).toBe(true)
    expect(contentKind(head)).toMatchObject({
      kind: 'refused',
      reason: expect.stringContaining('raw file') as string,
    })
  })

  test('when its preview is an old-style JPEG and the picture in a sub-directory', () => {
    expect(
      isCameraRaw(
        tiff([
          [259, 6, 'short'],
          [330, 4000],
        ]),
      ),
    ).toBe(true)
  })
})

describe('a TIFF is a picture', () => {
  test.each([
    ['plain', {}],
    ['with smaller versions in it', { pyramid: true, tile: true }],
    ['compressed as JPEG', { compression: 'jpeg' }],
  ] as const)('%s', async (_name, options) => {
    const bytes = await newPicture({
      create: { width: 600, height: 400, channels: 3, background: 'teal' },
    })
      .tiff(options)
      .toBuffer()
    const head = bytes.subarray(0, headBytes)
    expect(contentKind(head)).toEqual({ kind: 'tiff' })
  })

  test.each([0, 7, 15, 20])(
    'or at least no raw file after %d bytes',
    (length) => {
      expect(isCameraRaw(tiff([[254, 1]]).subarray(0, length))).toBe(false)
    },
  )
})
