import { expect, test } from 'vitest'
import type { PairPhoto } from '#core/pairs/pair-photo'
import { proposePairs } from '#core/pairs/propose-pairs'
import { span } from '#core/time/span'
import { instant } from '#core/units'

function photo(
  id: string,
  role: PairPhoto['role'],
  view: string | undefined,
  hour: number,
): PairPhoto {
  const at = instant(hour * 3_600_000)
  return {
    id,
    role,
    ...(view === undefined ? {} : { view }),
    taken: span(at, at, at),
  }
}

test('photos of one view go together, however it is spelt: the first before and the last after', () => {
  const { pairs, unpaired } = proposePairs([
    photo('late before', 'before', 'front', 2),
    photo('before', 'before', 'Front', 1),
    photo('between', 'progress', 'front', 3),
    photo('after', 'after', 'front ', 9),
    photo('early after', 'after', 'front', 8),
    photo('before 2', 'before', 'left three-quarter', 4),
    photo('after 2', 'after', 'Left_three quarter', 10),
  ])
  expect(pairs).toEqual([
    { before: 'before', after: 'after', view: 'Front' },
    { before: 'before 2', after: 'after 2', view: 'left three-quarter' },
  ])
  expect(unpaired).toEqual({ befores: [], afters: [] })
})

test('photos without a view, or with one that nothing else shows, are left to what they show', () => {
  expect(
    proposePairs([
      photo('before', 'before', undefined, 1),
      photo('other before', 'before', 'top', 2),
      photo('after', 'after', undefined, 3),
      photo('between', 'progress', undefined, 4),
    ]),
  ).toEqual({
    pairs: [],
    unpaired: { befores: ['before', 'other before'], afters: ['after'] },
  })
})
