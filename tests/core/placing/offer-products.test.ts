import { expect, test } from 'vitest'
import type { StepKind } from '#core/journal/vocabulary'
import { stepsInOrder } from '#core/materials/steps-in-order'
import { offerProducts } from '#core/placing/offer-products'
import { at } from '../air/any-air'
import { journalOf } from '../timeline/journal-of'

const shelf = [
  { id: 'satin clear', category: 'clear coat' },
  { id: 'white primer', category: 'primer' },
  { id: 'grey primer', category: 'primer' },
  { id: 'enamel', category: 'paint' },
] as const

const prime = (
  id: string,
  productId: string,
  day: number,
  surface: string,
) => ({
  id,
  productId,
  kind: 'prime' as const,
  on: { [surface]: 1 },
  startedAt: at(day * 1440),
})

const job = (steps: Parameters<typeof journalOf>[0]['steps']) =>
  journalOf({
    surfaces: { sideboard: ['body', 'top'], bench: ['seat'] },
    steps,
  })

const offered = (
  journal: ReturnType<typeof job>,
  kind: StepKind,
  pieceId: string,
) =>
  offerProducts(
    journal,
    stepsInOrder(journal).map(({ step }) => step),
    shelf,
    kind,
    pieceId,
  )

test('what its piece had last for this kind is offered first', () => {
  const journal = job([
    prime('second', 'grey primer', 2, 'top'),
    prime('first', 'white primer', 1, 'body'),
  ])
  expect(offered(journal, 'prime', 'sideboard')).toEqual([
    'grey primer',
    'white primer',
  ])
})

test('a piece that had none is offered what stands on the shelf for it, and nothing else', () => {
  const journal = job([prime('first', 'grey primer', 1, 'body')])
  expect(offered(journal, 'prime', 'bench')).toEqual([
    'white primer',
    'grey primer',
  ])
  expect(offered(journal, 'wax', 'bench')).toEqual([])
})

test('what is no longer on the shelf is not offered', () => {
  const journal = job([prime('first', 'old primer', 1, 'body')])
  expect(offered(journal, 'prime', 'sideboard')).toEqual([
    'white primer',
    'grey primer',
  ])
})
