import type { Cue } from '#core/captions/cue'
import { readCueText } from '#core/captions/cue-text'
import { readTimestamp } from '#core/captions/timestamp'

/**
 * The cues of a WebVTT file, in the order of the file. Comments, style sheets, regions and blocks whose timings cannot
 * be read are passed over, as the standard has it.
 *
 * @returns undefined where the file does not begin as WebVTT does
 * Source: W3C WebVTT, section 6.1 (parser) and 6.3 (cue timings and settings).
 */
export function parseWebVtt(file: string): readonly Cue[] | undefined {
  const input = file
    .replace(/^\uFEFF/, '')
    .replaceAll('\0', '\uFFFD')
    .replace(/\r\n?/g, '\n')
  if (!/^WEBVTT(?:[ \t\n]|$)/.test(input)) return undefined
  const lines = input.split('\n')
  const cues: Cue[] = []
  // The header is the first line and what stands under it up to an empty line or the first timings.
  let next = 1
  while (next < lines.length && lines[next] !== '' && !isTimings(lines[next]))
    next += 1
  while (next < lines.length) {
    if (lines[next] === '') {
      next += 1
      continue
    }
    const block = collectBlock(lines, next)
    if (block.cue !== undefined) cues.push(block.cue)
    next = block.next
  }
  return cues
}

function isTimings(line: string | undefined): boolean {
  return line?.includes('-->') === true
}

/** The block that begins at a line: up to an empty line, or to timings where only a new block can have them. */
function collectBlock(
  lines: readonly string[],
  first: number,
): { readonly cue?: Cue; readonly next: number } {
  const timingsAt = [first, first + 1].find((index) => isTimings(lines[index]))
  let end = timingsAt === undefined ? first + 1 : timingsAt + 1
  while (end < lines.length && lines[end] !== '' && !isTimings(lines[end])) {
    end += 1
  }
  const timings =
    timingsAt === undefined ? undefined : readTimings(lines[timingsAt] ?? '')
  if (timingsAt === undefined || timings === undefined) return { next: end }
  return {
    cue: {
      ...timings,
      ...(timingsAt > first && { id: lines[first] ?? '' }),
      ...readCueText(lines.slice(timingsAt + 1, end).join('\n')),
    },
    next: end,
  }
}

const settingNames = new Set([
  'vertical',
  'line',
  'position',
  'size',
  'align',
  'region',
])

function readTimings(
  line: string,
): Pick<Cue, 'start' | 'end' | 'settings'> | undefined {
  const match = /^\s*([\d:.]+)\s*-->\s*([\d:.]+)(.*)$/.exec(line)
  const [, from = '', to = '', rest = ''] = match ?? []
  const start = readTimestamp(from)
  const end = readTimestamp(to)
  if (start === undefined || end === undefined) return undefined
  return { start, end, settings: readSettings(rest) }
}

function readSettings(text: string): Readonly<Record<string, string>> {
  const settings: Record<string, string> = {}
  for (const one of text.split(/[ \t\f]+/)) {
    const colon = one.indexOf(':')
    if (colon < 1 || colon === one.length - 1) continue
    const name = one.slice(0, colon)
    if (settingNames.has(name)) settings[name] = one.slice(colon + 1)
  }
  return settings
}
