import { wallClock } from '#core/time/zone'
import type { Instant } from '#core/units'

/** A file of an archive, known before a byte of it is read. */
export type ZipFile = {
  /** ASCII, with `/` between folders. */
  readonly name: string
  readonly byteLength: number
  /** Of its bytes, by ISO/IEC/IEEE 8802-3, as zip files have it: 0 to 2^32 - 1. */
  readonly crc32: number
}

/** Where everything lies in an archive whose files are stored as they are. */
export type ZipPlan = {
  readonly files: readonly ZipFile[]
  /** Where each file's local header begins. */
  readonly offsets: readonly number[]
  /** Where each file's entry in the directory begins. */
  readonly entries: readonly number[]
  readonly directoryAt: number
  readonly directoryEndsAt: number
  /** Of the whole archive. */
  readonly byteLength: number
  /** The moment that all its files bear, as the format writes it. */
  readonly moment: DosMoment
}

type DosMoment = { readonly time: number; readonly date: number }

/** A stretch of an archive: bytes of its frame, or a part of one of its files; both ends included. */
export type ZipPiece =
  | { readonly kind: 'frame'; readonly bytes: Uint8Array<ArrayBuffer> }
  | {
      readonly kind: 'file'
      /** Its place in the plan's files. */
      readonly file: number
      readonly first: number
      readonly last: number
    }

const most16 = 0xffff
const most32 = 0xffffffff
const localBytes = 30
const centralBytes = 46
const end64Bytes = 56
const locatorBytes = 20
const endBytes = 22
/** Written on a Unix, so that the file mode below is read; version 4.5 of the format, for large archives. */
const madeBy = (3 << 8) | 45
/** A plain file that its owner may read and write, and others read. */
const fileMode = (0o100644 << 16) >>> 0

/**
 * Lays out an archive in which every file is stored as it is, so that the place of every byte is known beforehand and any
 * part of the archive can be given without what stands before it. The same files and moment give the same bytes.
 *
 * Sizes are bounded by exact numbers alone, 2^53 bytes; beyond 4 GiB or 65,534 files the 64-bit records are used.
 *
 * @throws RangeError for a name that is not ASCII or too long, and for a size or checksum that cannot be
 * Source: APPNOTE.TXT - .ZIP File Format Specification 6.3.10, sections 4.3 to 4.5.
 */
export function planZip(files: readonly ZipFile[], madeAt: Instant): ZipPlan {
  const offsets: number[] = []
  let at = 0
  for (const file of files) {
    refuseImpossible(file)
    offsets.push(at)
    at += localLength(file) + file.byteLength
  }
  const directoryAt = at
  const entries: number[] = []
  for (const [index, file] of files.entries()) {
    entries.push(at)
    at += centralLength(file, offsets[index] ?? 0)
  }
  const directoryEndsAt = at
  const plan = {
    files,
    offsets,
    entries,
    directoryAt,
    directoryEndsAt,
    moment: dosMoment(madeAt),
  }
  return { ...plan, byteLength: at + endRecords(plan).byteLength }
}

/**
 * The stretches that make up a part of an archive, in order; the whole of it unless told.
 *
 * @param range both ends included, within the archive
 */
export function* zipPieces(
  plan: ZipPlan,
  range: { readonly first: number; readonly last: number } = {
    first: 0,
    last: plan.byteLength - 1,
  },
): Generator<ZipPiece> {
  const frame = function* (
    at: number,
    byteLength: number,
    bytes: () => Uint8Array<ArrayBuffer>,
  ): Generator<ZipPiece> {
    const part = overlap(at, byteLength, range)
    if (part === undefined) return
    yield { kind: 'frame', bytes: bytes().subarray(part.first, part.last + 1) }
  }
  for (
    let index = lastBefore(plan.offsets, range.first);
    index < plan.files.length;
    index += 1
  ) {
    const file = plan.files[index]
    const at = plan.offsets[index]
    if (file === undefined || at === undefined || at > range.last) break
    const header = localLength(file)
    yield* frame(at, header, () => localHeader(file, plan.moment))
    const part = overlap(at + header, file.byteLength, range)
    if (part !== undefined) yield { kind: 'file', file: index, ...part }
  }
  if (range.last < plan.directoryAt) return
  for (
    let index = lastBefore(plan.entries, range.first);
    index < plan.files.length;
    index += 1
  ) {
    const file = plan.files[index]
    const at = plan.entries[index]
    if (file === undefined || at === undefined || at > range.last) break
    const offset = plan.offsets[index] ?? 0
    yield* frame(at, centralLength(file, offset), () =>
      centralHeader(file, offset, plan.moment),
    )
  }
  const end = endRecords(plan)
  yield* frame(plan.directoryEndsAt, end.byteLength, () => end)
}

/** The place in a list of the last stretch that begins at or before a byte; 0 where there is none. */
function lastBefore(beginnings: readonly number[], byte: number): number {
  let low = 0
  let high = beginnings.length
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if ((beginnings[middle] ?? 0) <= byte) low = middle
    else high = middle
  }
  return low
}

/** Which part of a stretch lies in a range, counted from the stretch's beginning. */
function overlap(
  at: number,
  byteLength: number,
  range: { readonly first: number; readonly last: number },
): { readonly first: number; readonly last: number } | undefined {
  const first = Math.max(at, range.first)
  const last = Math.min(at + byteLength - 1, range.last)
  return first > last ? undefined : { first: first - at, last: last - at }
}

