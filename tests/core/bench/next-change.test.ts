import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { BenchEntry } from '#core/bench/bench'
import { judgeBench } from '#core/bench/judge-bench'
import { nextChange } from '#core/bench/next-change'
import { addMinutes, instant } from '#core/units'

const start = instant(Date.UTC(2026, 9, 24, 9))

const anyEntry = fc
  .record({
    id: fc.nat(),
    finished: fc.boolean(),
    ready: fc.option(fc.integer({ min: 0, max: 5000 }), { nil: undefined }),
    window: fc.option(fc.integer({ min: 1, max: 5000 }), { nil: undefined }),
    cure: fc.option(fc.integer({ min: 1, max: 9000 }), { nil: undefined }),
  })
  .map(({ id, finished, ready, window, cure }): BenchEntry => {
    const readyAt = ready === undefined ? undefined : addMinutes(start, ready)
    return {
      job: { id: `job ${id}`, title: 'Chair', finished },
      piece: { id: `piece ${id}`, name: 'chair' },
      surface: { id: `surface ${id}`, name: 'body' },
      step: { id: `step ${id}`, kind: 'coat', coat: 1 },
      coatedAt: start,
      reason: '',
      ...(readyAt !== undefined && {
        readyAt: { earliest: readyAt, latest: readyAt },
        ...(window !== undefined && { recoatBy: addMinutes(readyAt, window) }),
      }),
      ...(cure !== undefined && { curedBy: addMinutes(start, cure) }),
    }
  })

test('what the bench says holds until its next change, and no surface moves before', () => {
  fc.assert(
    fc.property(
      fc.array(anyEntry, { maxLength: 12 }),
      fc.integer({ min: -100, max: 9000 }),
      fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true }),
      (entries, minute, part) => {
        const at = addMinutes(start, minute)
        const until = nextChange(entries, at) ?? addMinutes(at, 100_000)
        // Whole milliseconds: a product of doubles may round up to the change itself.
        const length = until - at
        const later = instant(
          at + Math.min(Math.floor(part * length), length - 1),
        )
        expect({ ...judgeBench(entries, later), at }).toEqual(
          judgeBench(entries, at),
        )
      },
    ),
  )
})

test('a wet coat changes when it is ready, and a window a day before it closes', () => {
  const entry: BenchEntry = {
    job: { id: 'job', title: 'Chair', finished: false },
    piece: { id: 'piece', name: 'chair' },
    surface: { id: 'surface', name: 'body' },
    step: { id: 'step', kind: 'coat', coat: 1 },
    coatedAt: start,
    reason: '',
    readyAt: { earliest: start, latest: addMinutes(start, 60) },
    recoatBy: addMinutes(start, 7 * 1440),
  }
  expect(nextChange([entry], start)).toBe(addMinutes(start, 60))
  expect(nextChange([entry], addMinutes(start, 60))).toBe(
    addMinutes(start, 6 * 1440),
  )
  expect(nextChange([entry], addMinutes(start, 8 * 1440))).toBeUndefined()
})
