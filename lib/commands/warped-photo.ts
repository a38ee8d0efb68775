import {
  type Homography,
  composed,
  mapped,
  scaling,
  translation,
} from '#core/geometry/homography'
import type { ColourPixels } from '#services/alignment/alignment-thread'

/** A made after photo, and the map from its pixels to those of the photo that it was made of. */
export type WarpedPhoto = {
  readonly picture: ColourPixels
  readonly truth: Homography
}

/** Numbers from 0 up to 1 in a fixed sequence, another for each seed. */
export function numbersFrom(seed: number): () => number {
  let state = (seed * 7919 + 12_345) % 2_147_483_647
  return () => {
    state = (state * 48_271) % 2_147_483_647
    return state / 2_147_483_647
  }
}

/**
 * What a photo might look like after the work and from another stand: moved by up to 6 %, turned by up to 5 degrees, from
 * 15 % nearer or farther, tilted a little; the middle refinished, with light and dark exchanged and another colour; another
 * light, uneven across the picture; noise; and three things in the way that were not there.
 */
export function warpedPhoto(photo: ColourPixels, seed: number): WarpedPhoto {
  const draw = numbersFrom(seed)
  const between = (low: number, high: number) => low + (high - low) * draw()
  const { width, height } = photo
  const angle = between(-5, 5) * (Math.PI / 180)
  const enlargement = Math.exp(between(-0.15, 0.15))
  const cos = Math.cos(angle)
  const sin = Math.sin(angle)
  const truth = [
    translation(
      width * (0.5 + between(-0.06, 0.06)),
      height * (0.5 + between(-0.06, 0.06)),
    ),
    scaling(enlargement),
    [cos, -sin, 0, sin, cos, 0, 0, 0, 1] as const,
    [
      1,
      between(-0.02, 0.02),
      0,
      0,
      1,
      0,
      between(-0.06, 0.06) / width,
      between(-0.06, 0.06) / width,
      1,
    ] as const,
    translation(-width / 2, -height / 2),
  ].reduce((map, next) => composed(map, next))
  const light = [between(0.75, 1.3), between(0.75, 1.3), between(0.75, 1.3)]
  const gamma = between(0.75, 1.3)
  const slope = between(-0.35, 0.35)
  const paint = [between(20, 90), between(40, 130), between(40, 130)]
  const inverts = draw() < 0.7
  const things = [0, 1, 2].map(() => ({
    left: between(0, 0.8) * width,
    top: between(0, 0.8) * height,
    width: between(0.1, 0.25) * width,
    height: between(0.1, 0.25) * height,
    colour: [between(0, 255), between(0, 255), between(0, 255)],
  }))
  const data = new Uint8Array(width * height * 3)
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const at = 3 * (y * width + x)
      const thing = things.find(
        (one) =>
          x >= one.left &&
          x < one.left + one.width &&
          y >= one.top &&
          y < one.top + one.height,
      )
      const from = mapped(truth, { x, y })
      // The middle of the photo is the piece, whatever it shows.
      const refinished =
        Math.abs(from.x / width - 0.5) < 0.27 &&
        Math.abs(from.y / height - 0.55) < 0.25
      for (let channel = 0; channel < 3; channel += 1) {
        let value =
          thing?.colour[channel] ?? sampled(photo, from.x, from.y, channel)
        if (thing === undefined && refinished) {
          const grey = sampled(photo, from.x, from.y, 1)
          value = (paint[channel] ?? 0) + (inverts ? 255 - grey : grey) * 0.45
        }
        const uneven = 1 + slope * (x / width - 0.5)
        const lit = 255 * (Math.max(0, value) / 255) ** gamma * uneven
        data[at + channel] = Math.max(
          0,
          Math.min(
            255,
            Math.round(lit * (light[channel] ?? 1) + between(-5, 5)),
          ),
        )
      }
    }
  }
  return { picture: { data, width, height }, truth }
}

/** Bilinear; a place outside takes the nearest pixel of the rim. */
function sampled(
  { data, width, height }: ColourPixels,
  x: number,
  y: number,
  channel: number,
): number {
  const inX = Math.max(0, Math.min(width - 1.001, x))
  const inY = Math.max(0, Math.min(height - 1.001, y))
  const left = Math.floor(inX)
  const top = Math.floor(inY)
  const u = inX - left
  const v = inY - top
  const at = (row: number, column: number) =>
    data[3 * (row * width + column) + channel] ?? 0
  return (
    (1 - v) * ((1 - u) * at(top, left) + u * at(top, left + 1)) +
    v * ((1 - u) * at(top + 1, left) + u * at(top + 1, left + 1))
  )
}
