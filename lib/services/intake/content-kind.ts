import { isCameraRaw } from '#services/intake/is-camera-raw'

/** The kinds of picture that are taken. */
export type PictureKind = 'jpeg' | 'png' | 'webp' | 'tiff' | 'avif' | 'heic'

/** What a file is by its first bytes: a kind that is taken, or why it is not. */
export type ContentKind =
  | { readonly kind: PictureKind }
  | { readonly kind: 'refused'; readonly reason: string }

const heicBrands = ['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'hevm']
const stillBrands = ['mif1', 'mif2', 'miaf']

/**
 * What a file is, judged by its first bytes and never by its name.
 *
 * @param head the first 4096 bytes of the file, or all of it when it is shorter
 * Sources: ISO/IEC 10918-1 B.1.1 (JPEG), PNG third edition 5.2, RFC 9649 (WebP), TIFF 6.0 section 2, ISO/IEC 23008-12
 * and the AV1 image file format (brands).
 */
export function contentKind(head: Uint8Array): ContentKind {
  if (head.byteLength === 0) {
    return refusal('The file is empty: it did not arrive. Send it again.')
  }
  const bytes = Buffer.from(head.buffer, head.byteOffset, head.byteLength)
  const text = bytes.toString('latin1')
  if (text.startsWith('\xff\xd8\xff') && !/^\xff+$/.test(text.slice(2))) {
    return { kind: 'jpeg' }
  }
  if (text.startsWith('\x89PNG\r\n\x1a\n')) return { kind: 'png' }
  if (text.startsWith('RIFF') && text.slice(8, 12) === 'WEBP') {
    return { kind: 'webp' }
  }
  if (/^(?:II[*+]\0|MM\0[*+])/.test(text)) {
    return isCameraRaw(head) ? refusal(rawReason) : { kind: 'tiff' }
  }
  if (text.slice(4, 8) === 'ftyp') return boxedKind(bytes)
  return refusal(reasonFor(text))
}

/** A file made of boxes: its brands tell a still picture from a video. */
function boxedKind(bytes: Buffer): ContentKind {
  const end = Math.min(bytes.readUInt32BE(0), bytes.byteLength)
  const brands: string[] = []
  for (let at = 8; at + 4 <= end; at += 4) {
    // The second word is a version, not a brand.
    if (at !== 12) brands.push(bytes.toString('latin1', at, at + 4))
  }
  const major = brands[0] ?? ''
  if (major === 'crx ') return refusal(rawReason)
  if (major === 'avif') return { kind: 'avif' }
  if (major === 'avis') {
    return refusal(
      'This is a moving picture (AVIF sequence). Save one picture of it as JPEG and send that.',
    )
  }
  if (major === 'msf1') {
    return refusal(
      'This is a moving picture (HEIC sequence). Save one picture of it as JPEG and send that.',
    )
  }
  const heic = brands.some((brand) => heicBrands.includes(brand))
  if (heicBrands.includes(major) || (stillBrands.includes(major) && heic)) {
    return { kind: 'heic' }
  }
  if (brands.includes('avif')) return { kind: 'avif' }
  // What codes the picture is then only in its item: a decoder finds out.
  return stillBrands.includes(major) ? { kind: 'heic' } : refusal(videoReason)
}

const rawReason =
  "This is a camera's raw file, which is not taken. Send the JPEG that the camera or its program makes of it."
const videoReason =
  'This is a video, and only photos are taken. Send a photo, or a still from it.'

function reasonFor(text: string): string {
  const start = text
    .replace(/^\u00ef\u00bb\u00bf/, '')
    .trimStart()
    .toLowerCase()
  if (/^gif8[79]a/.test(start)) {
    return 'This is a GIF, which is not taken. Send the photo as JPEG or PNG.'
  }
  if (start.startsWith('%pdf')) {
    return 'This is a PDF, which is not taken. Send the photo itself, as JPEG or PNG.'
  }
  if (
    /^(?:<\?xml[^>]*>\s*|<!--[\s\S]*?-->\s*|<!doctype svg[^>]*>\s*)*<svg/.test(
      start,
    )
  ) {
    return 'This is an SVG drawing, which is not taken. Send a photo as JPEG or PNG.'
  }
  if (
    /^(?:<\?xml[^>]*>\s*)?(?:<!--[\s\S]*?-->\s*)*<(?:!doctype html|html|head|body|script)/.test(
      start,
    )
  ) {
    return 'This is a web page and not a picture: perhaps a download that failed. Send the photo itself.'
  }
  if (
    text.startsWith('\x1aE\xdf\xa3') ||
    (text.startsWith('RIFF') && text.slice(8, 12) === 'AVI ') ||
    ['moov', 'mdat', 'wide', 'free', 'skip'].includes(text.slice(4, 8))
  ) {
    return videoReason
  }
  const other = others.find(([magic]) => text.startsWith(magic))
  if (other !== undefined) return other[1]
  return 'This is not a picture that can be read. Send a JPEG, HEIC, PNG, WebP, TIFF or AVIF.'
}

const asJpeg = 'Send the photo as JPEG or PNG.'
/** The first bytes of what people send by mistake, and what to tell them. */
const others: readonly (readonly [string, string])[] = [
  ['BM', `This is a BMP, which is not taken. ${asJpeg}`],
  ['8BPS', `This is a layered picture (PSD), which is not taken. ${asJpeg}`],
  ['\xff\x0a', `This is a JPEG XL, which is not taken. ${asJpeg}`],
  ['\0\0\0\x0cJXL ', `This is a JPEG XL, which is not taken. ${asJpeg}`],
  ['\0\0\0\x0cjP  ', `This is a JPEG 2000, which is not taken. ${asJpeg}`],
  ['FUJIFILMCCD-RAW', rawReason],
  ['IIRO', rawReason],
  ['IIU\0', rawReason],
  [
    'PK\x03\x04',
    'This is an archive or a document and not a picture. Take the photos out of it and send them.',
  ],
]

function refusal(reason: string): ContentKind {
  return { kind: 'refused', reason }
}
