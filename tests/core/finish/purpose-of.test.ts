import { expect, test } from 'vitest'
import { isCoatLike } from '#core/finish/is-coat-like'
import { purposeOf } from '#core/finish/purpose-of'
import { stepKinds } from '#core/journal/vocabulary'

test('a surface must dry after these kinds of step, and after no others', () => {
  expect(stepKinds.filter((kind) => isCoatLike({ kind }))).toEqual([
    'strip',
    'condition',
    'prime',
    'coat',
    'stain',
    'glaze',
    'seal',
    'wax',
  ])
})

test('hardware and details dry only as a numbered coat of a product', () => {
  for (const kind of ['hardware', 'detail'] as const) {
    expect(isCoatLike({ kind, productId: 'brass', coat: 1 })).toBe(true)
    expect(isCoatLike({ kind, productId: 'brass' })).toBe(false)
    expect(isCoatLike({ kind, coat: 1 })).toBe(false)
  }
})

test.each([
  ['coat', 'recoat'],
  ['wax', 'recoat'],
  ['sand', 'sand'],
  ['scuff', 'sand'],
  ['liner', 'handle'],
  ['assemble', 'handle'],
  ['hardware', 'handle'],
  ['clean', 'handle'],
  ['strip', undefined],
] as const)('a %s after a coat asks it to be ready to %s', (kind, purpose) => {
  expect(purposeOf({ kind }, { kind: 'coat' })).toBe(purpose)
})

test('washing off a stripper asks nothing of it', () => {
  expect(purposeOf({ kind: 'clean' }, { kind: 'strip' })).toBeUndefined()
  expect(purposeOf({ kind: 'sand' }, { kind: 'strip' })).toBe('sand')
})
