/** The longer sides of the two sizes in which a photo is shown large, in pixels; as in `make-renditions.ts`. */
const longSides = { card: 800, screen: 1440 } as const

/**
 * Where a photo that is shown large comes from: the browser takes the smallest that is sharp on its screen. Give `sizes`
 * beside it.
 *
 * @param photo with its upright size in pixels, where it is not cropped to a shape
 */
export function photoSources(photo: {
  readonly id: string
  readonly width?: number
  readonly height?: number
}): { readonly src: string; readonly srcSet: string } {
  const { id, width = 1, height = 1 } = photo
  const across = width / Math.max(width, height)
  const address = (name: keyof typeof longSides) => `/api/photos/${id}/${name}`
  const source = (name: keyof typeof longSides) =>
    `${address(name)} ${Math.round(longSides[name] * across)}w`
  return {
    src: address('screen'),
    srcSet: `${source('card')}, ${source('screen')}`,
  }
}
