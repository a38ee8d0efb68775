import type { Cue } from '#core/captions/cue'

/** One word that is said. */
export type SpokenWord = {
  /** Lower case, without punctuation; ordinals such as 2nd in full. */
  readonly text: string
  /** Seconds from the start of the video. */
  readonly at: number
  /** Seconds at which it has been said. */
  readonly end: number
  /** Its cue, as an index into the cues. */
  readonly cue: number
  /** Whether a sentence begins with it, as far as punctuation tells. */
  readonly opens: boolean
}

/** Cues that follow each other within so many seconds may roll: the second shows again what the first has said. */
const rollingGapSeconds = 1.5
/** A word takes this long at most; a cue that stays longer holds silence. Common practice, no source: 120 words a minute is slow. */
const longestWordSeconds = 0.7

/**
 * The words of captions in the order they are said, each once, with its time.
 *
 * Captions made by a machine roll: a cue begins with the lines of the one before it. What is shown again is left out.
 * Inside a cue the words share its time by their lengths, unless inline timestamps tell.
 */
export function spokenWords(cues: readonly Cue[]): readonly SpokenWord[] {
  const order = [...cues.keys()].sort(
    (one, other) => (cues[one]?.start ?? 0) - (cues[other]?.start ?? 0),
  )
  const said: SpokenWord[] = []
  let before: readonly TokenLine[] = []
  let shownUntil = -Infinity
  let opens = true
  for (const [place, index] of order.entries()) {
    const cue = cues[index]
    if (cue === undefined) continue
    const lines = tokenLines(cue)
    const tokens = lines.flat()
    if (tokens.length === 0) continue
    const isClose = cue.start - shownUntil <= rollingGapSeconds
    const again =
      isClose || beginsWithLast(lines, before)
        ? shownAgain(lines, before, said)
        : 0
    before = lines
    shownUntil = Math.max(shownUntil, cue.end)
    const fresh = tokens.slice(again)
    if (fresh.length === 0) continue
    const following = order
      .slice(place + 1, place + 3)
      .map((one) => cues[one]?.start ?? Infinity)
      .find((start) => start > cue.start)
    const end = Math.max(cue.start, Math.min(cue.end, following ?? Infinity))
    const last = said.at(-1)?.at ?? 0
    for (const { token, from, until } of timed(fresh, cue.start, end)) {
      said.push({
        text: token.text,
        at: Math.max(last, from),
        end: Math.max(last, until),
        cue: index,
        opens: opens || token.opens,
      })
      opens = token.closes
    }
  }
  return said
}

type Token = {
  readonly text: string
  readonly opens: boolean
  readonly closes: boolean
  readonly length: number
  readonly at?: number
}
type TokenLine = readonly Token[]

/** How many of a cue's first words have been shown before: whole lines of it, or all that the cue before it showed. */
function shownAgain(
  lines: readonly TokenLine[],
  before: readonly TokenLine[],
  said: readonly SpokenWord[],
): number {
  const tokens = lines.flat()
  const shown = before.flat()
  const lengths = lines.map(
    (_, index) => lines.slice(0, index + 1).flat().length,
  )
  const candidates = [...new Set([...lengths, shown.length])].sort(
    (one, other) => other - one,
  )
  const endsWith = (words: readonly { readonly text: string }[], n: number) =>
    n > 0 &&
    n <= tokens.length &&
    n <= words.length &&
    tokens
      .slice(0, n)
      .every((token, i) => token.text === words[words.length - n + i]?.text)
  return candidates.find((n) => endsWith(said, n) || endsWith(shown, n)) ?? 0
}

/**
 * Whether a cue of several lines begins with the line that stood last, however long ago: after a silence captions go on
 * rolling, and nobody says the same three words or more at the same break of a line.
 */
function beginsWithLast(
  lines: readonly TokenLine[],
  before: readonly TokenLine[],
): boolean {
  const text = (line: TokenLine | undefined) =>
    (line ?? []).map((token) => token.text).join(' ')
  return (
    lines.length > 1 &&
    (lines[0]?.length ?? 0) >= 3 &&
    text(lines[0]) === text(before.at(-1))
  )
}

/** Words with the times between which each is said. */
function timed(
  tokens: readonly Token[],
  start: number,
  end: number,
): readonly { token: Token; from: number; until: number }[] {
  const result: { token: Token; from: number; until: number }[] = []
  let first = 0
  while (first < tokens.length) {
    let next = first + 1
    while (next < tokens.length && tokens[next]?.at === undefined) next += 1
    const from = Math.max(start, tokens[first]?.at ?? start)
    const until = Math.min(
      Math.max(from, tokens[next]?.at ?? end),
      from + (next - first) * longestWordSeconds,
    )
    const group = tokens.slice(first, next)
    const total = group.reduce((sum, one) => sum + one.length + 1, 0)
    let sofar = 0
    for (const token of group) {
      const share = (part: number) => from + ((until - from) * part) / total
      const begins = share(sofar)
      sofar += token.length + 1
      result.push({ token, from: begins, until: share(sofar) })
    }
    first = next
  }
  return result
}

/** A sound, not a word: [Music], (applause), a song's notes; and who speaks. */
const notSpoken =
  /\[[^\]\n]*\]|\([^)\n]*\)|[♪♫♬#]+|^\s*(?:>>+|[-–—])\s*|^\s*[A-Z][A-Z .]{1,20}:\s/gm

function tokenLines(cue: Cue): readonly TokenLine[] {
  const lines: Token[][] = [[]]
  for (const part of cue.parts) {
    let at = part.at
    // Line feeds inside a part still end a line.
    for (const [index, line] of part.text
      .replace(notSpoken, ' ')
      .split('\n')
      .entries()) {
      if (index > 0) lines.push([])
      for (const token of tokensOf(line, at)) {
        lines.at(-1)?.push(token)
        at = undefined
      }
    }
  }
  return lines.filter((line) => line.length > 0)
}

function tokensOf(line: string, at: number | undefined): readonly Token[] {
  const tokens: Token[] = []
  for (const chunk of line.split(/\s+/)) {
    const closes = /[.!?…]["'”’)]*$/.test(chunk) && !/^\d+\.$/.test(chunk)
    const words = chunk
      .toLowerCase()
      .replaceAll('’', "'")
      .replaceAll('½', ' half ')
      .replaceAll('%', ' percent ')
      .split(/(?<=\d),(?=\d)|[^\p{L}\p{N}'.]+/u)
      .map((word) => word.replace(/^['.]+|['.]+$/g, ''))
      .filter((word) => word !== '')
    for (const [index, word] of words.entries()) {
      const time = tokens.length === 0 ? at : undefined
      tokens.push({
        text: ordinals[word] ?? word,
        opens: false,
        closes: closes && index === words.length - 1,
        length: word.length,
        ...(time !== undefined && { at: time }),
      })
    }
  }
  return tokens
}

const ordinals: Readonly<Record<string, string>> = {
  '1st': 'first',
  '2nd': 'second',
  '3rd': 'third',
  '4th': 'fourth',
  '5th': 'fifth',
}
