import fc from 'fast-check'
import {
  type Homography,
  composed,
  scaling,
  translation,
} from '#core/geometry/homography'

/** A place in a photo of 1440 x 1080. */
export const anyPoint = fc.record({
  x: fc.double({ min: 0, max: 1440, noNaN: true }),
  y: fc.double({ min: 0, max: 1080, noNaN: true }),
})

/** A map that two photos of one thing, taken by hand from nearly one place, may have between them. */
export const anyHomography: fc.Arbitrary<Homography> = fc
  .record({
    x: fc.double({ min: -200, max: 200, noNaN: true }),
    y: fc.double({ min: -200, max: 200, noNaN: true }),
    angle: fc.double({ min: -0.4, max: 0.4, noNaN: true }),
    enlargement: fc.double({ min: 0.6, max: 1.6, noNaN: true }),
    tiltAcross: fc.double({ min: -1e-4, max: 1e-4, noNaN: true }),
    tiltDown: fc.double({ min: -1e-4, max: 1e-4, noNaN: true }),
  })
  .map(({ x, y, angle, enlargement, tiltAcross, tiltDown }) =>
    [
      translation(x, y),
      scaling(enlargement),
      [
        Math.cos(angle),
        -Math.sin(angle),
        0,
        Math.sin(angle),
        Math.cos(angle),
        0,
        0,
        0,
        1,
      ] as const,
      [1, 0, 0, 0, 1, 0, tiltAcross, tiltDown, 1] as const,
    ].reduce<Homography>(
      (map, next) => composed(map, next),
      [1, 0, 0, 0, 1, 0, 0, 0, 1],
    ),
  )
