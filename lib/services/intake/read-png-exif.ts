import 'server-only'
import { type FileHandle, open } from 'node:fs/promises'
import { inflateSync } from 'node:zlib'

const signatureBytes = 8
const maximumChunks = 10_000
const maximumBytes = 1_000_000
/** Keywords of the text that holds an Exif block; the second is that of the JPEG segment it came from. */
const profileKeywords = ['Raw profile type exif\0', 'Raw profile type APP1\0']

/**
 * The Exif block of a PNG, wherever it stands in the file; undefined when there is none that can be read.
 *
 * Decoders stop at the first picture data, and so miss a block that stands behind it; many older programs wrote it
 * as a text of hexadecimal digits instead, compressed or not.
 *
 * Source: PNG third edition, 11.3.3.3 (tEXt), 11.3.3.4 (zTXt) and 11.3.4.5 (eXIf).
 */
export async function readPngExif(file: string): Promise<Buffer | undefined> {
  const handle = await open(file, 'r')
  try {
    let at = signatureBytes
    for (let count = 0; count < maximumChunks; count += 1) {
      const head = await readAt(handle, at, 8)
      if (head.byteLength < 8) return undefined
      const length = head.readUInt32BE(0)
      const kind = head.toString('latin1', 4, 8)
      if (['eXIf', 'tEXt', 'zTXt'].includes(kind) && length <= maximumBytes) {
        const data = await readAt(handle, at + 8, length)
        const found = kind === 'eXIf' ? data : profileIn(data, kind === 'zTXt')
        if (found !== undefined) return found
      }
      at += 12 + length
    }
    return undefined
  } finally {
    await handle.close()
  }
}

async function readAt(
  handle: FileHandle,
  position: number,
  length: number,
): Promise<Buffer> {
  const buffer = Buffer.alloc(length)
  const { bytesRead } = await handle.read(buffer, 0, length, position)
  return buffer.subarray(0, bytesRead)
}

/**
 * A text chunk that holds an Exif block: keyword, for a compressed one its method, then "name, length, hexadecimal
 * digits".
 */
function profileIn(data: Buffer, isCompressed: boolean): Buffer | undefined {
  const keyword = profileKeywords.find(
    (one) => data.toString('latin1', 0, one.length) === one,
  )
  if (keyword === undefined) return undefined
  const behind = data.subarray(keyword.length)
  const text = isCompressed
    ? inflated(behind.subarray(1))
    : behind.toString('latin1')
  // Some writers leave rubbish behind the digits, so their number decides where the block ends.
  const parts = /^\s*\w+\s+(\d+)\s+([0-9a-fA-F\s]+)/.exec(text ?? '')
  if (parts === null) return undefined
  const digits = (parts[2] ?? '').replaceAll(/\s/g, '')
  return Buffer.from(digits, 'hex').subarray(0, Number(parts[1]))
}

function inflated(compressed: Buffer): string | undefined {
  try {
    return inflateSync(compressed, {
      maxOutputLength: maximumBytes * 3,
    }).toString('latin1')
  } catch {
    // A damaged text chunk says nothing; the picture may be sound.
    return undefined
  }
}
