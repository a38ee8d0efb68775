import fc from 'fast-check'
import { expect, test } from 'vitest'
import { english } from '#core/write-ups/english'
import { keywordsOf, tagsOf } from '#core/write-ups/keywords'
import { surfaceWork } from '#core/write-ups/surface-work'
import { anyJournal } from './any-journal.ts'

test('keywords are few, short, in small letters, and none is there twice', () => {
  fc.assert(
    fc.property(anyJournal, (journal) => {
      const keywords = keywordsOf(journal, surfaceWork(journal), english)
      expect(keywords.length).toBeLessThanOrEqual(13)
      expect(new Set(keywords).size).toBe(keywords.length)
      for (const keyword of keywords) {
        expect(keyword.length).toBeLessThanOrEqual(30)
        expect(keyword).not.toMatch(/[,#"<>]| {2}|^ | $/)
        expect(keyword).toBe(keyword.toLowerCase())
      }
    }),
  )
})

test("the workshop's own tags are always there, and the rest fills up to five", () => {
  const keywords = [
    'oak bench',
    'bench',
    'painted bench',
    'teal bench',
    'x',
    'y',
  ]
  expect(tagsOf(keywords, ['Alder Yard', '#before and after'])).toEqual([
    '#oakbench',
    '#bench',
    '#paintedbench',
    '#alderyard',
    '#beforeandafter',
  ])
  expect(tagsOf([], ['!!'])).toEqual([])
})
