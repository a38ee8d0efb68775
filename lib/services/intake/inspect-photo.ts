import 'server-only'
import path from 'node:path'
import { areBoxesWhole, isDataInside } from '#services/intake/check-boxes'
import {
  hasPngEnd,
  hasSwellingChunk,
  isRiffWhole,
} from '#services/intake/check-chunks'
import { type PictureKind, contentKind } from '#services/intake/content-kind'
import type { JpegCondition } from '#services/intake/jpeg-walk'
import type { LookAhead } from '#services/intake/look-ahead'
import type { Arrival } from '#services/photo-store/photo-store'
import { DecoderEnded } from '#services/renditions/decode-heic'
import { maximumPixels, openPicture } from '#services/renditions/open-picture'
import { makeRenditionsAhead } from '#services/renditions/renditions'
import { flawWarning } from '#services/renditions/warn-of-damage'

/** What a file turned out to be: a picture that can be kept, or why it cannot. */
export type Inspection =
  | {
      readonly kind: PictureKind
      readonly mediaType: string
      /** Upright pixels. */
      readonly width: number
      readonly height: number
      /** Sentences for the owner. */
      readonly warnings: readonly string[]
    }
  | { readonly kind: 'refused'; readonly reason: string }

const mediaTypes: Record<PictureKind, string> = {
  jpeg: 'image/jpeg',
  png: 'image/png',
  webp: 'image/webp',
  tiff: 'image/tiff',
  avif: 'image/avif',
  heic: 'image/heic',
}

const extensions: Record<PictureKind, readonly string[]> = {
  // A multi-picture file is a JPEG with more pictures behind it.
  jpeg: ['.jpg', '.jpeg', '.jpe', '.jfif', '.mpo'],
  png: ['.png'],
  webp: ['.webp'],
  tiff: ['.tif', '.tiff'],
  avif: ['.avif'],
  heic: ['.heic', '.heif', '.hif'],
}

const megapixels = maximumPixels / 1_000_000
const tooManyPixels = `The picture has more than ${megapixels} megapixels, which is more than can be taken. Send it smaller.`
const tooLong =
  'The picture took longer than a minute to open, so it was given up. Send it smaller, or as JPEG.'
const tooMuchMemory =
  'The picture needs more memory than there is for one. Send it smaller, or as JPEG.'
/** A burst or a short animation has fewer; more is a film or a document. */
const maximumFrames = 200
const tooManyFrames = `The file holds more than ${maximumFrames} pictures, which is more than can be taken. Send one of them.`
const incomplete =
  'The picture is incomplete: its end is missing. Send it again, from where it was taken.'
const damaged =
  'The picture is damaged and cannot be shown. Send it again, from where it was taken.'
const swelling =
  'The colour profile or a text in the file would take more memory than there is for one. Save the picture anew, as JPEG, and send that.'
const uncommon =
  'The picture is coded in a way that cannot be read here. Save it as an ordinary JPEG or PNG and send that.'
const notOpened =
  'The picture is kept, but could not be opened just now. Look at it here before you clear it from your phone.'

/**
 * Looks at a file that has arrived: what it is by its content, how large it is upright, and whether all of it is there.
 *
 * Its size in pixels is bounded before anything is decoded. A JPEG was followed to its end marker as it arrived, so that
 * its sender need not wait for it to be decoded; of any other kind the first picture is decoded once, small. HEIC cannot be
 * decoded small: its renditions are made now instead of afterwards.
 *
 * @param fileName as the sender called it; only to say when it misleads
 * @param ahead what was found of it as it arrived
 */
export async function inspectPhoto(
  { path: file, sha256, head }: Arrival,
  fileName: string,
  ahead: LookAhead,
): Promise<Inspection> {
  const content = contentKind(head)
  if (content.kind === 'refused') return content
  const { kind } = content
  const isInBoxes = kind === 'heic' || kind === 'avif'
  if (kind === 'png' && pngPixels(head) > maximumPixels) {
    return { kind: 'refused', reason: tooManyPixels }
  }
  if (kind === 'png' && (await hasSwellingChunk(file))) {
    return { kind: 'refused', reason: swelling }
  }
  try {
    if (isInBoxes && !(await areBoxesWhole(file))) {
      return { kind: 'refused', reason: incomplete }
    }
    const said = kind === 'jpeg' ? ahead.said()?.header : undefined
    const { autoOrient, pages = 1 } = await (said ??
      openPicture(file).metadata())
    const condition = kind === 'jpeg' ? ahead.condition() : 'unusual'
    if (pages > maximumFrames) {
      return { kind: 'refused', reason: tooManyFrames }
    }
    const { warnings, size } =
      kind === 'heic'
        ? await showHeic(sha256, file, autoOrient)
        : { warnings: await readToTheEnd(file, condition), size: autoOrient }
    const isLacking = isInBoxes && !(await isDataInside(file))
    return {
      kind,
      mediaType: mediaTypes[kind],
      width: size.width,
      height: size.height,
      warnings: [
        ...misleadingName(fileName, kind),
        ...severalPages(kind, pages),
        ...new Set([...warnings, ...(isLacking ? [flawWarning] : [])]),
      ],
    }
  } catch (error) {
    return { kind: 'refused', reason: await reasonFor(error, file, kind) }
  }
}

