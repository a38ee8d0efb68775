import type { Readable } from 'node:stream'

/** How many of its first bytes an arrival keeps at hand: what a file is shows in them. */
export const headBytes = 4096

/** Bytes that have arrived whole but are not kept yet. */
export type Arrival = {
  /** The temporary file. */
  readonly path: string
  readonly byteLength: number
  /** Its first `headBytes`, or all of it when it is shorter. */
  readonly head: Uint8Array
  /** SHA-256 of the bytes, 64 hexadecimal digits. */
  readonly sha256: string
  /** Of the bytes, as archives have it: 0 to 2^32 - 1. */
  readonly crc32: number
  /** Resolves when its bytes are on the disk: the last of them are on their way when it is whole. */
  readonly flushed: Promise<void>
}

/** Part of a file: whole numbers, both ends included. */
export type ByteRange = { readonly first: number; readonly last: number }

/** Where the originals of photos are kept, byte for byte, each found by the SHA-256 of its bytes. */
export type PhotoStore = {
  /**
   * Writes what arrives to a temporary file and hashes it on the way; never holds more than a chunk of it.
   *
   * More than `maximumBytes` is read to its end but not stored, so that what follows in the same stream can be read.
   * When the stream breaks off, nothing is left behind and its error is thrown.
   *
   * @param look shown what arrives, a piece after the other
   */
  readonly arrive: (
    bytes: AsyncIterable<Uint8Array>,
    maximumBytes: number,
    look?: (piece: Buffer) => void,
  ) => Promise<Arrival | 'too-large'>
  /**
   * Makes an arrival durable under its hash: when this is done, it outlives a power cut. Until it is settled, a mark says
   * that no record may name it yet.
   */
  readonly keep: (arrival: Arrival) => Promise<void>
  /** Takes the mark away: what was kept is on record now. */
  readonly settle: (arrival: Arrival) => Promise<void>
  /**
   * Takes back what was kept and could not be recorded, with its mark; where that cannot be either, the next start does.
   *
   * @param isRecorded whether the journal knows an original all the same
   */
  readonly takeBack: (
    arrival: Arrival,
    isRecorded: (sha256: string) => Promise<boolean>,
  ) => Promise<void>
  /** Removes an arrival that is not wanted; it may be gone already. */
  readonly discard: (arrival: Arrival) => Promise<void>
  /** The file of an original; undefined when it is not there. */
  readonly stat: (
    sha256: string,
  ) => Promise<{ readonly byteLength: number } | undefined>
  /** Where an original lies, for readers that want a file. */
  readonly path: (sha256: string) => string
  /** The bytes of an original, or a part of them; close the stream when you stop early. */
  readonly open: (sha256: string, range?: ByteRange) => Readable
  /**
   * Removes the file of an original that is off the record; of one that is arriving at this moment it leaves the file.
   *
   * @param isUnused asked while no such bytes can come to be kept: whether it is to go
   * @returns whether there is no file now
   */
  readonly remove: (
    sha256: string,
    isUnused: () => Promise<boolean>,
  ) => Promise<boolean>
  /**
   * Removes what was left behind by arrivals that never ended, and what was kept but never recorded; returns how many
   * there were.
   *
   * @param isRecorded whether the journal knows an original
   */
  readonly removeLeftovers: (
    isRecorded: (sha256: string) => Promise<boolean>,
  ) => Promise<number>
}
