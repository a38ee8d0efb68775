import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type BurstPhoto, burstsOf, foldRepeats } from '#core/photos/bursts'
import { exactly } from '#core/time/span'
import { instant } from '#core/units'

const front = 'ffff0000ffff0000'
// Four bits further on.
const nearFront = 'ffff0000ffff000f'
const top = '00ff00ff00ff00ff'

function photo(
  id: string,
  seconds: number,
  likeness?: string,
  sharpness?: number,
  cameraId = 'phone',
): BurstPhoto {
  return {
    id,
    cameraId,
    taken: exactly(instant(seconds * 1000)),
    ...(likeness === undefined ? {} : { likeness }),
    ...(sharpness === undefined ? {} : { sharpness }),
  }
}

const ids = (photos: readonly BurstPhoto[]) => photos.map(({ id }) => id)

describe('a burst', () => {
  test('is a run of one phone, each photo soon after the one before', () => {
    const photos = [
      photo('d', 120),
      photo('a', 0),
      photo('c', 22),
      photo('b', 12),
    ]
    expect(burstsOf(photos).map(ids)).toEqual([['a', 'b', 'c'], ['d']])
  })

  test('of one phone is not broken by a photo of another', () => {
    const photos = [
      photo('a', 0),
      photo('x', 3, undefined, undefined, 'camera'),
      photo('b', 6),
    ]
    expect(burstsOf(photos).map(ids)).toEqual([['a', 'b'], ['x']])
  })
})

describe('repeats', () => {
  test('are folded behind the sharpest of them, and another view stands apart', () => {
    const photos = [
      photo('shaken', 0, front, 40),
      photo('sharp', 3, nearFront, 210),
      photo('top', 6, top, 90),
      photo('soft', 9, front, 80),
    ]
    const folds = foldRepeats(photos)
    expect(folds.map((fold) => [fold.front.id, ids(fold.behind)])).toEqual([
      ['sharp', ['soft', 'shaken']],
      ['top', []],
    ])
  })

  test('of another day are no repeats: the next coat is taken from the same place', () => {
    const photos = [photo('coat 1', 0, front, 1), photo('coat 2', 9999, front)]
    expect(foldRepeats(photos)).toHaveLength(2)
  })

  test('are not known before the looks are', () => {
    expect(foldRepeats([photo('a', 0), photo('b', 1)])).toHaveLength(2)
  })

  test('and bursts lose no photo and show none twice', () => {
    const any = fc.array(
      fc.record({
        id: fc.uuid(),
        cameraId: fc.constantFrom('one', 'two'),
        taken: fc
          .integer({ min: 0, max: 100_000 })
          .map((ms) => exactly(instant(ms))),
        likeness: fc.constantFrom(front, nearFront, top),
        sharpness: fc.integer({ min: 0, max: 500 }),
      }),
    )
    fc.assert(
      fc.property(any, (photos) => {
        const all = ids(photos).toSorted()
        const inBursts = burstsOf(photos).flatMap(ids).toSorted()
        const folds = foldRepeats(photos)
        const folded = folds.flatMap((fold) => [
          fold.front.id,
          ...ids(fold.behind),
        ])
        expect(inBursts).toEqual(all)
        expect(folded.toSorted()).toEqual(all)
        for (const fold of folds) {
          for (const one of fold.behind) {
            expect(fold.front.sharpness).toBeGreaterThanOrEqual(one.sharpness)
          }
        }
      }),
    )
  })
})
