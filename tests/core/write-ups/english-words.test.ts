import { expect, test } from 'vitest'
import {
  areParts,
  capitalised,
  closed,
  countOf,
  indefiniteArticle,
  listOf,
  namesTogether,
  ordinalOf,
  pluralOf,
} from '#core/write-ups/english-words'

// Articles as any dictionary of English pronounces these words; from memory.
test.each([
  ['an', 'oak sideboard'],
  ['an', 'old bench'],
  ['an', 'Edwardian armchair'],
  ['an', 'ash table'],
  ['an', 'upholstered stool'],
  ['an', 'unpainted shelf'],
  ['an', 'hourglass stool'],
  ['an', 'heirloom chest'],
  ['an', 'L-shaped desk'],
  ['an', 'X-frame stool'],
  ['an', 'MDF cupboard'],
  ['an', '8-drawer chest'],
  ['an', '80-year-old bench'],
  ['an', '11-slat bench'],
  ['an', '18 in shelf'],
  ['an', 'étagère'],
  ['a', 'pine blanket box'],
  ['a', 'unit'],
  ['a', 'used table'],
  ['a', 'utility cupboard'],
  ['a', 'one-door cupboard'],
  ['a', 'European bed'],
  ['a', 'hall stand'],
  ['a', 'U-shaped desk'],
  ['a', 'TV stand'],
  ['a', '6-drawer chest'],
  ['a', '180 cm table'],
  ['a', '1,100 mm bench'],
  ['a', 'yew stool'],
])('one says %s %s', (article, words) => {
  expect(indefiniteArticle(words)).toBe(article)
})

test.each([
  ['bench', 'benches'],
  ['dining chair', 'dining chairs'],
  ['chest of drawers', 'chests of drawers'],
  ['blanket box', 'blanket boxes'],
  ['bookshelf', 'bookshelves'],
  ['vanity', 'vanities'],
  ['tray', 'trays'],
  ['table with leaves', 'tables with leaves'],
])('one %s, two %s', (kind, several) => {
  expect(pluralOf(kind)).toBe(several)
})

test('words stand in a row with an and before the last', () => {
  expect(listOf([])).toBe('')
  expect(listOf(['a'])).toBe('a')
  expect(listOf(['a', 'b'])).toBe('a and b')
  expect(listOf(['a', 'b', 'c'])).toBe('a, b and c')
})

test('small counts are written out', () => {
  expect([countOf(1), countOf(9), countOf(10)]).toEqual(['one', 'nine', '10'])
})

test.each([
  ['a mark', 'a mark.'],
  ['a mark.', 'a mark.'],
  ['really?', 'really?'],
  ['he said "no."', 'he said "no."'],
  ['a mark, ', 'a mark.'],
])('%j closes as %j', (words, sentence) => {
  expect(closed(words)).toBe(sentence)
})

test('a capital goes on the first letter only', () => {
  expect(capitalised('oak and ash')).toBe('Oak and ash')
  expect(capitalised('')).toBe('')
})

test('a place in a row, in words as far as counts are', () => {
  expect([1, 2, 3, 9, 10, 11, 12, 13, 21, 22, 23, 111].map(ordinalOf)).toEqual([
    'first',
    'second',
    'third',
    'ninth',
    '10th',
    '11th',
    '12th',
    '13th',
    '21st',
    '22nd',
    '23rd',
    '111th',
  ])
})

test('names that only a number tells apart stand together, whatever stands beside them', () => {
  expect(
    namesTogether(['Chair 1', 'Chair 2', 'the desk', 'Chair 3', 'Stool 1']),
  ).toBe('Chairs 1 to 3, the desk and Stool 1')
  expect(namesTogether(['Chair 1', 'Chair 3'])).toBe('Chairs 1 and 3')
  expect(namesTogether(['Chair 1'])).toBe('Chair 1')
})

test('what is put back on a piece is told from the piece by its name', () => {
  expect(areParts(['knobs', 'Left door'])).toBe(true)
  expect(areParts(['knobs', 'top'])).toBe(false)
  expect(areParts([])).toBe(false)
})
