import { renditionSizes } from '#core/photos/rendition-sizes'

type LargeName = 'card' | 'screen'

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
  const address = (name: LargeName) => `/api/photos/${id}/${name}`
  const source = (name: LargeName) =>
    `${address(name)} ${Math.round(renditionSizes[name] * across)}w`
  return {
    src: address('screen'),
    srcSet: `${source('card')}, ${source('screen')}`,
  }
}
