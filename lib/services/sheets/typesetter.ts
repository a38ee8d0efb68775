import 'server-only'
import type { Size } from '#core/sheets/largest-crop'

/** The faces that sheets are set in: for titles, for facts, and for titles that shout. */
export type Face = 'serif' | 'sans' | 'heavy'

/** How words are set. */
export type TypeStyle = {
  readonly face: Face
  /** Height of the letters' body, in pixels. */
  readonly size: number
  /** Such as `#26221d`. */
  readonly colour: string
}

/** Whoever sets words: as a picture, or as the text of a PDF. */
export type Typesetter = {
  /**
   * The room that words need, in pixels, broken into lines at a width.
   *
   * @param width absent: in one line
   */
  readonly measure: (
    words: string,
    style: TypeStyle,
    width?: number,
  ) => Promise<Size>
}

/** What a user wrote, as it can be set in these fonts: on one line, without pictograms, which would come out as boxes. */
export function settableWords(words: string): string {
  return words
    .replaceAll(/[^\P{Extended_Pictographic}©®™]/gu, '')
    .replaceAll(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}\ufe0f]/gu, ' ')
    .replaceAll(/\s+/g, ' ')
    .trim()
}

/** The words with fewer letters and an ellipsis; no letter is cut in two, whatever its script. */
export function shortened(words: string): string {
  const letters = Array.from(
    new Intl.Segmenter().segment(words.replace(/…$/, '')),
    ({ segment }) => segment,
  )
  const fewer = letters.slice(0, Math.floor(letters.length * 0.86))
  return `${fewer.join('').replace(/[\s,;:]+$/, '')}…`
}
