import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { BenchEntry } from '#core/bench/bench'
import { judgeBench } from '#core/bench/judge-bench'
import { readyBatches } from '#core/bench/ready-batches'
import { at } from '../air/any-air'
import { entry } from './entry'

const batchesAt = (entries: readonly BenchEntry[], minutes: number) =>
  readyBatches(judgeBench(entries, at(minutes)))

const surfacesOf = (entries: readonly BenchEntry[]) =>
  entries.map((one) => one.surface.name)

test('surfaces ready for the same product stand together, across pieces', () => {
  const batches = batchesAt(
    [
      entry({ surface: 'body', ready: 60 }),
      entry({
        surface: 'lid',
        piece: 'box',
        step: 'lid',
        product: 'stain',
        ready: 60,
      }),
      entry({ surface: 'seat', piece: 'bench', step: 'seat', ready: 50 }),
    ],
    90,
  )
  expect(
    batches.map((batch) => [batch.product?.name, surfacesOf(batch.entries)]),
  ).toEqual([
    ['enamel', ['body', 'seat']],
    ['stain', ['lid']],
  ])
})

test('the batch whose window closes first comes first, and says when', () => {
  const batches = batchesAt(
    [
      entry({ surface: 'body', ready: 60, by: 9000 }),
      entry({
        surface: 'lid',
        step: 'lid',
        product: 'stain',
        ready: 60,
        by: 300,
      }),
      entry({ surface: 'top', step: 'top', ready: 60 }),
    ],
    90,
  )
  expect(batches.map((batch) => batch.closes)).toEqual([at(300), at(9000)])
})

// Worked by hand: three pieces may be coated from 9:00 on, from 10:30 to 13:00 and from 12:00 to 20:00; all three at once
// from 12:00 to 13:00. A fourth, from 13:30 on, cannot be in it. Minutes from 9:00.
test('what gets ready before the first window closes joins in, and what does not is left out', () => {
  const [batch, ...others] = batchesAt(
    [
      entry({ surface: 'first', step: 'a', ready: 0 }),
      entry({ surface: 'second', step: 'b', ready: 90, by: 240 }),
      entry({ surface: 'third', step: 'c', ready: 180, by: 660 }),
      entry({ surface: 'fourth', step: 'd', ready: 270 }),
    ],
    30,
  )
  expect(others).toEqual([])
  expect(surfacesOf(batch?.entries ?? [])).toEqual(['first'])
  expect(surfacesOf(batch?.joining ?? [])).toEqual(['second', 'third'])
  expect(batch?.together).toEqual({ from: at(180), to: at(240) })
})

test('nobody waits with a set-up for tomorrow', () => {
  const [batch] = batchesAt(
    [
      entry({ surface: 'first', ready: 0 }),
      entry({ surface: 'second', step: 'b', ready: 1200 }),
    ],
    30,
  )
  expect(batch?.joining).toEqual([])
  expect(batch).not.toHaveProperty('together')
})

test('two surfaces of which no product is known are no batch', () => {
  expect(
    batchesAt(
      [
        entry({ surface: 'body', product: null, ready: 0 }),
        entry({ surface: 'top', product: null, ready: 0 }),
      ],
      30,
    ),
  ).toHaveLength(2)
})

test('every ready surface is in one batch, and a time for all of them is right for each', () => {
  const anyEntries = fc.array(
    fc.record({
      ready: fc.integer({ min: 0, max: 900 }),
      open: fc.option(fc.integer({ min: 1, max: 900 }), { nil: undefined }),
      product: fc.constantFrom('enamel', 'stain', null),
    }),
    { maxLength: 12 },
  )
  fc.assert(
    fc.property(anyEntries, fc.integer({ min: 0, max: 900 }), (told, now) => {
      const bench = judgeBench(
        told.map(({ ready, open, product }, i) =>
          entry({
            surface: `surface ${i}`,
            step: `step ${i}`,
            product,
            ready,
            ...(open !== undefined && { by: ready + open }),
          }),
        ),
        at(now),
      )
      const batches = readyBatches(bench)
      expect(
        batches.flatMap((batch) => surfacesOf(batch.entries)).sort(),
      ).toEqual(surfacesOf([...bench.ready, ...bench.closing]).sort())
      for (const { entries, joining, together } of batches) {
        if (together === undefined) continue
        const { from, to = Infinity } = together
        expect(from).toBeLessThanOrEqual(to)
        for (const one of [...entries, ...joining]) {
          expect(one.readyAt?.latest).toBeLessThanOrEqual(from)
          expect(one.recoatBy ?? Infinity).toBeGreaterThanOrEqual(to)
        }
      }
    }),
  )
})
