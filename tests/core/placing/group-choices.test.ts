import { expect, test } from 'vitest'
import { groupChoices } from '#core/placing/group-choices'
import type { Place } from '#core/placing/place'

const coat: Place = { as: 'step', kind: 'coat', surfaceIds: ['body'], coat: 1 }
const sand: Place = { as: 'step', kind: 'sand', surfaceIds: ['body'] }
const other: Place = { as: 'step', kind: 'strip', surfaceIds: ['top'] }

function grouped(...places: readonly Place[]) {
  return groupChoices(
    places.map((place, index) => ({ photoIds: [`photo ${index}`], place })),
  ).map(({ photoIds }) => photoIds.length)
}

test('photos of one coat are one step, whatever was done elsewhere in between', () => {
  expect(grouped(coat, other, coat)).toEqual([2, 1])
})

test('sanding before and after a coat are two steps, sanding twice in a row is one', () => {
  expect(grouped(sand, sand, coat, sand)).toEqual([2, 1, 1])
  expect(grouped(sand, other, sand)).toEqual([2, 1])
})

test('photos of before are placed together, and so are those of a step that is there', () => {
  const there: Place = { ...sand, stepId: 'there' }
  expect(
    grouped({ as: 'before' }, there, { as: 'before' }, coat, there),
  ).toEqual([2, 2, 1])
})

test('what one of its photos says of the product holds for the step, and two products are two steps', () => {
  const choices = [undefined, 'enamel', undefined, 'primer'].map(
    (productId, index) => ({
      photoIds: [`photo ${index}`],
      place: coat,
      ...(productId === undefined ? {} : { productId }),
    }),
  )
  expect(groupChoices(choices)).toEqual([
    {
      place: coat,
      photoIds: ['photo 0', 'photo 1', 'photo 2'],
      productId: 'enamel',
    },
    { place: coat, photoIds: ['photo 3'], productId: 'primer' },
  ])
})
