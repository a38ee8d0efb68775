import { shortestChapter } from '#core/captions/chapter-length'

/** A beginning may be put off by so many seconds for the sake of the chapter before it. Common practice, no source. */
const longestDelay = 6

/**
 * Beginnings as chapters can have them: one told of less than a chapter's length after another waits until that has passed.
 * Where it would have to wait for long, the less certain of the two is left out.
 *
 * @param starts in order of time, seconds
 * @returns beginnings at least ten seconds apart
 */
export function spreadStarts<
  Start extends { readonly at: number; readonly confidence: number },
>(starts: readonly Start[]): readonly Start[] {
  const spread: Start[] = []
  for (const start of starts) {
    const before = spread.at(-1)
    const earliest = before === undefined ? 0 : before.at + shortestChapter
    if (earliest - start.at <= longestDelay) {
      spread.push({ ...start, at: Math.max(start.at, earliest) })
    } else if (before !== undefined && before.confidence < start.confidence) {
      spread.pop()
      const last = spread.at(-1)
      spread.push({
        ...start,
        at: Math.max(
          start.at,
          last === undefined ? 0 : last.at + shortestChapter,
        ),
      })
    }
  }
  return spread
}
