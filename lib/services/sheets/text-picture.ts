import 'server-only'
import path from 'node:path'
import { newPicture } from '#services/renditions/open-picture'

/** The fonts that sheets are set in; they lie in the repository, so a sheet looks the same on every machine. */
const fonts = {
  title: { family: 'Source Serif 4', file: 'source-serif-4-regular.ttf' },
  label: { family: 'Libre Franklin Medium', file: 'libre-franklin-medium.ttf' },
} as const

/** Words as a picture with a clear ground, as large as the words are. */
export type TextPicture = {
  readonly pixels: Buffer
  readonly width: number
  readonly height: number
}

type TextStyle = {
  readonly font: keyof typeof fonts
  /** Height of the letters' body, in pixels. */
  readonly size: number
  /** Such as `#26221d`. */
  readonly colour: string
  /** Lines are broken at this width. */
  readonly width: number
}

/** Draws words; a word that is wider than a line is broken. */
export async function textPicture(
  words: string,
  style: TextStyle,
): Promise<TextPicture> {
  const { family, file } = fonts[style.font]
  const { data, info } = await newPicture({
    text: {
      text: `<span foreground="${style.colour}">${escaped(words)}</span>`,
      font: `${family} ${String(style.size)}`,
      fontfile: path.join(process.cwd(), 'lib/services/sheets/fonts', file),
      width: style.width,
      wrap: 'word-char',
      // At 72 dots an inch a point is a pixel.
      dpi: 72,
      rgba: true,
    },
  })
    .png()
    .toBuffer({ resolveWithObject: true })
  return { pixels: data, width: info.width, height: info.height }
}

/** Draws words as large as they fit: smaller step by step, then fewer of them. */
export async function fittedText(
  words: string,
  style: Omit<TextStyle, 'size'>,
  sizes: readonly number[],
  height: number,
): Promise<TextPicture> {
  for (const size of sizes) {
    const drawn = await textPicture(words, { ...style, size })
    if (drawn.height <= height && drawn.width <= style.width) return drawn
  }
  const letters = [...new Intl.Segmenter().segment(words)].map(
    (one) => one.segment,
  )
  const fewer = letters.slice(0, Math.floor(letters.length * 0.85))
  if (fewer.length < 2) return textPicture('…', { ...style, size: 12 })
  const shorter = `${fewer.join('').replace(/[\s…]+$/, '')}…`
  return fittedText(shorter, style, sizes.slice(-1), height)
}

/** What a user wrote, as it can be set in these fonts: on one line, without pictograms, which would come out as boxes. */
export function settableWords(words: string): string {
  return words
    .replaceAll(/[^\P{Extended_Pictographic}©®™]/gu, '')
    .replaceAll(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}\ufe0f]/gu, ' ')
    .replaceAll(/\s+/g, ' ')
    .trim()
}

/** Words and never markup. */
function escaped(words: string): string {
  return words
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&apos;')
}
