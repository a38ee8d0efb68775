import 'server-only'

/**
 * What the structure of a JPEG says: `whole` from its first marker to its last, `flawed` when there is something in it
 * that does not belong, `incomplete` when it ends before its end marker, `damaged` when no decoder can make sense of
 * it, `unusual` when it is of a kind that only a decoder can judge.
 */
export type JpegCondition =
  'whole' | 'flawed' | 'incomplete' | 'damaged' | 'unusual'

/** A JPEG that is followed as its bytes come. */
export type JpegWalk = {
  /** Takes the next bytes. They are looked at now and not held, but for those before the coded picture. */
  readonly take: (bytes: Buffer) => void
  /** What it is, when no more bytes come. */
  readonly end: () => JpegCondition
}

/** Four segments of the greatest length: phones write a block, a profile and a packet. */
const startBytes = 262_144

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
 *
 * @param onStart told all that stands before the coded picture, which is all that the file says of itself, and what comes
 *   with it; as soon as that is there, and not where it is longer than is worth holding, or holds filling or what does not
 *   belong, which is for readers that take everything
 */
export function jpegWalk(
  onStart: (start: Buffer) => void = () => undefined,
): JpegWalk {
  const bytes = new ComingBytes(onStart)
  const walking = walk(bytes)
  let step = walking.next()
  return {
    take: (more) => {
      if (step.done === true) return
      bytes.give(more)
      step = walking.next()
    },
    end: () => (step.done === true ? step.value : 'incomplete'),
  }
}

/** Waits for more bytes at each yield. */
type Waiting<T> = Generator<undefined, T, undefined>

function* walk(bytes: ComingBytes): Waiting<JpegCondition> {
  // Of what is no JPEG nothing more is looked at.
  if ((yield* bytes.byte()) !== 0xff) return 'damaged'
  if ((yield* bytes.byte()) !== marker.start) return 'damaged'
  let hasFrame = false
  let scans = 0
  let isFlawed = false
  let found = yield* bytes.nextMarker()
  for (;;) {
    const { code } = found
    isFlawed ||= found.isOdd
    if (code === marker.end) {
      if (!hasFrame || scans === 0) return 'damaged'
      return isFlawed ? 'flawed' : 'whole'
    }
    if (isAlone(code)) {
      isFlawed = true
      found = yield* bytes.nextMarker()
      continue
    }
    const length = ((yield* bytes.byte()) << 8) | (yield* bytes.byte())
    if (length < 2) return 'damaged'
    const segment = yield* bytes.next(length - 2)
    if (isFrame(code)) {
      // The first byte of a frame header is its precision in bits.
      if (!usualFrames.includes(code) || segment[0] !== 8) return 'unusual'
      hasFrame = true
    }
    if (code === marker.huffmanTables && !areTables(segment)) return 'damaged'
    if (code !== marker.scan) {
      found = yield* bytes.nextMarker()
      continue
    }
    if (scans === 0) bytes.endStart(!isFlawed)
    scans += 1
    found = yield* bytes.endOfScan()
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

/** A marker, and whether something stands before it that does not belong. */
type Marker = { readonly code: number; readonly isOdd: boolean }

const noBytes: Buffer = Buffer.alloc(0)

/** Bytes as they come, a piece at a time; of what was read only the start is held. */
class ComingBytes {
  #piece = noBytes
  #at = 0
  /** The pieces of the start; absent when it is told, or given up. */
  #start: Buffer[] | undefined = []
  #startLength = 0
  #hasFilling = false

  constructor(private readonly onStart: (start: Buffer) => void) {}

  /** Called where the walk waits: all that came before was read. */
  give(piece: Buffer): void {
    this.#piece = piece
    this.#at = 0
    if (this.#start === undefined) return
    const rest = Math.max(0, startBytes - this.#startLength)
    // A copy: what a piece lies in is much larger, and would be held with it.
    this.#start.push(Buffer.from(piece.subarray(0, rest)))
    this.#startLength += piece.byteLength
  }

  /** The walk stands where the coded picture begins. */
  endStart(isSound: boolean): void {
    const start = this.#start
    this.#start = undefined
    if (start === undefined || !isSound || this.#hasFilling) return
    const read = this.#startLength - this.#piece.byteLength + this.#at
    if (read <= startBytes) this.onStart(Buffer.concat(start))
  }

  *byte(): Waiting<number> {
    while (this.#at >= this.#piece.byteLength) yield
    return this.#piece[this.#at++] ?? NaN
  }

  *next(count: number): Waiting<Buffer> {
    const parts: Buffer[] = []
    let left = count
    while (left > 0) {
      const part = this.#piece.subarray(this.#at, this.#at + left)
      this.#at += part.byteLength
      left -= part.byteLength
      if (left === 0 && parts.length === 0) return part
      parts.push(Buffer.from(part))
      if (left > 0) yield
    }
    return Buffer.concat(parts)
  }

  /** Goes behind the next 0xFF; returns whether anything else stood before it. */
  *skipTo0xff(): Waiting<boolean> {
    let isOdd = false
    for (;;) {
      const at = this.#piece.indexOf(0xff, this.#at)
      isOdd ||= (at === -1 ? this.#piece.byteLength : at) > this.#at
      if (at !== -1) {
        this.#at = at + 1
        return isOdd
      }
      this.#at = this.#piece.byteLength
      yield
    }
  }

  /** The next marker; behind its start no other byte but filling belongs before it. */
  *nextMarker(): Waiting<Marker> {
    let isOdd = false
    for (;;) {
      isOdd = (yield* this.skipTo0xff()) || isOdd
      let code: number
      // Any number of 0xFF may stand before a marker as filling (B.1.1.2).
      while ((code = yield* this.byte()) === 0xff) this.#hasFilling = true
      if (code !== 0) return { code, isOdd }
      isOdd = true
    }
  }

  /** The marker that ends the coded data of a scan; odd where its restart markers are out of order. */
  *endOfScan(): Waiting<Marker> {
    let restart = 0
    let isOdd = false
    for (;;) {
      // Every 256th byte or so is 0xFF: a walk of its own to each would take longer than all the rest.
      const at = this.#piece.indexOf(0xff, this.#at)
      if (at === -1) yield* this.skipTo0xff()
      else this.#at = at + 1
      let code = this.#piece[this.#at++] ?? (yield* this.byte())
      while (code === 0xff) code = yield* this.byte()
      if (isRestart(code)) {
        isOdd ||= (code & 7) !== restart
        restart = (restart + 1) % 8
      } else if (code !== 0) {
        return { code, isOdd }
      }
    }
  }
}
