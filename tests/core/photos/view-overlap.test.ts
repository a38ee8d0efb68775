import { readFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { type GreyFrame, viewOverlap } from '#core/photos/view-overlap'
import { openPicture } from '#services/renditions/open-picture'

const demo = path.join(process.cwd(), 'prisma/demo/photos/job-a')
const width = 64
const height = 48

/** A demo photo as the camera's page sees it: small, grey, and cropped where that is asked for. */
async function frame(
  name: string,
  crop?: { readonly left: number; readonly top: number },
): Promise<GreyFrame> {
  const upright = openPicture(readFileSync(path.join(demo, name))).autoOrient()
  const small = await upright
    .resize(width + 16, height + 12, { fit: 'cover' })
    .png()
    .toBuffer()
  const values = await openPicture(small)
    .extract({ left: crop?.left ?? 8, top: crop?.top ?? 6, width, height })
    .grayscale()
    .raw()
    .toBuffer()
  return { width, height, values }
}

const views = [
  ['01-before-front.jpg', '30-after-front.jpg'],
  ['02-before-left-three-quarter.jpg', '31-after-left-three-quarter.jpg'],
  ['03-before-right-three-quarter.jpg', '32-after-right-three-quarter.jpg'],
  ['04-before-top.jpg', '33-after-top.jpg'],
  ['05-before-hardware.jpg', '34-after-hardware.jpg'],
] as const

describe('the overlap of two pictures', () => {
  test('is whole for one and the same', async () => {
    const one = await frame('01-before-front.jpg')
    expect(viewOverlap(one, one)).toMatchObject({ right: 0, down: 0 })
    expect(viewOverlap(one, one).overlap).toBeCloseTo(1, 6)
  })

  test('does not care which is dark and which is light', async () => {
    const one = await frame('01-before-front.jpg')
    const values = Array.from(one.values, (value) => 255 - value)
    expect(viewOverlap(one, { ...one, values }).overlap).toBeCloseTo(1, 6)
  })

  test('says how far and which way the second is off', async () => {
    const one = await frame('01-before-front.jpg')
    // Cut four columns further to the right: all in it lies four to the left.
    const moved = await frame('01-before-front.jpg', { left: 12, top: 4 })
    const found = viewOverlap(one, moved)
    expect(found.right * width).toBe(4)
    expect(found.down * height).toBe(-2)
    expect(found.best).toBeGreaterThan(0.99)
    expect(found.overlap).toBeLessThan(found.best)
  })

  test('finds the after of a view among the afters of all views, repainted as it is', async () => {
    const befores = await Promise.all(views.map(([before]) => frame(before)))
    const afters = await Promise.all(views.map(([, after]) => frame(after)))
    for (const [index, before] of befores.entries()) {
      const best = afters.map((after) => viewOverlap(before, after).best)
      expect(best.indexOf(Math.max(...best)), views[index]?.[0]).toBe(index)
    }
  })

  test('is nothing for a lens that is covered', () => {
    const dark = { width, height, values: new Uint8Array(width * height) }
    expect(viewOverlap(dark, dark)).toEqual({
      overlap: 0,
      best: 0,
      right: 0,
      down: 0,
    })
  })

  test('is not asked of pictures of two sizes', () => {
    const one = { width: 2, height: 2, values: [0, 0, 0, 0] }
    expect(() =>
      viewOverlap(one, { width: 4, height: 1, values: [0, 0, 0, 0] }),
    ).toThrow(RangeError)
  })
})
