import 'server-only'
import { open } from 'node:fs/promises'
import path from 'node:path'
import {
  type PictureKind,
  contentKind,
  headBytes,
} from '#services/intake/content-kind'
import { maximumPixels, openPicture } from '#services/renditions/open-picture'

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
}

const extensions: Record<PictureKind, readonly string[]> = {
  // A multi-picture file is a JPEG with more pictures behind it.
  jpeg: ['.jpg', '.jpeg', '.jpe', '.jfif', '.mpo'],
  png: ['.png'],
  webp: ['.webp'],
  tiff: ['.tif', '.tiff'],
  avif: ['.avif'],
}

const megapixels = maximumPixels / 1_000_000
const tooManyPixels = `The picture has more than ${megapixels} megapixels, which is more than can be taken. Send it smaller.`
const incomplete =
  'The picture is incomplete: its end is missing. Send it again, from where it was taken.'
const damaged =
  'The picture is damaged and cannot be shown. Send it again, from where it was taken.'

/**
 * Looks at a file that has arrived: what it is by its content, how large it is upright, and whether all of it is there.
 *
 * Its size in pixels is bounded before anything is decoded; then the first picture in it is decoded once, small, which
 * reads it to its end.
 *
 * @param fileName as the sender called it; only to say when it misleads
 */
export async function inspectPhoto(
  file: string,
  fileName: string,
): Promise<Inspection> {
  const head = await readHead(file)
  const content = contentKind(head)
  if (content.kind === 'refused') return content
  if (content.kind === 'png' && pngPixels(head) > maximumPixels) {
    return { kind: 'refused', reason: tooManyPixels }
  }
  try {
    const { autoOrient } = await openPicture(file).metadata()
    return {
      kind: content.kind,
      mediaType: mediaTypes[content.kind],
      width: autoOrient.width,
      height: autoOrient.height,
      warnings: [
        ...misleadingName(fileName, content.kind),
        ...(await readToTheEnd(file)),
      ],
    }
  } catch (error) {
    return { kind: 'refused', reason: reasonFor(error) }
  }
}

async function readHead(file: string): Promise<Uint8Array> {
  const handle = await open(file, 'r')
  try {
    const buffer = new Uint8Array(headBytes)
    const { bytesRead } = await handle.read(buffer, 0, headBytes, 0)
    return buffer.subarray(0, bytesRead)
  } finally {
    await handle.close()
  }
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

/**
 * Decodes the picture at a small size, which still reads all of it.
 *
 * @returns a warning when the decoder has something to say that does not spoil the picture
 * @throws Error when the picture is incomplete or damaged
 */
async function readToTheEnd(file: string): Promise<string[]> {
  try {
    await decode(file, 'warning')
    return []
  } catch {
    await decode(file, 'error')
    return [
      'The file has flaws that do not spoil the picture. Look at it before you clear it from your phone.',
    ]
  }
}

async function decode(
  file: string,
  failOn: 'warning' | 'error',
): Promise<void> {
  // At an eighth a JPEG's decoder still reads every block but does little with it.
  await openPicture(file, { failOn })
    .resize({ width: 64, height: 64, fit: 'inside', withoutEnlargement: true })
    .raw()
    .toBuffer()
}

function reasonFor(error: unknown): string {
  const message = error instanceof Error ? error.message : ''
  if (/pixel limit/i.test(message)) return tooManyPixels
  if (
    /premature end of JPEG|read error|bad seek|truncated|unexpected end|end of file|not enough data/i.test(
      message,
    )
  ) {
    return incomplete
  }
  return damaged
}
