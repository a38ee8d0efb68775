import 'server-only'
import { type FileHandle, open } from 'node:fs/promises'

/**
 * What the structure of a JPEG says: `whole` from its first marker to its last, `flawed` when there is something in it
 * that does not belong, `incomplete` when it ends before its end marker, `damaged` when no decoder can make sense of
 * it, `unusual` when it is of a kind that only a decoder can judge.
 */
export type JpegCondition =
  'whole' | 'flawed' | 'incomplete' | 'damaged' | 'unusual'

/** More than the longest segment, of 65,535 bytes (B.1.1.4). */
const windowBytes = 524_288

const marker = {
  start: 0xd8,
  end: 0xd9,
  scan: 0xda,
  huffmanTables: 0xc4,
  arithmeticTables: 0xcc,
  reserved: 0xc8,
  temporary: 0x01,
} as const
/** Baseline, extended and progressive frames with Huffman codes: what cameras write. */
const usualFrames = [0xc0, 0xc1, 0xc2]

/**
 * Follows a JPEG from marker to marker to its end, without decoding it, so that a file that is cut off anywhere is found
 * out. Pictures inside its segments, such as a thumbnail, do not mislead it. Damage inside the coded data goes unseen.
 *
 * Source: ISO/IEC 10918-1 (ITU-T T.81), annex B.1 and B.2.
 */
export async function checkJpeg(file: string): Promise<JpegCondition> {
  const handle = await open(file, 'r')
  try {
    return await walk(new JpegReader(handle))
  } finally {
    await handle.close()
  }
}

async function walk(reader: JpegReader): Promise<JpegCondition> {
  let at = 2
  let frame = false
  let scans = 0
  let flawed = false
  for (;;) {
    const found = await reader.nextMarker(at)
    if (found === undefined) return 'incomplete'
    flawed ||= found.skipped
    const { code, position } = found
    if (code === marker.end) {
      if (!frame || scans === 0) return 'damaged'
      return flawed ? 'flawed' : 'whole'
    }
    if (isAlone(code)) {
      flawed = true
      at = position + 2
      continue
    }
    const segment = await reader.segment(position)
    if (segment === undefined) return 'incomplete'
    if (segment === 'damaged') return 'damaged'
    if (isFrame(code)) {
      // The first byte of a frame header is its precision in bits.
      if (!usualFrames.includes(code) || segment[0] !== 8) return 'unusual'
      frame = true
    }
    if (code === marker.huffmanTables && !areTables(segment)) return 'damaged'
    at = position + 4 + segment.byteLength
    if (code === marker.scan) {
      scans += 1
      const end = await reader.endOfScan(at)
      if (end === undefined) return 'incomplete'
      at = end.position
      flawed ||= end.disorder
    }
  }
}

function isRestart(code: number): boolean {
  return code >= 0xd0 && code <= 0xd7
}

/** Markers that stand alone, without a segment. */
function isAlone(code: number): boolean {
  return isRestart(code) || code === marker.start || code === marker.temporary
}

function isFrame(code: number): boolean {
  const others: readonly number[] = [
    marker.huffmanTables,
    marker.reserved,
    marker.arithmeticTables,
  ]
  return code >= 0xc0 && code <= 0xcf && !others.includes(code)
}

/** Whether a segment holds Huffman tables that can be: of at most 256 codes, and no more of a length than there are. */
function areTables(segment: Buffer): boolean {
  let at = 0
  while (at < segment.byteLength) {
    const counts = [...segment.subarray(at + 1, at + 17)]
    if (counts.length < 16) return false
    const codes = counts.reduce((sum, count) => sum + count, 0)
    const used = counts.reduce(
      (sum, count, index) => sum + count / 2 ** (index + 1),
      0,
    )
    if (codes > 256 || used > 1) return false
    at += 17 + codes
  }
  return at === segment.byteLength
}

/** Reads a file through a window, so that it is never held whole. */
class JpegReader {
  /** What it holds is read over when the window moves: whoever keeps a part of it must look at it before. */
  private readonly buffer = Buffer.allocUnsafe(windowBytes)
  private window: Buffer = this.buffer.subarray(0, 0)
  private start = 0

  constructor(private readonly handle: FileHandle) {}

  /** The next marker at or behind a position, and whether anything had to be skipped that is no filling. */
  async nextMarker(
    from: number,
  ): Promise<{ position: number; code: number; skipped: boolean } | undefined> {
    let at = from
    let skipped = false
    for (;;) {
      const position = await this.find(at)
      if (position === undefined) return undefined
      const code = (await this.bytes(position + 1, 1))?.[0]
      if (code === undefined) return undefined
      skipped ||= position !== at || code === 0
      if (code !== 0 && code !== 0xff) return { position, code, skipped }
      // Any number of 0xFF may stand before a marker as filling (B.1.1.2).
      at = position + 1
    }
  }

  /** What a marker's segment holds, without its length. */
  async segment(position: number): Promise<Buffer | 'damaged' | undefined> {
    const length = (await this.bytes(position + 2, 2))?.readUInt16BE(0)
    if (length === undefined) return undefined
    if (length < 2) return 'damaged'
    return this.bytes(position + 4, length - 2)
  }

  /** Where the coded data of a scan ends, and whether its restart markers were out of order. */
  async endOfScan(
    from: number,
  ): Promise<{ position: number; disorder: boolean } | undefined> {
    let at = from
    let restart = 0
    let disorder = false
    for (;;) {
      const bytes = await this.from(at, 2)
      if (bytes.byteLength < 2) return undefined
      // Every 256th byte or so is 0xFF: waiting for each would take longer than all the rest.
      let offset = bytes.indexOf(0xff)
      while (offset !== -1 && offset + 1 < bytes.byteLength) {
        const code = bytes[offset + 1] ?? 0
        if (isRestart(code)) {
          disorder ||= (code & 7) !== restart
          restart = (restart + 1) % 8
        } else if (code !== 0 && code !== 0xff) {
          return { position: at + offset, disorder }
        }
        offset = bytes.indexOf(0xff, offset + (code === 0xff ? 1 : 2))
      }
      at += offset === -1 ? bytes.byteLength : offset
    }
  }

  private async find(from: number): Promise<number | undefined> {
    let at = from
    for (;;) {
      const bytes = await this.from(at)
      if (bytes.byteLength === 0) return undefined
      const index = bytes.indexOf(0xff)
      if (index !== -1) return at + index
      at += bytes.byteLength
    }
  }

  private async bytes(
    position: number,
    length: number,
  ): Promise<Buffer | undefined> {
    const bytes = await this.from(position, length)
    return bytes.byteLength < length ? undefined : bytes.subarray(0, length)
  }

  /** What the window holds from a position on; moved when it does not hold enough. */
  private async from(position: number, least = 1): Promise<Buffer> {
    const offset = position - this.start
    if (offset < 0 || offset + least > this.window.byteLength) {
      const { bytesRead } = await this.handle.read(
        this.buffer,
        0,
        windowBytes,
        position,
      )
      this.window = this.buffer.subarray(0, bytesRead)
      this.start = position
      return this.window
    }
    return this.window.subarray(offset)
  }
}