function refuseImpossible({ name, byteLength, crc32 }: ZipFile): void {
  if (!/^[\x20-\x7e]+$/.test(name) || name.length > most16) {
    throw new RangeError(`planZip: expected a name in ASCII, got ${name}`)
  }
  if (!Number.isSafeInteger(byteLength) || byteLength < 0) {
    throw new RangeError(`planZip: expected a size, got ${byteLength}`)
  }
  if (!Number.isInteger(crc32) || crc32 < 0 || crc32 > most32) {
    throw new RangeError(`planZip: expected a checksum, got ${crc32}`)
  }
}

const isLarge = (value: number) => value >= most32

function localLength(file: ZipFile): number {
  return localBytes + file.name.length + (isLarge(file.byteLength) ? 20 : 0)
}

function centralLength(file: ZipFile, offset: number): number {
  const extra = (isLarge(file.byteLength) ? 16 : 0) + (isLarge(offset) ? 8 : 0)
  return centralBytes + file.name.length + (extra === 0 ? 0 : 4 + extra)
}

/** 4.3.7. */
function localHeader(
  file: ZipFile,
  moment: DosMoment,
): Uint8Array<ArrayBuffer> {
  const large = isLarge(file.byteLength)
  const size = large ? most32 : file.byteLength
  const out = writer(localLength(file))
  out.u32(0x04034b50)
  out.u16(large ? 45 : 20)
  shared(out, file, moment)
  out.u32(size)
  out.u32(size)
  out.u16(file.name.length)
  out.u16(large ? 20 : 0)
  out.text(file.name)
  // 4.5.3: in a local header both sizes stand, in this order.
  if (large) out.extra([file.byteLength, file.byteLength])
  return out.bytes
}

/** 4.3.12. */
function centralHeader(
  file: ZipFile,
  offset: number,
  moment: DosMoment,
): Uint8Array<ArrayBuffer> {
  const wide = [
    ...(isLarge(file.byteLength) ? [file.byteLength, file.byteLength] : []),
    ...(isLarge(offset) ? [offset] : []),
  ]
  const size = Math.min(file.byteLength, most32)
  const out = writer(centralLength(file, offset))
  out.u32(0x02014b50)
  out.u16(madeBy)
  out.u16(wide.length > 0 ? 45 : 20)
  shared(out, file, moment)
  out.u32(size)
  out.u32(size)
  out.u16(file.name.length)
  out.u16(wide.length === 0 ? 0 : 4 + wide.length * 8)
  out.u16(0)
  out.u16(0)
  out.u16(0)
  out.u32(fileMode)
  out.u32(Math.min(offset, most32))
  out.text(file.name)
  if (wide.length > 0) out.extra(wide)
  return out.bytes
}

/** Flags (none), method (stored), time, date and checksum: the same in both headers. */
function shared(out: Writer, file: ZipFile, moment: DosMoment): void {
  out.u16(0)
  out.u16(0)
  out.u16(moment.time)
  out.u16(moment.date)
  out.u32(file.crc32)
}

/** 4.3.14 to 4.3.16. */
function endRecords(
  plan: Pick<ZipPlan, 'files' | 'directoryAt' | 'directoryEndsAt'>,
): Uint8Array<ArrayBuffer> {
  const { directoryAt, directoryEndsAt } = plan
  const count = plan.files.length
  const size = directoryEndsAt - directoryAt
  const large = count >= most16 || isLarge(size) || isLarge(directoryAt)
  const out = writer(endBytes + (large ? end64Bytes + locatorBytes : 0))
  if (large) {
    out.u32(0x06064b50)
    out.u64(end64Bytes - 12)
    out.u16(madeBy)
    out.u16(45)
    out.u32(0)
    out.u32(0)
    out.u64(count)
    out.u64(count)
    out.u64(size)
    out.u64(directoryAt)
    out.u32(0x07064b50)
    out.u32(0)
    out.u64(directoryEndsAt)
    out.u32(1)
  }
  out.u32(0x06054b50)
  out.u16(0)
  out.u16(0)
  out.u16(large ? most16 : count)
  out.u16(large ? most16 : count)
  out.u32(large ? most32 : size)
  out.u32(large ? most32 : directoryAt)
  out.u16(0)
  return out.bytes
}

/** 4.4.6: two seconds are the finest, and 1980 to 2107 all the years; in UTC, since the format knows no zones. */
function dosMoment(at: Instant): DosMoment {
  const clock = wallClock(at, 'UTC')
  const year = Math.min(Math.max(clock.year, 1980), 2107)
  return {
    time: (clock.hour << 11) | (clock.minute << 5) | (clock.second >> 1),
    date: ((year - 1980) << 9) | (clock.month << 5) | clock.day,
  }
}

type Writer = ReturnType<typeof writer>

/** Writes numbers with their lowest byte first, one after the other. */
function writer(byteLength: number) {
  const bytes = new Uint8Array(byteLength)
  const view = new DataView(bytes.buffer)
  let at = 0
  const u16 = (value: number) => {
    view.setUint16(at, value, true)
    at += 2
  }
  const u32 = (value: number) => {
    view.setUint32(at, value, true)
    at += 4
  }
  const u64 = (value: number) => {
    view.setBigUint64(at, BigInt(value), true)
    at += 8
  }
  return {
    bytes,
    u16,
    u32,
    u64,
    text: (ascii: string) => {
      for (const letter of ascii) {
        bytes[at] = letter.charCodeAt(0)
        at += 1
      }
    },
    /** The extra field for 64-bit numbers. */
    extra: (values: readonly number[]) => {
      u16(1)
      u16(values.length * 8)
      for (const value of values) u64(value)
    },
  }
}
