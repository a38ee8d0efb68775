import { expect, test } from 'vitest'
import { endsOfWork } from '#core/photos/ends-of-work'

const front = { id: 'front', role: 'before' } as const
const drawer = { id: 'drawer', role: 'before', view: 'drawer' } as const
const newFront = { id: 'new front', role: 'after' } as const
const newDrawer = { id: 'new drawer', role: 'after', view: 'drawer' } as const

test('a piece is shown by its front, which is photographed first, before and after the work', () => {
  expect(
    endsOfWork([front, newFront, { id: 'open drawer', role: 'after' }]),
  ).toEqual({ before: 'front', after: 'new front' })
})

test('views that were named alike go before what came first', () => {
  expect(endsOfWork([front, drawer, newFront, newDrawer])).toEqual({
    before: 'drawer',
    after: 'new drawer',
  })
})

test('a job in work has no end yet', () => {
  expect(endsOfWork([front, { id: 'sanding', role: 'progress' }])).toEqual({
    before: 'front',
  })
})
