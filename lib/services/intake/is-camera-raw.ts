const tag = { subfileType: 254, compression: 259, subDirectories: 330 } as const
/** Adobe Digital Negative, version: the tag that makes a TIFF one. */
const negativeVersion = 50_706
const reducedResolution = 1
/** JPEG as TIFF 6.0 had it first, which only raw files still use, for their preview. */
const oldJpeg = 6
const entryBytes = 12
/** The version of a TIFF with offsets of 32 bits. */
const classic = 42

/**
 * Whether a TIFF is a camera's raw file: what its first directory describes is then a small preview, and the picture
 * itself only the maker's program develops.
 *
 * @param head the first bytes of a classic TIFF; a directory that lies behind them says nothing
 * Sources: TIFF 6.0 section 8 (NewSubfileType) and TIFF technical note 1 (SubIFDs); Adobe DNG specification 1.7
 * (DNGVersion).
 */
export function isCameraRaw(head: Uint8Array): boolean {
  if (head.byteLength < 16) return false
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength)
  const little = head[0] === 0x49
  if (view.getUint16(2, little) !== classic) return false
  // One maker signs its files behind the header: "CR" and a version.
  if (head[8] === 0x43 && head[9] === 0x52) return true
  const directory = view.getUint32(4, little)
  if (directory + 2 > head.byteLength) return false
  const values = new Map<number, number>()
  const entries = view.getUint16(directory, little)
  for (let index = 0; index < entries; index += 1) {
    const at = directory + 2 + index * entryBytes
    if (at + entryBytes > head.byteLength) break
    // Of types other than 16 bits only 32 bits matter here, and whether there is any.
    const isShort = view.getUint16(at + 2, little) === 3
    values.set(
      view.getUint16(at, little),
      isShort ? view.getUint16(at + 8, little) : view.getUint32(at + 8, little),
    )
  }
  return (
    values.has(negativeVersion) ||
    ((values.get(tag.subfileType) ?? 0) & reducedResolution) === 1 ||
    (values.get(tag.compression) === oldJpeg && values.has(tag.subDirectories))
  )
}
