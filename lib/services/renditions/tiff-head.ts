/** Rows that a reader takes at a time. */
const rowsPerStrip = 64
const short = 3
const long = 4
const undefinedBytes = 7

/** Room for the head of a picture of up to 65,535 rows, beside its colour profile. */
export const tiffHeadBytes = 16_384

/**
 * Makes an uncompressed TIFF of pixels that stand behind `tiffHeadBytes` and the length of their colour profile,
 * rounded up to four: it writes what goes before them. The image library takes no profile with bare pixels, and
 * without it would show the colours of a phone dull.
 *
 * @param bytes room for the head, then 8-bit red, green and blue, row after row
 * Sources: TIFF 6.0, sections 2 and 6; ICC.1:2022, annex B.4 (tag 34675).
 */
export function writeTiffHead(
  bytes: Uint8Array,
  {
    width,
    height,
    profile,
  }: {
    readonly width: number
    readonly height: number
    readonly profile?: Uint8Array | undefined
  },
): void {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const strips = Math.ceil(height / rowsPerStrip)
  const rowBytes = width * 3
  const pixelsAt = tiffPixelsAt(profile)
  const entries = profile === undefined ? 10 : 11
  const bitsAt = 8 + 2 + entries * 12 + 4
  const offsetsAt = bitsAt + 8
  const countsAt = offsetsAt + strips * 4
  const directory: readonly (readonly [number, number, number, number])[] = [
    [256, long, 1, width],
    [257, long, 1, height],
    [258, short, 3, bitsAt],
    // Not compressed.
    [259, short, 1, 1],
    // Red, green, blue.
    [262, short, 1, 2],
    [273, long, strips, strips === 1 ? pixelsAt : offsetsAt],
    [277, short, 1, 3],
    [278, long, 1, rowsPerStrip],
    [279, long, strips, strips === 1 ? rowBytes * height : countsAt],
    [284, short, 1, 1],
    ...(profile === undefined
      ? []
      : ([
          [34_675, undefinedBytes, profile.byteLength, tiffHeadBytes],
        ] as const)),
  ]
  view.setUint16(0, 0x49_49)
  view.setUint16(2, 42, true)
  view.setUint32(4, 8, true)
  view.setUint16(8, entries, true)
  for (const [index, [tag, type, count, value]] of directory.entries()) {
    const at = 10 + index * 12
    view.setUint16(at, tag, true)
    view.setUint16(at + 2, type, true)
    view.setUint32(at + 4, count, true)
    if (type === short && count === 1) view.setUint16(at + 8, value, true)
    else view.setUint32(at + 8, value, true)
  }
  for (const channel of [0, 1, 2]) {
    view.setUint16(bitsAt + channel * 2, 8, true)
  }
  for (let strip = 0; strip < strips; strip += 1) {
    const rows = Math.min(rowsPerStrip, height - strip * rowsPerStrip)
    const offset = pixelsAt + strip * rowsPerStrip * rowBytes
    view.setUint32(offsetsAt + strip * 4, offset, true)
    view.setUint32(countsAt + strip * 4, rows * rowBytes, true)
  }
  if (profile !== undefined) bytes.set(profile, tiffHeadBytes)
}

/** Where the pixels begin that `writeTiffHead` describes. */
export function tiffPixelsAt(profile: Uint8Array | undefined): number {
  return tiffHeadBytes + Math.ceil((profile?.byteLength ?? 0) / 4) * 4
}
