import 'server-only'
import type { OutputInfo } from 'sharp'
import {
  type RenditionName,
  renditionNames,
  renditionSizes,
} from '#core/photos/rendition-sizes'
import { writeWhole } from '#services/files/write-whole'
import {
  type OriginalOptions,
  openOriginal,
} from '#services/renditions/open-original'
import { openPicture } from '#services/renditions/open-picture'
import { type Looks, looksOf } from '#services/renditions/looks-of'

/** Where renditions go. */
export type RenditionPlace = {
  /** The file that a rendition belongs in. */
  readonly file: (name: RenditionName) => string
  /** A folder on the same file system for what is not whole yet; emptied at each start. */
  readonly unfinished: string
}

/** Effort 2 makes files within 3 % of the default's size in half its time. */
const encoding = { quality: 80, effort: 2 } as const

/**
 * Makes all renditions of an original: upright, in sRGB, WebP, with no metadata, never larger than the original.
 *
 * The original is decoded once; each size is made from the next larger one. Each file is written whole, flushed and
 * only then given its name.
 *
 * @returns what the picture looks like; undefined when it is too small to have looks
 * @throws Error when the original is not there or, unless told otherwise, has the least flaw
 */
export async function makeRenditions(
  original: string,
  place: RenditionPlace,
  options: OriginalOptions = {},
): Promise<Looks | undefined> {
  let pixels = await decoded(original, options)
  let looks: Looks | undefined
  for (const name of renditionNames) {
    if (name !== 'zoom') pixels = await reduced(pixels, renditionSizes[name])
    const picture = reopened(pixels).webp(encoding)
    await writeWhole(
      place.file(name),
      await picture.toBuffer(),
      place.unfinished,
    )
    // While its pixels are at hand: opening the file again costs more than looking.
    if (name === 'screen') looks = await looksOf(reopened(pixels))
  }
  return looks
}

type Pixels = { readonly data: Buffer; readonly info: OutputInfo }

async function decoded(
  original: string,
  options: OriginalOptions,
): Promise<Pixels> {
  const picture = await openOriginal(original, options)
  return picture
    .resize(fitting(renditionSizes.zoom))
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true })
}

async function reduced(pixels: Pixels, longSide: number): Promise<Pixels> {
  return reopened(pixels)
    .resize(fitting(longSide))
    .raw()
    .toBuffer({ resolveWithObject: true })
}

function reopened({ data, info }: Pixels) {
  const { width, height, channels } = info
  return openPicture(data, { raw: { width, height, channels } })
}

function fitting(longSide: number) {
  return {
    width: longSide,
    height: longSide,
    fit: 'inside',
    withoutEnlargement: true,
  } as const
}
