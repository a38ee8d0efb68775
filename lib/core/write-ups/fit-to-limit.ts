import type { Paragraph, Sentence } from '#core/write-ups/write-up'

/** Paragraphs as plain text: a blank line between, headings on their own line. */
export function paragraphsText(paragraphs: readonly Paragraph[]): string {
  return paragraphs
    .map(({ heading, layout, sentences }) => {
      const body = sentences
        .map((sentence) => sentence.text)
        .join(layout === 'prose' ? ' ' : '\n')
      return heading === undefined ? body : `${heading}\n${body}`
    })
    .join('\n\n')
}

/**
 * Paragraphs that fit, made so by leaving out the least important sentences whole; of equals, the later goes first.
 *
 * @param limit the largest size allowed
 * @param size how the limit counts a text
 */
export function fitToLimit(
  paragraphs: readonly Paragraph[],
  limit: number,
  size: (text: string) => number,
): {
  readonly paragraphs: readonly Paragraph[]
  readonly leftOut: readonly Sentence[]
} {
  const leftOut: Sentence[] = []
  let kept = paragraphs.filter((paragraph) => paragraph.sentences.length > 0)
  while (kept.length > 0 && size(paragraphsText(kept)) > limit) {
    const sentences = kept.flatMap((paragraph) => paragraph.sentences)
    const least = Math.min(...sentences.map((one) => one.importance))
    const going = sentences.findLast((one) => one.importance === least)
    if (!going) break
    leftOut.push(going)
    kept = kept
      .map((paragraph) => ({
        ...paragraph,
        sentences: paragraph.sentences.filter((one) => one !== going),
      }))
      .filter((paragraph) => paragraph.sentences.length > 0)
  }
  return { paragraphs: kept, leftOut }
}

/** The length in UTF-16 units: never less than the number of characters a reader sees. */
export function lengthInUnits(text: string): number {
  return text.length
}

/** The length in bytes of UTF-8: never less than the number of characters, however a host counts them. */
export function lengthInBytes(text: string): number {
  let bytes = 0
  for (const character of text) {
    const point = character.codePointAt(0) ?? 0
    bytes += point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4
  }
  return bytes
}

/**
 * The first of the texts that fits; when none does, the last one cut after a whole word, or nothing.
 */
export function firstThatFits(texts: readonly string[], limit: number): string {
  const fitting = texts.find((text) => text.length <= limit)
  if (fitting !== undefined) return fitting
  const shortest = texts.at(-1) ?? ''
  const end = shortest.lastIndexOf(' ', limit)
  return end <= 0 ? '' : shortest.slice(0, end).replace(/[\s,;:]+$/, '')
}
