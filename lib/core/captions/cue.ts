/** Some of a cue's text, and since when it is spoken where the file says so. */
export type CuePart = {
  /** Seconds; absent: since the cue's start, or after the part before. */
  readonly at?: number
  readonly text: string
}

/** One caption: when it is shown and what it says. Times in seconds from the start of the video. */
export type Cue = {
  readonly start: number
  readonly end: number
  readonly id?: string
  /** Position, alignment and the like, by name. */
  readonly settings: Readonly<Record<string, string>>
  /** What is read, without tags; lines apart by a line feed. */
  readonly text: string
  /** The same text in the parts that inline timestamps make of it. */
  readonly parts: readonly CuePart[]
}

/** A caption file that was read; its cues in the order of the file. */
export type Captions = {
  readonly format: 'webvtt' | 'subrip'
  readonly cues: readonly Cue[]
}
