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
 * Paragraphs that fit, made so by telling the least important first in fewer words and then not at all; of equals, the
 * later goes first. Whatever room is left in the end goes to longer wordings again.
 *
 * @param limit the largest size allowed
 * @param size how the limit counts a text
 * @returns sentences in the words that they are told in
 */
export function fitToLimit(
  paragraphs: readonly Paragraph[],
  limit: number,
  size: (text: string) => number,
): {
  readonly paragraphs: readonly Paragraph[]
  readonly leftOut: readonly Sentence[]
} {
  const parts = partsOf(paragraphs)
  const leftOut: Sentence[] = []
  const isTooLong = () => size(paragraphsText(told(paragraphs, parts))) > limit
  while (isTooLong()) {
    const going = parts
      .filter((part) => part.isTold)
      .reduce<Part | undefined>(
        (least, part) =>
          least === undefined || worthOf(part) <= worthOf(least) ? part : least,
        undefined,
      )
    if (going === undefined) break
    if (hasShorter(going)) going.wording += 1
    else {
      going.isTold = false
      leftOut.push(...going.sentences)
    }
  }
  const shortened = parts
    .filter(({ isTold, wording }) => isTold && wording > 0)
    .toSorted((one, other) => lastWorth(other) - lastWorth(one))
  for (const part of shortened) {
    const fewest = part.wording
    part.wording = 0
    while (part.wording < fewest && isTooLong()) part.wording += 1
  }
  return {
    paragraphs: told(paragraphs, parts),
    leftOut: [
      ...leftOut,
      ...parts.flatMap((part) =>
        part.isTold
          ? part.sentences.filter((one) => wordsOf(part).get(one) === '')
          : [],
      ),
    ],
  }
}

/** The least room that sentences can be told in, each in its fewest words. */
export function leastRoom(
  paragraphs: readonly Paragraph[],
  size: (text: string) => number,
  isWanted: (sentence: Sentence) => boolean,
): number {
  const wanted = paragraphs.map((paragraph) => ({
    ...paragraph,
    sentences: paragraph.sentences.filter(isWanted),
  }))
  const parts = partsOf(wanted).map((part) => ({
    ...part,
    wording: wordingsOf(part),
  }))
  return size(paragraphsText(told(wanted, parts)))
}

/** Sentences that are told in as many words each, or left out one like the other. */
type Part = {
  readonly sentences: readonly Sentence[]
  /** 0 in all words, from 1 on in fewer. */
  wording: number
  isTold: boolean
}

function partsOf(paragraphs: readonly Paragraph[]): readonly Part[] {
  const parts = new Map<string | Sentence, Sentence[]>()
  for (const sentence of paragraphs.flatMap(({ sentences }) => sentences)) {
    const key = sentence.together ?? sentence
    parts.set(key, [...(parts.get(key) ?? []), sentence])
  }
  return [...parts.values()].map((sentences) => ({
    sentences,
    wording: 0,
    isTold: true,
  }))
}

function wordingsOf({ sentences }: Part): number {
  return Math.max(0, ...sentences.map(({ shorter = [] }) => shorter.length))
}

function hasShorter(part: Part): boolean {
  return part.wording < wordingsOf(part)
}

/** What is lost with the next fewer words, or with the sentences themselves. */
function worthOf(part: Part): number {
  return hasShorter(part)
    ? Math.max(
        ...part.sentences.map(
          ({ shorter = [], importance }) =>
            shorter[part.wording]?.worth ?? importance,
        ),
      )
    : Math.max(...part.sentences.map(({ importance }) => importance))
}

function lastWorth({ sentences, wording }: Part): number {
  return Math.max(
    ...sentences.map(({ shorter = [] }) => shorter[wording - 1]?.worth ?? 0),
  )
}

/** The words of each of its sentences; none where one before it says the same. */
function wordsOf({
  sentences,
  wording,
  isTold,
}: Part): ReadonlyMap<Sentence, string> {
  const said = new Set<string>()
  return new Map(
    sentences.map((sentence) => {
      const { text, shorter = [] } = sentence
      const fewer = shorter[wording - 1] ?? shorter.at(-1)
      const words = wording === 0 || fewer === undefined ? text : fewer.text
      const isSaid = wording > 0 && said.has(words)
      said.add(words)
      return [sentence, isTold && !isSaid ? words : '']
    }),
  )
}

/** The paragraphs in the words that their sentences are told in; without what is not told. */
function told(
  paragraphs: readonly Paragraph[],
  parts: readonly Part[],
): readonly Paragraph[] {
  const words = new Map(parts.flatMap((part) => [...wordsOf(part)]))
  return paragraphs
    .map((paragraph) => ({
      ...paragraph,
      sentences: paragraph.sentences.flatMap((sentence) => {
        const text = words.get(sentence) ?? ''
        return text === '' ? [] : [{ ...sentence, text }]
      }),
    }))
    .filter(({ sentences }) => sentences.length > 0)
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
