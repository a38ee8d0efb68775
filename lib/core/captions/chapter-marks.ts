import { alignSteps } from '#core/captions/align-steps'
import { type Chapter, chapterProblems } from '#core/captions/chapter'
import { spokenWords } from '#core/captions/spoken-words'
import type { Journal, Step } from '#core/journal/journal'
import { type Result, ok, refused } from '#core/result'
import { english } from '#core/write-ups/english'
import type { Language } from '#core/write-ups/language'

/**
 * Chapters from marks as they are typed, a line each: `0:00 Introduction`, `1:02:30 - First coat`. A step is found for a
 * title that speaks of one.
 *
 * @param steps in the order they were done
 * @returns sound chapters, or what is wrong with which line
 */
export function readChapterMarks(
  text: string,
  steps: readonly Step[],
  journal: Pick<Journal, 'pieces' | 'products'>,
  { chapters }: Language = english,
): Result<readonly Chapter[]> {
  const lines = text
    .split(/\r\n|\r|\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '')
  const marks: { seconds: number; title: string }[] = []
  for (const line of lines) {
    const mark = readMark(line)
    if (mark === undefined) {
      return refused({
        kind: 'invalid',
        detail: chapters.noTime(line.slice(0, 60)),
      })
    }
    marks.push(mark)
  }
  const [problem] = chapterProblems(marks)
  if (problem !== undefined)
    return refused({ kind: 'invalid', detail: chapters.problem(problem) })
  const stepAt = stepsOfTitles(marks, steps, journal)
  return ok(
    marks.map((mark) => {
      const stepId = stepAt.get(mark.seconds)
      return { ...mark, ...(stepId !== undefined && { stepId }), confidence: 1 }
    }),
  )
}

function readMark(
  line: string,
): { readonly seconds: number; readonly title: string } | undefined {
  const match =
    /^[[(]?(?:(\d{1,3}):)?(\d{1,3}):(\d{2})(?:[.,]\d{1,3})?[\])]?\s*(?:[-–—:|.]\s*)?(.*)$/.exec(
      line,
    )
  if (match === null) return undefined
  const [, hours, minutes = '', seconds = '', title = ''] = match
  if (Number(seconds) > 59) return undefined
  if (hours !== undefined && Number(minutes) > 59) return undefined
  return {
    seconds: Number(hours ?? 0) * 3600 + Number(minutes) * 60 + Number(seconds),
    title: title.trim(),
  }
}

/** The step that each title speaks of, by the second it stands at: the titles are read as if they were said there. */
function stepsOfTitles(
  marks: readonly { readonly seconds: number; readonly title: string }[],
  steps: readonly Step[],
  journal: Pick<Journal, 'pieces' | 'products'>,
): ReadonlyMap<number, string> {
  const words = spokenWords(
    marks.map(({ seconds, title }) => ({
      start: seconds,
      end: seconds + 5,
      settings: {},
      text: title,
      parts: [{ text: `${title}.` }],
    })),
  )
  const { starts } = alignSteps(words, steps, journal)
  return new Map(
    starts.flatMap(({ at, step }) => {
      const mark = marks.findLast(({ seconds }) => seconds <= at)
      return mark === undefined ? [] : [[mark.seconds, step.id] as const]
    }),
  )
}
