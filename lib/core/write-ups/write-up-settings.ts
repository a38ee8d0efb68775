/** How long write-ups may be, and what stands in all of them. */
export type WriteUpSettings = {
  readonly limits: {
    /** UTF-16 units. */
    readonly listingTitle: number
    /** UTF-16 units. */
    readonly listing: number
    /** Bytes of UTF-8. */
    readonly video: number
    /** UTF-16 units. */
    readonly caption: number
  }
  /** The workshop's own links. */
  readonly links: readonly {
    readonly label: string
    readonly address: string
  }[]
  /** The workshop's own tags, without their sign. */
  readonly tags: readonly string[]
}

/** Settings of a workshop that has set none. Common practice, no source: what most places allow. */
export const usualWriteUpSettings: WriteUpSettings = {
  limits: { listingTitle: 80, listing: 4000, video: 5000, caption: 2200 },
  links: [],
  tags: [],
}
