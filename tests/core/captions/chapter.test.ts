/** The examples are common practice for chapters, worked out with a pencil. */
import { describe, expect, test } from 'vitest'
import { type ChapterProblem, chapterProblems } from '#core/captions/chapter'
import { readChapterMarks } from '#core/captions/chapter-marks'
import { english } from '#core/write-ups/english'

const words = (problems: readonly ChapterProblem[]) =>
  problems.map(english.chapters.problem).join(' ')

const at = (...seconds: readonly number[]) =>
  seconds.map((one) => ({ seconds: one, title: 'x' }))

describe('chapters', () => {
  test('at 0:00, 0:10 and 1:00 are sound', () => {
    expect(chapterProblems(at(0, 10, 60))).toEqual([])
  })

  test.each([
    ['one that lasts nine seconds', at(0, 9, 60), 'lasts 9 s'],
    ['a first that begins late', at(5, 20, 60), 'must begin at 0:00'],
    ['two alone', at(0, 20), 'at least three'],
    ['one before the one before it', at(0, 60, 30), 'later than 1:00'],
    [
      'one without a title',
      [...at(0, 20), { seconds: 40, title: '' }],
      'needs a title',
    ],
  ])('are not sound with %s', (_, chapters, problem) => {
    expect(words(chapterProblems(chapters))).toContain(problem)
  })

  test('must end before the video does', () => {
    expect(words(chapterProblems(at(0, 20, 58), 65))).toContain(
      'before the video ends',
    )
    expect(chapterProblems(at(0, 20, 55), 65)).toEqual([])
  })
})

describe('typed marks', () => {
  const none = { pieces: [], products: [] }

  test('are read in the shapes that people type', () => {
    const read = readChapterMarks(
      '0:00 Hello\n(0:40) Cleaning\n\n2:05 - First coat\n[1:02:03] End',
      [],
      none,
    )
    expect(read.ok && read.value).toEqual([
      { seconds: 0, title: 'Hello', confidence: 1 },
      { seconds: 40, title: 'Cleaning', confidence: 1 },
      { seconds: 125, title: 'First coat', confidence: 1 },
      { seconds: 3723, title: 'End', confidence: 1 },
    ])
  })

  test.each([
    ['Hello', 'does not begin with a time'],
    ['0:00 a\n0:75 b\n2:00 c', 'does not begin with a time'],
    ['', 'at least three'],
  ])('%j is refused with its reason', (text, reason) => {
    const read = readChapterMarks(text, [], none)
    expect(!read.ok && read.refusal.detail).toContain(reason)
  })
})
