import { expect, test } from 'vitest'
import { benchRows } from '#core/bench/bench-rows'
import { entry } from './entry'

const names = (rows: ReturnType<typeof benchRows>['rows']) =>
  rows.map((row) => row.surfaces.map((surface) => surface.name))

test('what one step coated and is due together is one row; another time or piece is another row', () => {
  const { rows, left } = benchRows([
    entry({ surface: 'body', ready: 60 }),
    entry({ surface: 'top', ready: 60 }),
    entry({ surface: 'legs', ready: 90 }),
    entry({ surface: 'seat', piece: 'bench', ready: 60 }),
  ])
  expect(names(rows)).toEqual([['body', 'top'], ['legs'], ['seat']])
  expect(left).toBe(0)
})

test('what is not drawn is counted by surfaces', () => {
  const { rows, left } = benchRows(
    [
      entry({ surface: 'body', ready: 60 }),
      entry({ surface: 'legs', ready: 90 }),
      entry({ surface: 'top', ready: 90 }),
    ],
    1,
  )
  expect(names(rows)).toEqual([['body']])
  expect(left).toBe(2)
})
