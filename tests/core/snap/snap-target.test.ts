import { describe, expect, test } from 'vitest'
import type { BenchEntry } from '#core/bench/bench'
import {
  type RecentStep,
  comingCoats,
  snapTargets,
} from '#core/snap/snap-target'
import { addMinutes, instant } from '#core/units'

const at = instant(Date.parse('2026-10-24T12:00:00Z'))
const enamel = { id: 'enamel', name: 'waterborne enamel, deep teal' }
const job = { id: 'j', title: 'Sideboard and bench' }

function used(id: string, minutesAgo: number): RecentStep {
  return {
    id,
    job,
    kind: 'coat',
    coat: 1,
    product: enamel,
    method: 'brush',
    amount: { value: 180, unit: 'ml' },
    surfaces: [{ id: 'body', name: 'body', piece: 'sideboard' }],
    usedAt: addMinutes(at, -minutesAgo),
    isBegun: false,
  }
}

function ready(step: string, surface: string, piece = 'sideboard'): BenchEntry {
  return {
    job: { ...job, finished: false },
    piece: { id: piece, name: piece },
    surface: { id: `${piece} ${surface}`, name: surface },
    step: { id: step, kind: 'coat', coat: 1 },
    product: enamel,
    coatedAt: addMinutes(at, -120),
    readyAt: { earliest: addMinutes(at, -60), latest: addMinutes(at, -50) },
    reason: '',
  }
}

function targetsOf(
  bench: {
    readonly ready: readonly BenchEntry[]
    readonly closing: readonly BenchEntry[]
  },
  recent: readonly RecentStep[],
  most?: number,
) {
  return snapTargets(at, comingCoats(bench), recent, most)
}

describe('the likeliest target of a photo', () => {
  test('is the step in hand', () => {
    const targets = targetsOf({ ready: [ready('old', 'top')], closing: [] }, [
      used('old', 300),
      used('now', 20),
    ])
    expect(targets[0]).toMatchObject({ step: 'now', why: 'last-used' })
  })

  test('is the next coat once the one in hand is ready for it, on all the pieces it went on', () => {
    const targets = targetsOf(
      {
        ready: [ready('now', 'body'), ready('now', 'body', 'bench')],
        closing: [],
      },
      [used('now', 90)],
    )
    expect(targets[0]).toMatchObject({
      why: 'ready',
      coat: 2,
      product: enamel,
      method: 'brush',
      amount: { value: 180, unit: 'ml' },
      surfaces: [
        { name: 'body', piece: 'sideboard' },
        { name: 'body', piece: 'bench' },
      ],
    })
    expect(targets[0]).not.toHaveProperty('step')
    expect(targets[1]).toMatchObject({ step: 'now' })
  })

  test('is what closes before what is merely ready, when nothing is in hand', () => {
    const targets = targetsOf(
      { ready: [ready('a', 'top')], closing: [ready('b', 'body')] },
      [used('c', 2000)],
    )
    expect(targets.map((one) => one.why)).toEqual([
      'closing',
      'ready',
      'last-used',
    ])
  })

  test('comes first of as many as are asked for', () => {
    const targets = targetsOf(
      { ready: [ready('a', 'top')], closing: [ready('b', 'body')] },
      [used('now', 20), used('c', 2000)],
      2,
    )
    expect(targets.map((one) => one.why)).toEqual(['last-used', 'closing'])
  })

  test('is marked as over when it was last worked on more than a day ago', () => {
    const targets = targetsOf({ ready: [], closing: [] }, [
      used('yesterday', 1440),
      used('a month ago', 43_200),
    ])
    expect(targets.map(({ step, isOver }) => [step, isOver])).toEqual([
      ['yesterday', false],
      ['a month ago', true],
    ])
  })

  test('is nothing in an empty workshop', () => {
    expect(targetsOf({ ready: [], closing: [] }, [])).toEqual([])
  })
})

test('a stripper that has worked is not a coat to be repeated', () => {
  const strip = {
    ...ready('s', 'top'),
    step: { id: 's', kind: 'strip' as const },
  }
  expect(targetsOf({ ready: [strip], closing: [] }, [])).toEqual([])
})
