import { expect, test } from 'vitest'
import { type Offered, toldApart } from '../../../app/snap/_told-apart'

const prime = (...marks: Offered['marks']): Offered => ({
  name: 'Prime',
  beside: 'box body · Pine box',
  marks,
})

test('what is offered once goes by its name alone', () => {
  expect(
    toldApart([
      prime('like coat 1', 'of today 10:00'),
      { ...prime('like coat 1'), beside: 'box lid · Pine box' },
      { ...prime('like coat 1'), name: 'Paint' },
    ]),
  ).toEqual(['Prime', 'Prime', 'Paint'])
})

test('what is read alike is told apart by the first mark that tells all of it apart', () => {
  expect(
    toldApart([
      prime('like coat 2', undefined, 'of today 11:00'),
      prime('like coat 1', undefined, 'of today 10:00'),
    ]),
  ).toEqual(['Prime like coat 2', 'Prime like coat 1'])
  expect(
    toldApart([
      prime('like coat 1', 'with P180', 'of today 11:00'),
      prime('like coat 1', 'with P120', 'of today 10:00'),
    ]),
  ).toEqual(['Prime with P180', 'Prime with P120'])
  expect(
    toldApart([
      prime('like coat 1', undefined, 'of today 11:00'),
      prime('like coat 1', undefined, 'of today 10:00'),
      prime('like coat 2', undefined, 'of today 9:00'),
    ]),
  ).toEqual([
    'Prime of today 11:00',
    'Prime of today 10:00',
    'Prime of today 9:00',
  ])
})

test('one that alone lacks a mark is told from the others by theirs', () => {
  expect(
    toldApart([
      prime('like coat 1', undefined, 'of today 11:00'),
      prime(undefined, undefined, 'of today 10:00'),
    ]),
  ).toEqual(['Prime like coat 1', 'Prime'])
})
