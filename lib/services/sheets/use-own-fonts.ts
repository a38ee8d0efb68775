import 'server-only'
import path from 'node:path'

/**
 * Has the text engine see the fonts of this folder and no others, whatever the machine has installed; to be called before
 * words are drawn. The engine reads the variable once, when it first sets text.
 *
 * Letters are there for Latin, Greek, Cyrillic, Arabic, Armenian, Bengali, Devanagari, Ethiopic, Georgian, Gujarati,
 * Gurmukhi, Hebrew, Kannada, Khmer, Lao, Malayalam, Myanmar, Sinhala, Tamil, Telugu and Thai; of Chinese, Japanese and
 * Korean those of the national standards JIS X 0208, GB 2312, Big5 level 1 and KS X 1001, in their Japanese forms where
 * they differ. What else is written comes out as boxes with the letters' numbers.
 *
 * @returns the folder of the fonts
 */
export function useOwnFonts(): string {
  const folder = path.join(process.cwd(), 'lib/services/sheets/fonts')
  process.env['FONTCONFIG_FILE'] = path.join(folder, 'fonts.conf')
  return folder
}
