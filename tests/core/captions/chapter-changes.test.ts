import { expect, test } from 'vitest'
import type { Chapter } from '#core/captions/chapter'
import {
  changeKey,
  chapterChanges,
  withChange,
} from '#core/captions/chapter-changes'

const chapter = (seconds: number, title: string, stepId?: string): Chapter => ({
  seconds,
  title,
  confidence: 1,
  ...(stepId !== undefined && { stepId }),
})

const set = [
  chapter(0, 'Hello'),
  chapter(40, 'My sanding', 'sand'),
  chapter(90, 'Priming', 'prime'),
]

test('chapters that the captions hear alike would change in nothing', () => {
  expect(chapterChanges(set, set)).toEqual([])
  const renamed = set.map((one) =>
    one.stepId === undefined ? one : { ...one, title: 'Other words' },
  )
  expect(chapterChanges(set, renamed)).toEqual([])
})

test('captions in which nothing is heard change nothing', () => {
  expect(chapterChanges(set, [])).toEqual([])
})

test('what moved, came and is not heard is told in order of time', () => {
  const heard = [
    chapter(0, 'Hello'),
    chapter(55, 'Sanding', 'sand'),
    chapter(120, 'First coat', 'paint'),
  ]
  const changes = chapterChanges(set, heard)
  expect(changes.map(changeKey)).toEqual([
    'moved sand',
    'unheard prime',
    'new paint',
  ])
})

test('taking every change gives the starts that the captions hear, under the owner’s titles', () => {
  const heard = [
    chapter(0, 'Hello'),
    chapter(55, 'Sanding', 'sand'),
    chapter(120, 'First coat', 'paint'),
  ]
  const taken = chapterChanges(set, heard).reduce(withChange, set)
  expect(taken.map(({ seconds }) => seconds)).toEqual([0, 55, 120])
  expect(taken[1]?.title).toBe('My sanding')
  expect(chapterChanges(taken, heard)).toEqual([])
})
