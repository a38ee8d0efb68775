import 'server-only'
import { open } from 'node:fs/promises'

const signatureBytes = 8
const maximumChunks = 100_000

/**
 * Whether a PNG has its last chunk: one that broke off on its way has not.
 *
 * Source: PNG third edition, 5.3 (chunk layout) and 11.2.4 (IEND).
 */
export async function hasPngEnd(file: string): Promise<boolean> {
  const handle = await open(file, 'r')
  try {
    const { size } = await handle.stat()
    const head = Buffer.alloc(8)
    let at = signatureBytes
    for (let count = 0; at < size && count < maximumChunks; count += 1) {
      const { bytesRead } = await handle.read(head, 0, 8, at)
      if (bytesRead < 8) return false
      if (head.toString('latin1', 4, 8) === 'IEND') return true
      // Length, name and checksum go with what a chunk holds.
      at += head.readUInt32BE(0) + 12
    }
    return false
  } finally {
    await handle.close()
  }
}

/**
 * Whether a WebP is as long as its first words say.
 *
 * Source: RFC 9649, section 2.4 (file header).
 */
export async function isRiffWhole(file: string): Promise<boolean> {
  const handle = await open(file, 'r')
  try {
    const { size } = await handle.stat()
    const head = Buffer.alloc(8)
    const { bytesRead } = await handle.read(head, 0, 8, 0)
    return bytesRead === 8 && head.readUInt32LE(4) + 8 <= size
  } finally {
    await handle.close()
  }
}
