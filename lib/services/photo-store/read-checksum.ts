import 'server-only'
import { createHash } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { crc32 } from 'node:zlib'

/**
 * The checksum of an original as archives have it: CRC-32, 0 to 2^32 - 1.
 *
 * @param sha256 the hash that it was kept under
 * @returns undefined when the file holds other bytes: theirs would vouch for the damage
 * @throws Error when it cannot be read
 */
export async function readChecksum(
  file: string,
  sha256: string,
): Promise<number | undefined> {
  const hash = createHash('sha256')
  let checksum = 0
  const stream = createReadStream(file, { highWaterMark: 524_288 })
  for await (const chunk of stream) {
    if (!(chunk instanceof Uint8Array)) continue
    hash.update(chunk)
    checksum = crc32(chunk, checksum)
  }
  return hash.digest('hex') === sha256 ? checksum : undefined
}
