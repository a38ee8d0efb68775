import { expect, test } from 'vitest'
import { plainHues } from '#core/captions/plain-hues'
import { stem } from '#core/captions/stem'

const huesOf = (...words: string[]) => plainHues(new Set(words.map(stem)))

test.each([
  ['navy', ['blue']],
  ['sage', ['green']],
  ['slate', ['blue', 'grey', 'gray']],
  ['satin', []],
])('%s has these plain names: %j', (word, hues) => {
  expect(huesOf(word)).toEqual(hues.map(stem))
})

test('a colour that says its plain name itself has no other', () => {
  expect(huesOf('navy', 'blue')).toEqual([])
})
