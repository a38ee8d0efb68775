import 'server-only'
import sharp, { type Sharp, type SharpOptions } from 'sharp'

/** The kinds of picture that may be opened: whatever else the image library could read stays shut. */
const loaders = [
  'VipsForeignLoadJpeg',
  'VipsForeignLoadPng',
  'VipsForeignLoadWebp',
  'VipsForeignLoadTiff',
  'VipsForeignLoadHeif',
]

/** Phones take up to 50 megapixels; a larger picture could fill the memory of a small machine once decoded. */
export const maximumPixels = 55_000_000

let ready = false

/**
 * A picture opened by the image library, with what can be read and how much of it bounded. Every use of the library
 * goes through here. Blocking is for the whole process, so drawings in SVG cannot be opened either: draw words by
 * `textPicture`.
 *
 * @param source a file, or raw pixels with `options.raw`, or nothing when `options` make the picture
 */
export function openPicture(
  source: string | Buffer,
  options: SharpOptions = {},
): Sharp {
  prepare()
  return sharp(source, { limitInputPixels: maximumPixels, ...options })
}

/** A new picture made from `options.create` or `options.text`. */
export function newPicture(options: SharpOptions): Sharp {
  prepare()
  return sharp({ limitInputPixels: maximumPixels, ...options })
}

function prepare(): void {
  if (ready) return
  sharp.block({ operation: ['VipsForeignLoad'] })
  sharp.unblock({ operation: loaders })
  // Files may be replaced under the same name, and memory belongs to the photos that are being worked on.
  sharp.cache(false)
  ready = true
}
