import { clockText } from '#core/captions/timestamp'
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

/**
 * What keeps chapters from being shown as chapters, as sentences for the owner; empty when they are sound: the first at
 * 0:00, each after the one before, each at least ten seconds long, at least three.
 *
 * @param duration of the video in seconds, where it is known: then the last must last as well
 * Source: common practice, no source.
 */
export function chapterProblems(
  chapters: readonly Pick<Chapter, 'seconds' | 'title'>[],
  duration?: number,
): readonly string[] {
  const problems: string[] = []
  if (chapters.length < fewestChapters) {
    problems.push(
      `There must be at least three chapters; there ${chapters.length === 1 ? 'is one' : chapters.length === 0 ? 'is none' : 'are two'}.`,
    )
  }
  const [first] = chapters
  if (first !== undefined && first.seconds !== 0) {
    problems.push(
      `The first chapter must begin at 0:00, not at ${clockText(first.seconds)}.`,
    )
  }
  for (const [index, { seconds, title }] of chapters.entries()) {
    const next = chapters[index + 1]?.seconds
    const name = title === '' ? `at ${clockText(seconds)}` : `"${title}"`
    if (title === '') {
      problems.push(`The chapter at ${clockText(seconds)} needs a title.`)
    }
    if (title.length > longestChapterTitle) {
      problems.push(
        `The title at ${clockText(seconds)} is longer than ${longestChapterTitle} characters.`,
      )
    }
    if (next !== undefined && next <= seconds) {
      problems.push(
        `The chapter after ${name} must begin later than ${clockText(seconds)}.`,
      )
    } else if (next !== undefined && next - seconds < shortestChapter) {
      problems.push(
        `The chapter ${name} lasts ${next - seconds} s; each must last at least ${shortestChapter} s.`,
      )
    }
    if (
      next === undefined &&
      duration !== undefined &&
      duration - seconds < shortestChapter
    ) {
      problems.push(
        `The chapter ${name} begins less than ${shortestChapter} s before the video ends.`,
      )
    }
  }
  return problems
}
