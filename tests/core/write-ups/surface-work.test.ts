import { expect, test } from 'vitest'
import { colourOf, sheenOf, surfaceWork } from '#core/write-ups/surface-work'
import { journal, piece, product, step } from './jobs.ts'

const paint = product('paint', 'enamel, deep teal', 'paint', 'other')
const clear = product('clear', 'clear, satin', 'clear coat', 'other')
const stain = product('stain', 'stain, walnut', 'stain', 'oil-stain')

function workOn(...steps: readonly ReturnType<typeof step>[]) {
  const [work] = surfaceWork(
    journal('Stool', [piece('stool', 'stool', ['seat'])], steps, [
      paint,
      clear,
      stain,
    ]),
  )
  return work
}

const at = (minute: number) =>
  `2026-05-01T10:${String(minute).padStart(2, '0')}`

test.each([
  ['waterborne enamel, deep teal', 'deep teal'],
  ['enamel, deep teal, satin', 'deep teal'],
  ['enamel, green, flecked with gold', 'green, flecked with gold'],
  ['hard oil, clear, matt', undefined],
  ['enamel', undefined],
  ['enamel, ', undefined],
])('the colour of %j is what stands after the first comma', (name, colour) => {
  expect(colourOf({ ...paint, name })).toBe(colour)
})

test.each([
  ['enamel, deep teal, satin', 'satin'],
  ['satin enamel, deep teal', 'satin'],
  ['enamel, deep teal, Mid sheen', 'mid sheen'],
  ['enamel, semi-gloss', 'semi-gloss'],
  ['enamel, deep teal', undefined],
  ['satinwood stain', undefined],
])('the sheen of %j is %s', (name, sheen) => {
  expect(sheenOf({ ...paint, name })).toBe(sheen)
})

test('coats with sanding between them are one operation', () => {
  const work = workOn(
    step('a', 'coat', 'stool-seat:1', at(1), {
      productId: 'paint',
      method: 'brush',
    }),
    step('b', 'scuff', 'stool-seat', at(2), { grit: 320 }),
    step('c', 'coat', 'stool-seat:2', at(3), {
      productId: 'paint',
      method: 'brush',
    }),
  )
  expect(work?.operations).toMatchObject([
    {
      kind: 'coat',
      coats: 2,
      method: 'brush',
      sandedBetween: true,
      gritsBetween: [320],
      stepIds: ['a', 'b', 'c'],
    },
  ])
})

test('coats laid in different ways are not said to be laid in one', () => {
  const work = workOn(
    step('a', 'coat', 'stool-seat:1', at(1), {
      productId: 'paint',
      method: 'brush',
    }),
    step('b', 'coat', 'stool-seat:2', at(2), {
      productId: 'paint',
      method: 'spray',
    }),
    step('c', 'coat', 'stool-seat:3', at(3), {
      productId: 'paint',
      method: 'brush',
    }),
  )
  expect(work?.operations).toHaveLength(1)
  expect(work?.operations[0]).toMatchObject({ coats: 3 })
  expect(work?.operations[0]).not.toHaveProperty('method')
})

test('paint hides the stain below it, a clear coat hides nothing', () => {
  const work = workOn(
    step('a', 'stain', 'stool-seat:1', at(1), { productId: 'stain' }),
    step('b', 'coat', 'stool-seat:1', at(2), { productId: 'paint' }),
    step('c', 'seal', 'stool-seat:1', at(3), { productId: 'clear' }),
  )
  expect(work?.layers).toEqual([
    { kind: 'painted', colour: 'deep teal' },
    { kind: 'clear', sheen: 'satin' },
  ])
})

test('sanding between new coats does not disturb an old finish', () => {
  expect(
    workOn(
      step('a', 'coat', 'stool-seat:1', at(1), { productId: 'paint' }),
      step('b', 'sand', 'stool-seat', at(2)),
    )?.disturbedBy,
  ).toEqual([])
  expect(
    workOn(
      step('a', 'sand', 'stool-seat', at(1)),
      step('b', 'coat', 'stool-seat:1', at(2), { productId: 'paint' }),
      step('c', 'strip', 'stool-seat', at(3)),
    )?.disturbedBy,
  ).toEqual(['strip', 'sand'])
})

test('a surface that no step touched is not spoken of', () => {
  expect(
    surfaceWork(journal('Stool', [piece('stool', 'stool', ['seat'])], [], [])),
  ).toEqual([])
})
