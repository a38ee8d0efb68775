import type { Cue, CuePart } from '#core/captions/cue'
import { readTimestamp } from '#core/captions/timestamp'

/**
 * The text of a cue without its tags, in the parts that inline timestamps make of it.
 *
 * @param payload the lines under the cue's timings
 * Source: W3C WebVTT, sections 6.4 (cue text tokenizer) and 6.5: a tag that is not closed runs to the end of the text, and
 * what is in angle brackets is never text.
 */
export function readCueText(payload: string): Pick<Cue, 'text' | 'parts'> {
  const parts: CuePart[] = []
  let at: number | undefined
  let text = ''
  const close = () => {
    if (text !== '') parts.push({ ...(at !== undefined && { at }), text })
    text = ''
  }
  let position = 0
  while (position < payload.length) {
    const open = payload.indexOf('<', position)
    const end = open === -1 ? payload.length : open
    text += withoutReferences(payload.slice(position, end))
    if (open === -1) break
    const shut = payload.indexOf('>', open)
    const tag = payload.slice(open + 1, shut === -1 ? undefined : shut)
    if (/^[0-9]/.test(tag)) {
      const time = readTimestamp(tag)
      if (time !== undefined) {
        close()
        at = time
      }
    }
    position = shut === -1 ? payload.length : shut + 1
  }
  close()
  return { text: parts.map((part) => part.text).join(''), parts }
}

// The names that WebVTT's own examples use, and those that a caption in a European language is likely to hold. HTML has
// two thousand more; one that is not known stays as it is written.
const named: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  nbsp: '\u00a0',
  lrm: '\u200e',
  rlm: '\u200f',
  quot: '"',
  apos: "'",
  copy: '©',
  reg: '®',
  deg: '°',
  frac12: '½',
  frac14: '¼',
  frac34: '¾',
  pound: '£',
  euro: '€',
  cent: '¢',
  hellip: '…',
  ndash: '–',
  mdash: '—',
  lsquo: '‘',
  rsquo: '’',
  ldquo: '“',
  rdquo: '”',
  times: '×',
  eacute: 'é',
  egrave: 'è',
  ccedil: 'ç',
  ouml: 'ö',
  uuml: 'ü',
  auml: 'ä',
  ntilde: 'ñ',
}

/** HTML character references as the characters they stand for; unknown ones stay. The oldest names need no semicolon. */
function withoutReferences(text: string): string {
  return text.replace(
    /&(?:#(\d{1,7})|#[xX]([0-9a-fA-F]{1,6})|([a-zA-Z][a-zA-Z0-9]*));|&(amp|lt|gt|nbsp|quot|copy|reg|deg|pound|cent)/g,
    (
      whole,
      decimal?: string,
      hex?: string,
      name?: string,
      withoutEnd?: string,
    ) => {
      const known = name ?? withoutEnd
      if (known !== undefined) return named[known] ?? whole
      const point =
        decimal === undefined
          ? Number.parseInt(hex ?? '', 16)
          : Number.parseInt(decimal, 10)
      const isCharacter =
        point > 0 && point <= 0x10ffff && !(point >= 0xd800 && point <= 0xdfff)
      return isCharacter ? String.fromCodePoint(point) : '\ufffd'
    },
  )
}
