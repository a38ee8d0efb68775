import 'server-only'
import { type FileHandle, open } from 'node:fs/promises'

const maximumBoxes = 1000

/**
 * Whether the outermost boxes of a HEIC or AVIF file all end inside it: a file that broke off on its way has one that
 * does not.
 *
 * Source: ISO/IEC 14496-12 section 4.2 (object structure: size, type, large size).
 */
export async function areBoxesWhole(file: string): Promise<boolean> {
  const handle = await open(file, 'r')
  try {
    const { size } = await handle.stat()
    const head = Buffer.alloc(16)
    let at = 0
    for (let count = 0; at < size && count < maximumBoxes; count += 1) {
      const { bytesRead } = await handle.read(head, 0, 16, at)
      // What is too short for a box, or has no name as boxes have, is filling behind the last one.
      if (bytesRead < 8 || !isBoxName(head.subarray(4, 8))) return at > 0
      const length = head.readUInt32BE(0)
      // It reaches to the end of the file, wherever that is.
      if (length === 0) return true
      const bytes = length === 1 ? Number(head.readBigUInt64BE(8)) : length
      if (bytes < 8) return false
      at += bytes
    }
    return at <= size
  } finally {
    await handle.close()
  }
}

const maximumHeadBytes = 4_000_000

/**
 * Whether all data that the head of a HEIC or AVIF file points at stands inside the file: where a tile of a picture does
 * not, its decoder shows a blank in its place and says nothing. True where nothing can be told.
 *
 * Source: ISO/IEC 14496-12 section 8.11.3 (iloc).
 */
export async function isDataInside(file: string): Promise<boolean> {
  const handle = await open(file, 'r')
  try {
    const { size } = await handle.stat()
    const meta = await readMeta(handle)
    const iloc = meta === undefined ? undefined : boxIn(meta, 4, 'iloc')
    return iloc === undefined || endOfData(iloc) <= size
  } catch (error) {
    // It ends in the middle of a number: what it says cannot be followed, and the decoder judges it.
    if (error instanceof RangeError) return true
    throw error
  } finally {
    await handle.close()
  }
}

/** What is in the box `meta`, which describes the pictures. */
async function readMeta(handle: FileHandle): Promise<Buffer | undefined> {
  const head = Buffer.alloc(8)
  let at = 0
  for (let count = 0; count < maximumBoxes; count += 1) {
    const { bytesRead } = await handle.read(head, 0, 8, at)
    const length = head.readUInt32BE(0)
    // Boxes of another length than this stand behind what describes them.
    if (bytesRead < 8 || length < 8) return undefined
    if (head.toString('latin1', 4, 8) === 'meta') {
      const meta = Buffer.alloc(Math.min(length - 8, maximumHeadBytes))
      await handle.read(meta, 0, meta.byteLength, at + 8)
      return meta
    }
    at += length
  }
  return undefined
}

function boxIn(inside: Buffer, from: number, name: string): Buffer | undefined {
  let at = from
  while (at + 8 <= inside.byteLength) {
    const length = inside.readUInt32BE(at)
    if (length < 8) return undefined
    if (inside.toString('latin1', at + 4, at + 8) === name) {
      return inside.subarray(at + 8, at + length)
    }
    at += length
  }
  return undefined
}

/**
 * Where the last of the data ends that is told by its place in the file.
 *
 * @throws RangeError when the box ends before it has said all
 */
function endOfData(iloc: Buffer): number {
  const version = iloc.readUInt8(0)
  const sizes = iloc.readUInt16BE(4)
  const [offset, length, base, index] = [12, 8, 4, 0].map(
    (shift) => (sizes >> shift) & 15,
  ) as [number, number, number, number]
  let at = 6
  const number = (bytes: number) => {
    if (bytes === 0) return 0
    at += bytes
    return bytes === 8
      ? Number(iloc.readBigUInt64BE(at - 8))
      : iloc.readUIntBE(at - bytes, bytes)
  }
  let end = 0
  const idBytes = version < 2 ? 2 : 4
  for (let items = number(idBytes); items > 0; items -= 1) {
    number(idBytes)
    // Other ways of telling a place count from elsewhere than from the beginning of the file.
    const isInFile = (version === 0 ? 0 : number(2) & 15) === 0
    number(2)
    const from = number(base)
    for (let extents = number(2); extents > 0; extents -= 1) {
      if (version > 0) number(index)
      const begin = from + number(offset)
      const bytes = number(length)
      if (isInFile) end = Math.max(end, begin + bytes)
    }
  }
  return end
}

/** Names of boxes are four printable characters. */
function isBoxName(bytes: Buffer): boolean {
  return /^[ -~\u00a9]{4}$/.test(bytes.toString('latin1'))
}
