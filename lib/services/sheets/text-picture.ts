import 'server-only'
import path from 'node:path'
import { newPicture } from '#services/renditions/open-picture'
import type { Face, TypeStyle, Typesetter } from '#services/sheets/typesetter'
import { useOwnFonts } from '#services/sheets/use-own-fonts'

/** The fonts that sheets are set in; they lie in the repository, so a sheet looks the same on every machine. */
const fonts: Readonly<
  Record<Face, { readonly family: string; readonly file: string }>
> = {
  serif: { family: 'Source Serif 4', file: 'source-serif-4-regular.ttf' },
  sans: { family: 'Libre Franklin Medium', file: 'libre-franklin-medium.ttf' },
  heavy: {
    family: 'Libre Franklin ExtraBold',
    file: 'libre-franklin-extra-bold.ttf',
  },
}

/** Words as a picture with a clear ground, as large as the words are. */
export type TextPicture = {
  readonly pixels: Buffer
  readonly width: number
  readonly height: number
}

/**
 * Draws words; a word that is wider than a line is broken.
 * Letters that a font lacks come from the others that we ship.
 *
 * @param width in pixels; absent: one line
 */
export async function textPicture(
  words: string,
  style: TypeStyle,
  width?: number,
): Promise<TextPicture> {
  const folder = useOwnFonts()
  const { family, file } = fonts[style.face]
  const { data, info } = await newPicture({
    text: {
      text: `<span foreground="${style.colour}">${escaped(words)}</span>`,
      font: `${family} ${String(style.size)}`,
      fontfile: path.join(folder, file),
      ...(width !== undefined && { width: Math.max(1, Math.floor(width)) }),
      wrap: 'word-char',
      // At 72 dots an inch a point is a pixel.
      dpi: 72,
      rgba: true,
    },
  })
    .raw()
    .toBuffer({ resolveWithObject: true })
  return { pixels: data, width: info.width, height: info.height }
}

/** Sets words as pictures, and keeps what it drew: what was measured is what is put on the sheet. */
export function pictureTypesetter(): Typesetter & {
  readonly draw: (
    words: string,
    style: TypeStyle,
    width?: number,
  ) => Promise<TextPicture>
} {
  const drawn = new Map<string, Promise<TextPicture>>()
  const draw = (words: string, style: TypeStyle, width?: number) => {
    const key = JSON.stringify([words, style, width])
    const known = drawn.get(key)
    if (known !== undefined) return known
    const picture = textPicture(words, style, width)
    drawn.set(key, picture)
    return picture
  }
  return {
    draw,
    measure: async (words, style, width) => {
      const picture = await draw(words, style, width)
      return { width: picture.width, height: picture.height }
    },
  }
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