/** Pages and frames; of several pictures in a HEIC or AVIF its maker names the one to show. */
function severalPages(kind: PictureKind, pages: number): string[] {
  if (pages < 2 || (kind !== 'tiff' && kind !== 'webp')) return []
  return [
    `The file holds ${pages} pictures; the first of them is shown, and all are kept.`,
  ]
}

/** A PNG says its size in its first chunk; read here, since a decoder calls absurd sizes damage. */
function pngPixels(head: Uint8Array): number {
  if (head.byteLength < 24) return 0
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength)
  return view.getUint32(16) * view.getUint32(20)
}

function misleadingName(fileName: string, kind: PictureKind): string[] {
  const extension = path.extname(fileName).toLowerCase()
  if (extension === '' || extensions[kind].includes(extension)) return []
  return [
    `The name ends in ${extension}, but by its content it is ${kind.toUpperCase()}; it was taken as that.`,
  ]
}

type Size = { readonly width: number; readonly height: number }

/**
 * Makes what is shown of a HEIC.
 *
 * @param said its size as its head says, which may be more than there is of it
 * @returns its size as it was decoded; with a warning when that is another, or when nobody can tell whether the picture is
 *   sound, because the decoder ended: it is kept then, and what is shown of it is made when somebody asks for it
 * @throws Error when the picture is damaged, or asks for more than there is for one
 */
async function showHeic(
  sha256: string,
  file: string,
  said: Size,
): Promise<{ readonly warnings: readonly string[]; readonly size: Size }> {
  try {
    const size = (await makeRenditionsAhead(sha256, file)) ?? said
    const isAsSaid = size.width === said.width && size.height === said.height
    return { warnings: isAsSaid ? [] : [flawWarning], size }
  } catch (error) {
    if (!(error instanceof DecoderEnded)) throw error
    console.error(`The decoder ended while it read ${sha256}.`, error)
    return { warnings: [notOpened], size: said }
  }
}

/**
 * Reads the picture to its end.
 *
 * @returns a warning when there is something odd that does not spoil the picture
 * @throws Error when the picture is incomplete or damaged
 */
async function readToTheEnd(
  file: string,
  condition: JpegCondition,
): Promise<string[]> {
  switch (condition) {
    case 'whole':
      return []
    case 'flawed':
      await decode(file, 'error')
      return [flawWarning]
    case 'incomplete':
      throw new Error('premature end of JPEG')
    case 'damaged':
      throw new Error('no JPEG that can be decoded')
    case 'unusual':
      return decodeTwice(file)
  }
}

/** A decoder's warnings alone do not turn a picture away. */
async function decodeTwice(file: string): Promise<string[]> {
  try {
    await decode(file, 'warning')
    return []
  } catch {
    await decode(file, 'error')
    return [flawWarning]
  }
}

async function decode(
  file: string,
  failOn: 'warning' | 'error',
): Promise<void> {
  await openPicture(file, { failOn })
    .resize({ width: 64, height: 64, fit: 'inside', withoutEnlargement: true })
    .raw()
    .toBuffer()
}

async function reasonFor(
  error: unknown,
  file: string,
  kind: PictureKind,
): Promise<string> {
  const message = error instanceof Error ? error.message : ''
  if (/pixel limit/i.test(message)) return tooManyPixels
  if (/took too long/i.test(message)) return tooLong
  if (/too much memory|out of memory/i.test(message)) return tooMuchMemory
  if (await breaksOff(message, file, kind)) return incomplete
  // "Unsupported image format" is said of what is no picture at all.
  return /unsupported (?!image format)|not supported|not configured|whole number of bytes|bad labq/i.test(
    message,
  )
    ? uncommon
    : damaged
}

/** Whether a picture that cannot be decoded is one whose end is missing. */
async function breaksOff(
  message: string,
  file: string,
  kind: PictureKind,
): Promise<boolean> {
  switch (kind) {
    case 'heic':
    case 'avif':
      // All its boxes were found to end inside it.
      return false
    case 'png':
      return !(await hasPngEnd(file))
    case 'webp':
      return !(await isRiffWhole(file))
    case 'jpeg':
    case 'tiff':
      return /premature end of JPEG|read error|bad seek|truncated|unexpected end|end of file|not enough data/i.test(
        message,
      )
  }
}
