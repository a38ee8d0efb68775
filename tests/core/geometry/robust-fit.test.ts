import { expect, test } from 'vitest'
import { cornerError } from '#core/geometry/corner-error'
import type { Match } from '#core/geometry/fit-map'
import { type Homography, mapped } from '#core/geometry/homography'
import { robustFit } from '#core/geometry/robust-fit'
import { simplestFit } from '#core/geometry/simplest-fit'
import { numbersFrom } from '../../../lib/commands/warped-photo'

const truth: Homography = [0.95, -0.06, 45, 0.06, 0.94, -40, 1e-5, -2e-6, 1]
const size = { width: 1440, height: 1080 }

/** So many matches by a map, each off by less than a pixel, and so many that have nothing to do with it. */
function matchesBy(
  map: Homography,
  right: number,
  wrong: number,
  noise = 1,
): readonly Match[] {
  const draw = numbersFrom(3)
  const anywhere = () => ({ x: draw() * 1440, y: draw() * 1080 })
  return [
    ...Array.from({ length: right }, () => {
      const from = anywhere()
      const { x, y } = mapped(map, from)
      return {
        from,
        to: { x: x + noise * (draw() - 0.5), y: y + noise * (draw() - 0.5) },
      }
    }),
    ...Array.from({ length: wrong }, () => ({
      from: anywhere(),
      to: anywhere(),
    })),
  ]
}

test('half of the matches may be wrong', () => {
  const fit = robustFit(matchesBy(truth, 60, 60), 'homography', 3)
  expect(fit?.inliers.length).toBeGreaterThanOrEqual(60)
  expect(
    cornerError(fit?.homography ?? [0, 0, 0, 0, 0, 0, 0, 0, 1], truth, size),
  ).toBeLessThan(1)
})

test('the same matches give the same map', () => {
  const matches = matchesBy(truth, 30, 20)
  expect(robustFit(matches, 'homography', 3)).toEqual(
    robustFit(matches, 'homography', 3),
  )
})

test('too few matches give none', () => {
  expect(robustFit(matchesBy(truth, 3, 0), 'homography', 3)).toBeUndefined()
})

test.each<readonly [string, Homography]>([
  ['translation', [1, 0, 12, 0, 1, -7, 0, 0, 1]],
  ['similarity', [0.9, -0.1, 12, 0.1, 0.9, -7, 0, 0, 1]],
  ['homography', [0.9, -0.1, 12, 0.1, 0.95, -7, 4e-5, 0, 1]],
])('the simplest map that explains a %s is one', (model, map) => {
  const fit = simplestFit(matchesBy(map, 80, 30), 3)
  expect(fit?.model).toBe(model)
})
