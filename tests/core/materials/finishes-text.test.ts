import { expect, test } from 'vitest'
import { finishesText } from '#core/materials/finishes-text'
import { listFinishes } from '#core/materials/list-finishes'
import {
  alderYard,
  journal,
  piece,
  product,
  sideboardAndBench,
  step,
} from '../write-ups/jobs.ts'

test('a buyer reads what is on each surface and how to touch it up, and no price', () => {
  const text = finishesText(
    'Sideboard',
    listFinishes(sideboardAndBench),
    alderYard,
  )
  expect(text).toContain(`Sideboard and Bench (body)
   Waterborne primer, grey: two coats
   Waterborne enamel, deep teal: paint, two coats
   To touch up: waterborne enamel in deep teal with a fine brush.`)
  // What comes out of a can in no other way, and a clear coat that the colour must stand under.
  expect(text).toContain(
    'To touch up: aerosol enamel in brass, sprayed into its cap and dabbed on with a fine brush.',
  )
  expect(text).toContain(
    'To touch up: oil stain in dark walnut with a cloth, then waterborne clear (satin) with a small brush, letting each dry.',
  )
  expect(text).toContain('Waterborne clear, satin: clear coat, two coats')
  expect(text).toContain('ask Alder Yard when in doubt.')
  expect(text).not.toMatch(/£|\d\.\d\d/)
})

test('what a stripping took off is not there any more', () => {
  const box = piece('box', 'box', ['lid'])
  const finishes = listFinishes(
    journal(
      'Box',
      [box],
      [
        step('a', 'coat', 'box-lid:1', '2026-10-22T10:00', {
          productId: 'old',
        }),
        step('b', 'strip', 'box-lid', '2026-10-23T10:00'),
        step('c', 'wax', 'box-lid:1', '2026-10-24T10:00', { productId: 'wax' }),
      ],
      [
        product('old', 'old paint', 'paint', 'other'),
        product('wax', 'soft wax', 'wax', 'wax'),
      ],
    ),
  )
  expect(finishes.map(({ layers }) => layers.map(({ name }) => name))).toEqual([
    ['soft wax'],
  ])
})

test('a job without a finish says so', () => {
  const box = journal('Box', [piece('box', 'box', ['lid'])], [], [])
  expect(finishesText('Box', listFinishes(box), alderYard)).toBe(
    'What is on it: Box\n\nNo finish is written down for this job.\n',
  )
})
