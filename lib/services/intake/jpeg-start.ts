import 'server-only'
import { readHead } from '#services/renditions/open-original'

/** Four segments of the greatest length: phones write a block, a profile and a packet. */
const startBytes = 262_144

const scan = 0xda

/**
 * All that stands in a JPEG before its coded picture, which is all that it says of itself; a little more of it may follow.
 *
 * Source: ISO/IEC 10918-1 (ITU-T T.81), annex B.1.1.4 and B.2.
 *
 * @returns undefined where it is longer than is worth holding, or does not come in segments
 */
export async function readJpegStart(file: string): Promise<Buffer | undefined> {
  const head = await readHead(file, startBytes)
  const bytes = Buffer.from(head.buffer, head.byteOffset, head.byteLength)
  let at = 2
  while (at + 4 <= bytes.byteLength) {
    if (bytes[at] !== 0xff) return undefined
    if (bytes[at + 1] === scan) return bytes
    // Filling before a marker is for a reader that takes everything.
    if (bytes[at + 1] === 0xff) return undefined
    at += 2 + bytes.readUInt16BE(at + 2)
  }
  return undefined
}
