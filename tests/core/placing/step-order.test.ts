import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { stepKinds } from '#core/journal/vocabulary'
import {
  type SurfaceState,
  isFinished,
  nextStepOdds,
  passageKey,
  surfaceAfter,
  surfaceSort,
  untouched,
} from '#core/placing/step-order'

const none = new Map<string, number>()

function after(...kinds: (typeof stepKinds)[number][]): SurfaceState {
  return kinds.reduce(surfaceAfter, untouched)
}

function likeliest(state: SurfaceState, learnt = none): string {
  const odds = [...nextStepOdds(state, 'outside', learnt)]
  return odds.toSorted(([, one], [, other]) => other - one)[0]?.[0] ?? ''
}

describe('what comes next on a surface', () => {
  test('is one of all kinds, whatever was done to it', () => {
    const anyPast = fc.array(fc.constantFrom(...stepKinds), { maxLength: 12 })
    const anySort = fc.constantFrom('outside', 'metal', 'inside')
    fc.assert(
      fc.property(anyPast, anySort, (past, sort) => {
        const odds = [...nextStepOdds(after(...past), sort, none).values()]
        expect(odds.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 9)
        expect(Math.min(...odds)).toBeGreaterThan(0)
      }),
    )
  })

  // The order of a finish schedule as the trade teaches it; common practice, no source.
  test.each([
    ['primer after the scuff', after('scuff'), 'prime'],
    ['stain after the conditioner', after('sand', 'condition'), 'stain'],
    ['clear coat after the stain', after('sand', 'stain'), 'seal'],
    ['sanding after stripping', after('strip'), 'sand'],
    [
      'paint after two coats of primer',
      after('scuff', 'prime', 'prime'),
      'coat',
    ],
    ['a second coat of paint', after('prime', 'coat'), 'coat'],
    [
      'paint, not stain, when primer was sanded',
      after('prime', 'sand'),
      'coat',
    ],
  ])('%s', (_, state, kind) => {
    const odds = nextStepOdds(state, 'outside', none)
    const two = [...odds].toSorted(([, one], [, other]) => other - one)
    expect(two.slice(0, 2).map(([one]) => one)).toContain(kind)
  })

  test('breaks the order seldom: no stain on primer, nothing on wax', () => {
    expect(
      nextStepOdds(after('prime'), 'outside', none).get('stain'),
    ).toBeLessThan(0.01)
    expect(
      nextStepOdds(after('coat', 'wax'), 'outside', none).get('coat'),
    ).toBeLessThan(0.01)
  })

  test('is learnt from what the owner did on other jobs', () => {
    const glazes = new Map([[passageKey('coat', 'glaze'), 12]])
    expect(likeliest(after('coat'))).toBe('coat')
    expect(likeliest(after('coat'), glazes)).toBe('glaze')
  })

  test('suits the surface: metal parts get hardware steps, drawers a liner', () => {
    expect(surfaceSort('hardware')).toBe('metal')
    expect(surfaceSort('drawers')).toBe('inside')
    expect(surfaceSort('drawer fronts')).toBe('outside')
    expect(surfaceSort('top')).toBe('outside')
    const odds = nextStepOdds(untouched, 'inside', none)
    expect(odds.get('liner')).toBeGreaterThan(odds.get('stain') ?? 1)
  })
})

describe('a surface is finished', () => {
  test.each([
    ['with two coats of paint', after('prime', 'coat', 'coat'), true],
    ['not with one', after('prime', 'coat'), false],
    ['not when the second was sanded', after('coat', 'coat', 'sand'), false],
    ['with two clear coats over stain', after('stain', 'seal', 'seal'), true],
    ['not when only primed', after('prime', 'prime'), false],
    ['with wax', after('stain', 'wax'), true],
    ['not when stripped of it again', after('coat', 'coat', 'strip'), false],
    [
      'as hardware with two coats',
      after('hardware', 'hardware', 'hardware'),
      true,
    ],
    ['not as hardware that is only off', after('hardware'), false],
  ])('%s', (_, state, finished) => {
    expect(isFinished(state)).toBe(finished)
  })
})
