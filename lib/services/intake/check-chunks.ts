import 'server-only'
import { type FileHandle, open } from 'node:fs/promises'
import { promisify } from 'node:util'
import { inflate } from 'node:zlib'

const unpacked = promisify(inflate)
const signatureBytes = 8
const maximumChunks = 100_000
/** Profiles and texts of real pictures have a few megabytes at most; common practice, no source. */
const maximumInChunk = 16_000_000
/** The most that a byte can unpack to. Source: zlib technical details, maximum compression factor. */
const mostOfAByte = 1032

/**
 * Whether a PNG has its last chunk: one that broke off on its way has not.
 *
 * Source: PNG third edition, 5.3 (chunk layout) and 11.2.4 (IEND).
 */
export async function hasPngEnd(file: string): Promise<boolean> {
  const handle = await open(file, 'r')
  try {
    for await (const { kind } of chunksOf(handle)) {
      if (kind === 'IEND') return true
    }
    return false
  } finally {
    await handle.close()
  }
}

/**
 * Whether a PNG has a colour profile or a text that unpacks to more than those of real pictures: its decoder would unpack
 * it into memory, however large.
 *
 * Source: PNG third edition, 11.3.2.3 (iCCP), 11.3.3.4 (zTXt) and 11.3.3.5 (iTXt).
 */
export async function hasSwellingChunk(file: string): Promise<boolean> {
  const handle = await open(file, 'r')
  try {
    for await (const { kind, at, length } of chunksOf(handle)) {
      if (!['iCCP', 'zTXt', 'iTXt'].includes(kind)) continue
      if (length * mostOfAByte <= maximumInChunk) continue
      const data = Buffer.alloc(Math.min(length, maximumInChunk))
      const { bytesRead } = await handle.read(data, 0, data.byteLength, at)
      const packed = packedPart(kind, data.subarray(0, bytesRead))
      if (packed !== undefined && (await swells(packed))) return true
    }
    return false
  } finally {
    await handle.close()
  }
}

/** What of a chunk is packed: behind its keyword, and in an iTXt behind its language and the keyword translated. */
function packedPart(kind: string, data: Buffer): Buffer | undefined {
  const keyword = data.indexOf(0)
  if (keyword === -1) return undefined
  if (kind !== 'iTXt') return data.subarray(keyword + 2)
  if (data[keyword + 1] !== 1) return undefined
  const language = data.indexOf(0, keyword + 3)
  const translated = data.indexOf(0, language + 1)
  return language === -1 || translated === -1
    ? undefined
    : data.subarray(translated + 1)
}

async function swells(packed: Buffer): Promise<boolean> {
  try {
    await unpacked(packed, { maxOutputLength: maximumInChunk })
    return false
  } catch (error) {
    // What is no packed data unpacks to nothing: the decoder judges it.
    return (
      error instanceof Error &&
      'code' in error &&
      error.code === 'ERR_BUFFER_TOO_LARGE'
    )
  }
}

/** The chunks of a PNG, each with where its data begins and how long it says that is. */
async function* chunksOf(handle: FileHandle): AsyncGenerator<{
  readonly kind: string
  readonly at: number
  readonly length: number
}> {
  const { size } = await handle.stat()
  const head = Buffer.alloc(8)
  let at = signatureBytes
  for (let count = 0; at < size && count < maximumChunks; count += 1) {
    const { bytesRead } = await handle.read(head, 0, 8, at)
    if (bytesRead < 8) return
    const length = head.readUInt32BE(0)
    yield { kind: head.toString('latin1', 4, 8), at: at + 8, length }
    // Length, name and checksum go with what a chunk holds.
    at += length + 12
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
