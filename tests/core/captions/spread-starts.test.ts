import { expect, test } from 'vitest'
import { spreadStarts } from '#core/captions/spread-starts'

const start = (at: number, confidence = 0.9) => ({ at, confidence })

test('beginnings that are far enough apart stay where they are', () => {
  const starts = [start(0), start(10), start(31)]
  expect(spreadStarts(starts)).toEqual(starts)
})

test('one told of seven seconds after another waits for three', () => {
  expect(spreadStarts([start(20), start(27), start(60)])).toEqual([
    start(20),
    start(30),
    start(60),
  ])
})

test('of two that are told of in one breath the less certain is left out', () => {
  expect(spreadStarts([start(20, 0.9), start(22, 0.4)])).toEqual([
    start(20, 0.9),
  ])
  expect(spreadStarts([start(20, 0.4), start(22, 0.9)])).toEqual([
    start(22, 0.9),
  ])
})
