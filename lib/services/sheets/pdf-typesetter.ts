import 'server-only'
import type { Typesetter } from '#services/sheets/typesetter'
import { pictureTypesetter } from '#services/sheets/text-picture'

/** From pixels at 300 dots an inch to points of 1/72 in. */
export const point = 72 / 300

/**
 * Measures words as a PDF sets them. Words in a script that its fonts do not have are measured, and drawn, as pictures.
 *
 * @param pdf only its fonts are used; nothing is written
 */
export function pdfTypesetter(
  pdf: PDFKit.PDFDocument,
  pictures: ReturnType<typeof pictureTypesetter>,
): Typesetter {
  return {
    measure: async (words, style, width) => {
      if (!isInFonts(words)) return pictures.measure(words, style, width)
      pdf.font(style.face).fontSize(style.size * point)
      const whole = pdf.widthOfString(words) / point
      if (width === undefined || whole <= width) {
        return {
          width: Math.ceil(whole) + 1,
          height: Math.ceil(pdf.currentLineHeight() / point),
        }
      }
      return {
        width: Math.ceil(width),
        height: Math.ceil(
          pdf.heightOfString(words, { width: width * point }) / point,
        ),
      }
    },
  }
}

/** The scripts that the faces of a PDF have, with the digits and marks that all share. */
export function isInFonts(words: string): boolean {
  return /^[\p{Script=Latin}\p{Script=Greek}\p{Script=Cyrillic}\p{Script=Common}\p{Script=Inherited}]*$/u.test(
    words,
  )
}
