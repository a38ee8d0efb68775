import type { Cue } from '#core/captions/cue'
import { readCueText } from '#core/captions/cue-text'
import { readLooseTimestamp } from '#core/captions/timestamp'

const timings =
  /^\s*([\d][\d:.,\s]*?)\s*-{1,2}>\s*([\d][\d:.,]*(?:\s*[.,]\s*\d{1,3})?)(\s.*)?$/

/**
 * The cues of a SubRip file, in the order of the file, however it is written: numbers missing or repeated, empty lines
 * inside a text or missing between two, coordinates after the times, HTML-like tags and `{\an8}`.
 *
 * Common practice, no source: SubRip has no standard. A line of timings begins a cue; the line of digits before it is its
 * number.
 */
export function parseSubRip(file: string): readonly Cue[] {
  const lines = file.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/)
  const starts = lines.flatMap((line, index) => {
    const times = readTimings(line)
    return times === undefined ? [] : [{ index, ...times }]
  })
  return starts.map(({ index, ...times }, place) => {
    const next = starts[place + 1]?.index ?? lines.length
    const isNumbered = (at: number) => /^\s*\d+\s*$/.test(lines[at] ?? '')
    const end =
      next < lines.length && next - 1 > index && isNumbered(next - 1)
        ? next - 1
        : next
    const payload = lines
      .slice(index + 1, end)
      .map((line) => line.trim())
      .filter((line) => line !== '')
      .join('\n')
      .replace(/\{[^{}\n]*\}/g, '')
      .replace(/\\[Nn]/g, '\n')
    const id = isNumbered(index - 1) ? (lines[index - 1] ?? '').trim() : ''
    return {
      ...times,
      ...(id !== '' && { id }),
      settings: {},
      ...readCueText(escapedSigns(payload)),
    }
  })
}

function readTimings(
  line: string,
): { readonly start: number; readonly end: number } | undefined {
  const match = timings.exec(line)
  if (match === null) return undefined
  const start = readLooseTimestamp((match[1] ?? '').trim())
  const end = readLooseTimestamp((match[2] ?? '').trim())
  return start === undefined || end === undefined ? undefined : { start, end }
}

/** An angle bracket that opens no tag is a sign like any other here: `I <3 pine`. */
function escapedSigns(text: string): string {
  return text.replace(
    /<(?!\/?[a-zA-Z][^<>]*>|\d+:\d\d:\d\d\.\d{3}>|\d\d:\d\d\.\d{3}>)/g,
    '&lt;',
  )
}
