import { shortestChapter } from '#core/captions/chapter-length'

/** A part of a video, from its start to the next one's. */
export type Chapter = {
  /** From the start of the video: whole seconds. */
  readonly seconds: number
  readonly title: string
  /** The step whose telling it begins with; none for an introduction or an ending. */
  readonly stepId?: string
  /** How likely the step begins within ten seconds of it: 0 to 1; 1 for what the owner set. */
  readonly confidence: number
}

/** Common practice, no source: fewer chapters than this are shown as none, and longer titles are cut. */
export const fewestChapters = 3
export const longestChapterTitle = 100

/** What keeps chapters from being shown as chapters; `title` may be empty. Seconds from the start of the video. */
export type ChapterProblem =
  | { readonly kind: 'too-few'; readonly count: number }
  | { readonly kind: 'late-first'; readonly seconds: number }
  | { readonly kind: 'no-title'; readonly seconds: number }
  | { readonly kind: 'long-title'; readonly seconds: number }
  | {
      readonly kind: 'not-after' | 'too-short' | 'at-the-end'
      readonly seconds: number
      readonly title: string
      /** How long it lasts. */
      readonly lasts: number
    }

/**
 * What keeps chapters from being shown as chapters; empty when they are sound: the first at 0:00, each after the one
 * before, each at least ten seconds long, at least three. In words: `chapters.problem` of the language.
 *
 * @param duration of the video in seconds, where it is known: then the last must last as well
 * Source: common practice, no source.
 */
export function chapterProblems(
  chapters: readonly Pick<Chapter, 'seconds' | 'title'>[],
  duration?: number,
): readonly ChapterProblem[] {
  const problems: ChapterProblem[] = []
  if (chapters.length < fewestChapters) {
    problems.push({ kind: 'too-few', count: chapters.length })
  }
  const [first] = chapters
  if (first !== undefined && first.seconds !== 0) {
    problems.push({ kind: 'late-first', seconds: first.seconds })
  }
  for (const [index, { seconds, title }] of chapters.entries()) {
    const next = chapters[index + 1]?.seconds
    const lasts = (next ?? duration ?? Infinity) - seconds
    if (title === '') problems.push({ kind: 'no-title', seconds })
    if (title.length > longestChapterTitle) {
      problems.push({ kind: 'long-title', seconds })
    }
    if (next !== undefined && lasts <= 0) {
      problems.push({ kind: 'not-after', seconds, title, lasts })
    } else if (lasts < shortestChapter) {
      problems.push({
        kind: next === undefined ? 'at-the-end' : 'too-short',
        seconds,
        title,
        lasts,
      })
    }
  }
  return problems
}
