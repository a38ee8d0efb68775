import { readFileSync } from 'node:fs'
import path from 'node:path'
import { z } from 'zod'
import {
  type Homography,
  type Point,
  identity,
  mapped,
} from '#core/geometry/homography'

const point = z
  .tuple([z.number(), z.number()])
  .transform(([x, y]) => ({ x, y }))
const row = z.tuple([z.number(), z.number(), z.number()])

const schema = z.array(
  z.object({
    pair: z.string(),
    before: z.string(),
    after: z.string(),
    beforePoints: z.array(point),
    afterPoints: z.array(point),
    homographyAfterToBefore: z
      .tuple([row, row, row])
      .transform(([one, two, three]): Homography => [...one, ...two, ...three]),
  }),
)

/** A before/after pair of the demo, and where the same corners of the furniture are in both: upright pixels. */
export type TruePair = {
  readonly pair: string
  readonly before: string
  readonly after: string
  readonly beforePoints: readonly Point[]
  readonly afterPoints: readonly Point[]
  /** Of the furniture's front or top, after to before. */
  readonly truth: Homography
}

/**
 * The pairs of the demo as they truly lie. The photos are our own rendering; the numbers come from the renderer's cameras
 * and not from this program.
 */
export function readTruePairs(): readonly TruePair[] {
  const file = path.join('prisma', 'demo', 'pairs.json')
  return schema
    .parse(JSON.parse(readFileSync(file, 'utf8')))
    .map(({ homographyAfterToBefore, ...pair }) => ({
      ...pair,
      truth: homographyAfterToBefore,
    }))
}

/** How far apart the corners lie as the photos are, or under a map; on average, as a share of the diagonal. */
export function furnitureError(
  { beforePoints, afterPoints }: TruePair,
  homography: Homography = identity,
): number {
  const distances = afterPoints.map((point, index) => {
    const there = mapped(homography, point)
    const wanted = beforePoints[index] ?? there
    return Math.hypot(there.x - wanted.x, there.y - wanted.y)
  })
  const sum = distances.reduce((total, distance) => total + distance, 0)
  return sum / distances.length / Math.hypot(demoSize.width, demoSize.height)
}

/** The size of the demo's photos, upright. */
export const demoSize = { width: 1440, height: 1080 } as const
