import { expect, test } from 'vitest'
import { tellingOrders } from '#core/captions/telling-orders'
import { piece, step } from '../write-ups/jobs.ts'

const stool = piece('stool', 'stool', ['legs'])
const mirror = piece('mirror', 'mirror', ['frame'])
const chair = piece('chair', 'chair', ['frame'])

function ids(orders: ReturnType<typeof tellingOrders>): readonly string[] {
  return orders.map((order) => order.map(({ id }) => id).join(' '))
}

const wash = step('wash', 'clean', 'stool-legs mirror-frame', undefined)
const strip = step('strip', 'strip', 'mirror-frame', undefined)
const paint = step('paint', 'coat', 'stool-legs', undefined)

test('pieces worked on by turns may be told of one after the other, either first', () => {
  expect(ids(tellingOrders([wash, strip, paint], [stool, mirror]))).toEqual([
    'wash paint strip',
    'strip wash paint',
  ])
})

test('work that went piece by piece leaves only the other way round', () => {
  expect(ids(tellingOrders([wash, paint, strip], [stool, mirror]))).toEqual([
    'strip wash paint',
  ])
})

test('one piece has no other order, and a piece without a step counts for none', () => {
  expect(tellingOrders([wash, paint], [stool])).toEqual([])
  expect(tellingOrders([paint], [stool, chair])).toEqual([])
})

test('three pieces are tried in all orders, four in none', () => {
  const pieces = ['a', 'b', 'c', 'd'].map((id) => piece(id, id, ['top']))
  const steps = pieces.map(({ id }) =>
    step(id, 'clean', `${id}-top`, undefined),
  )
  expect(tellingOrders(steps.slice(0, 3), pieces)).toHaveLength(5)
  expect(tellingOrders(steps, pieces)).toEqual([])
})
