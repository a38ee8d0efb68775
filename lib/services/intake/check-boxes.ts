import 'server-only'
import { open } from 'node:fs/promises'

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

/** Names of boxes are four printable characters. */
function isBoxName(bytes: Buffer): boolean {
  return /^[ -~\u00a9]{4}$/.test(bytes.toString('latin1'))
}
