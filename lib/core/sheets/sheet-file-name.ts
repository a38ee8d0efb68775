/** Common practice, no source: long enough to tell jobs apart, short enough for any disk and any list of files. */
const titleLength = 60

/**
 * The name of a sheet's file: the job, the shape and the design, such as `oak-sideboard-1x1-quiet.jpg`. Letters and
 * digits of any script stay; all else becomes a hyphen.
 */
export function sheetFileName(parts: {
  readonly title: string
  readonly shape: string
  readonly design: string
  readonly format: string
}): string {
  const words = parts.title
    .normalize('NFC')
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{M}\p{N}]+/gu, '-')
  const title = Array.from(
    new Intl.Segmenter().segment(words),
    ({ segment }) => segment,
  )
    .slice(0, titleLength)
    .join('')
    .replaceAll(/^-+|-+$/g, '')
  return `${title === '' ? 'sheet' : title}-${parts.shape}-${parts.design}.${parts.format}`
}
