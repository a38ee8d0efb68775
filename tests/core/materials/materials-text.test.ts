import { expect, test } from 'vitest'
import { listMaterials } from '#core/materials/list-materials'
import { materialsText } from '#core/materials/materials-text'
import {
  alderYard,
  journal,
  paintedBookcase,
  piece,
  sideboardAndBench,
} from '../write-ups/jobs.ts'

test('a reader finds each product with its place, way, amount, cost and link', () => {
  const text = materialsText(listMaterials(sideboardAndBench), alderYard)
  expect(text).toContain(`1. Waterborne primer, grey
   Sideboard and Bench (body), two coats each
   Sprayed, thinned with 10 parts to 100
   0.3 l; £7.20
`)
  expect(text).toContain(`
   588 ml, and three uses without an amount; £23.60 for what was measured
   To reckon what was not measured, give the spread rate on the label and the size of the surfaces.
   https://alder-yard.example/teal
`)
  expect(text).toContain(`
3. Gel stripper
   Sideboard (top)
   Amount not written down
`)
  expect(text).toContain(`
Sanding
Sideboard and Bench (body): scuffed P180
Sideboard (top): sanded P120, sanded P150

Cost of what was used: £30.80, without what has no amount or price
`)
})

// NIST Handbook 44, appendix C: 19.87 US fl oz are 587.626 ml.
test('a workshop in US units reads fluid ounces first', () => {
  const text = materialsText(listMaterials(sideboardAndBench), {
    ...alderYard,
    units: 'us',
    currency: 'USD',
  })
  expect(text).toContain('19.9 fl oz (588 ml)')
  expect(text).toContain('$23.60')
})

test('a viewer is not told eight times what nobody wrote down', () => {
  const text = materialsText(
    listMaterials(sideboardAndBench),
    alderYard,
    'viewer',
  )
  expect(text).not.toContain('not written down')
  expect(text).toContain('\n   At least 588 ml\n')
  expect(text).toContain(`3. Gel stripper
   Sideboard (top)

4. `)
})

test('how many packs were bought is said once not to be written down', () => {
  const stock = {
    productId: 'primer',
    left: { value: 0.7, unit: 'l' as const },
    packsBought: 1,
    packsSupposed: true,
    unmeasuredUses: 0,
    buyAgain: false,
  }
  const text = materialsText(
    listMaterials(sideboardAndBench),
    alderYard,
    'owner',
    [stock, { ...stock, productId: 'teal' }],
  )
  expect(text).toContain('Left: 700 ml of one pack*.')
  expect(text.match(/How many packs you bought/g)).toHaveLength(1)
})

test('a list without prices has no total', () => {
  expect(
    materialsText(listMaterials(paintedBookcase), alderYard),
  ).not.toContain('Cost')
})

test('a job without products says so', () => {
  const list = listMaterials(
    journal('Box', [piece('b', 'box', ['lid'])], [], []),
  )
  expect(materialsText(list, alderYard)).toBe(
    'Materials: Box\n\nNo products are written down for this job.\n',
  )
})
