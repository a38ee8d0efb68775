import { expect, test } from 'vitest'
import type { BenchEntry } from '#core/bench/bench'
import { addMinutes, instant } from '#core/units'
import { addAir } from '#services/air/air'
import { readHelps } from '#services/bench/read-helps'
import { addProduct } from '#services/shelf/products'
import { newProduct } from '#services/shelf/schema'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const at = instant(Date.UTC(2026, 10, 25, 10))

async function wetCoat(): Promise<BenchEntry> {
  const { id, name } = await addProduct(
    newProduct.parse({
      name: 'waterborne enamel, deep teal',
      category: 'paint',
      chemistry: 'waterborne-acrylic',
      label: { recoatMinutes: 240, reference: { celsius: 23, humidity: 50 } },
    }),
    at,
  )
  return {
    job: { id: 'job', title: 'Chair', finished: false },
    piece: { id: 'piece', name: 'chair' },
    surface: { id: 'surface', name: 'body' },
    step: { id: 'step', kind: 'coat', coat: 1 },
    product: { id, name },
    coatedAt: at,
    reason: '',
  }
}

test('in a cold and damp workshop it is said what would shorten the wait', async () => {
  const coat = await wetCoat()
  await addAir([{ at: addMinutes(at, -60), celsius: 15, humidity: 70 }])
  const helps = (await readHelps(at))(coat)
  expect(helps.join(' ')).toMatch(/warm/i)
})

test('nothing is said in the label’s own air, nor by a reading of the day before', async () => {
  const coat = await wetCoat()
  await addAir([{ at: addMinutes(at, -13 * 60), celsius: 15, humidity: 70 }])
  expect((await readHelps(at))(coat)).toEqual([])
  await addAir([{ at, celsius: 23, humidity: 50 }])
  expect((await readHelps(at))(coat)).toEqual([])
})

test('nor of a product that is not on the shelf, or with no reading at all', async () => {
  const coat = await wetCoat()
  expect((await readHelps(at))(coat)).toEqual([])
  await addAir([{ at, celsius: 15, humidity: 70 }])
  const gone = { ...coat, product: { id: 'gone', name: 'gone' } }
  expect((await readHelps(at))(gone)).toEqual([])
})
