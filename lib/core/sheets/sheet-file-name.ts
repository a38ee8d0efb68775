/** Common practice, no source: long enough to tell jobs apart, short enough for any disk and any list of files. */
const titleLength = 60

/**
 * The name of a sheet's file: the job, the shape and the design, such as `oak-sideboard-1x1-quiet.jpg`, and the width of a
 * smaller one, so that it does not pass for the sheet. Letters and digits of any script stay; all else becomes a hyphen.
 */
export function sheetFileName(parts: {
  readonly title: string
  readonly shape: string
  readonly design: string
  /** In pixels. */
  readonly width?: number | undefined
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
  const size = parts.width === undefined ? '' : `-${parts.width}`
  return `${title === '' ? 'sheet' : title}-${parts.shape}-${parts.design}${size}.${parts.format}`
}
