import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  closest,
  movedBy,
  wholePicture,
  zoomTransform,
  zoomedAt,
} from '#core/pairs/shared-zoom'

const share = fc.double({ min: 0, max: 1, noNaN: true })
const zooms = fc
  .tuple(fc.double({ min: 1, max: closest, noNaN: true }), share, share)
  .map(([scale, x, y]) => zoomedAt(wholePicture, scale, { x, y }))

test('what is under a finger stays under it while coming closer', () => {
  fc.assert(
    fc.property(zooms, share, share, (zoom, x, y) => {
      const seenAt = ({ scale, left, top }: typeof zoom) => ({
        x: left + x / scale,
        y: top + y / scale,
      })
      const closer = zoomedAt(zoom, 1.3, { x, y })
      expect(seenAt(closer).x).toBeCloseTo(seenAt(zoom).x, 9)
      expect(seenAt(closer).y).toBeCloseTo(seenAt(zoom).y, 9)
    }),
  )
})

test('nothing past the rim is ever shown, whatever is done', () => {
  const by = fc.double({ min: -3, max: 3, noNaN: true })
  fc.assert(
    fc.property(zooms, by, by, share, (zoom, x, y, at) => {
      for (const next of [
        movedBy(zoom, { x, y }),
        zoomedAt(zoom, Math.abs(x) + 0.01, { x: at, y: at }),
      ]) {
        expect(next.scale).toBeGreaterThanOrEqual(1)
        expect(next.scale).toBeLessThanOrEqual(closest)
        for (const edge of [next.left, next.top]) {
          expect(edge).toBeGreaterThanOrEqual(0)
          expect(edge + 1 / next.scale).toBeLessThanOrEqual(1 + 1e-12)
        }
      }
    }),
  )
})

test('going all the way back shows the whole', () => {
  fc.assert(
    fc.property(zooms, share, share, (zoom, x, y) => {
      expect(zoomedAt(zoom, 1 / closest, { x, y })).toEqual(wholePicture)
    }),
  )
  expect(zoomTransform(wholePicture)).toMatch(/scale\(1\)$/)
  expect(zoomTransform({ scale: 2, left: 0.25, top: 0.5 })).toBe(
    'translate(-50%, -100%) scale(2)',
  )
})
