import { readFileSync } from 'node:fs'
import path from 'node:path'
import type { Journal, Piece, Step } from '#core/journal/journal'
import { stepKinds } from '#core/journal/vocabulary'
import { type Product, productCategories } from '#core/shelf/product'
import { instant } from '#core/units'

/** What a transcript can show: `worked` ones were in view while the alignment was made, `held` ones only measure it. */
export const transcriptSets = ['worked', 'held'] as const

/** A made-up telling of a job, with its journal and where the telling of each step begins. */
export type Transcript = {
  readonly name: string
  readonly set: (typeof transcriptSets)[number]
  readonly style: string
  readonly journal: Journal
  /** The captions as a file. */
  readonly captions: string
  /** Seconds, by the id of the step; `end` for the ending. */
  readonly starts: ReadonlyMap<string, number>
}

const folder = path.join('tests', 'fixtures', 'transcripts')

/** Reads a transcript of `tests/fixtures/transcripts`; its README tells the form. */
export function readTranscript(name: string): Transcript {
  const file = readFileSync(path.join(folder, `${name}.txt`), 'utf8')
  const [head = '', body = ''] = file.split(/^---$/m)
  const lines = head.split('\n').map((line) => {
    const [key = '', ...rest] = line.split(': ')
    return [key, rest.join(': ')] as const
  })
  const all = (key: string) =>
    lines.filter(([name]) => name === key).map(([, value]) => value)
  const one = (key: string) => all(key)[0] ?? ''
  const told = tell(body, Number(one('pace')))
  const form = one('captions')
  return {
    name,
    set: transcriptSets.find((set) => set === one('set')) ?? 'worked',
    style: one('style'),
    journal: journalOf(all('piece'), all('product'), all('step')),
    captions:
      form === 'rolling'
        ? rolling(told.words)
        : form === 'subrip'
          ? subRip(told)
          : webVtt(told),
    starts: told.starts,
  }
}

type Word = { readonly text: string; readonly at: number; readonly end: number }
type Told = {
  readonly words: readonly Word[]
  readonly music: readonly { readonly at: number; readonly end: number }[]
  readonly starts: ReadonlyMap<string, number>
}

/** What is said, word by word at an even pace by their lengths, with a breath at full stops. */
function tell(body: string, wordsPerSecond: number): Told {
  const words: Word[] = []
  const music: { at: number; end: number }[] = []
  const starts = new Map<string, number>()
  const lettersPerSecond = wordsPerSecond * 5.1
  let at = 1.2
  let mark: string | undefined
  for (const token of body.match(/\{[^}]*\}|\S+/g) ?? []) {
    const pause = /^\{(music )?(\d+)\}$/.exec(token)
    if (pause !== null) {
      const end = at + Number(pause[2])
      if (pause[1] !== undefined) music.push({ at, end })
      at = end
    } else if (token.startsWith('@')) {
      mark = token.slice(1)
    } else {
      if (mark !== undefined) starts.set(mark, at)
      mark = undefined
      const end = at + (token.length + 1) / lettersPerSecond
      words.push({ text: token, at, end })
      at = end + (/[.!?]$/.test(token) ? 0.35 : /,$/.test(token) ? 0.12 : 0)
    }
  }
  return { words, music, starts }
}

/** Words in cues as they come: never more than so many letters, and none over a silence. */
function cuesOf(
  words: readonly Word[],
  letters: number,
): readonly (readonly Word[])[] {
  const cues: Word[][] = []
  for (const word of words) {
    const cue = cues.at(-1)
    const before = cue?.at(-1)
    const length = cue?.reduce((sum, one) => sum + one.text.length + 1, 0) ?? 0
    if (
      cue === undefined ||
      before === undefined ||
      length + word.text.length > letters ||
      word.at - before.end > 1.5
    ) {
      cues.push([word])
    } else cue.push(word)
  }
  return cues
}

function stamp(seconds: number, comma: string): string {
  const thousandths = Math.round(seconds * 1000)
  const part = (by: number, of: number, width = 2) =>
    String(Math.floor(thousandths / by) % of).padStart(width, '0')
  return `${part(3_600_000, 100)}:${part(60_000, 60)}:${part(1000, 60)}${comma}${part(1, 1000, 3)}`
}

const text = (words: readonly Word[]) =>
  words.map((word) => word.text).join(' ')

type Shown = {
  readonly at: number
  readonly end: number
  readonly text: string
}

function shown({ words, music }: Told, letters: number): readonly Shown[] {
  return [
    ...cuesOf(words, letters).map((cue) => ({
      at: cue[0]?.at ?? 0,
      end: cue.at(-1)?.end ?? 0,
      text: text(cue),
    })),
    ...music.map((one) => ({ ...one, text: '[Music]' })),
  ].toSorted((one, other) => one.at - other.at)
}

function webVtt(told: Told): string {
  return [
    'WEBVTT',
    ...shown(told, 70).map(
      (cue) => `${stamp(cue.at, '.')} --> ${stamp(cue.end, '.')}\n${cue.text}`,
    ),
  ].join('\n\n')
}

function subRip(told: Told): string {
  return shown(told, 84)
    .map(
      (cue, index) =>
        `${index + 1}\n${stamp(cue.at, ',')} --> ${stamp(cue.end, ',')}\n${cue.text}\n`,
    )
    .join('\n')
}

/** As machines caption: no punctuation, two lines, the first of them again what was said before, times for each word. */
function rolling(words: readonly Word[]): string {
  const plain = words
    .map((word) => ({
      ...word,
      text: word.text.replace(/[.,!?;:"]/g, '').toLowerCase(),
    }))
    .filter((word) => word.text !== '')
  const blocks = ['WEBVTT\nKind: captions\nLanguage: en']
  let before = ' '
  for (const cue of cuesOf(plain, 38)) {
    const from = cue[0]?.at ?? 0
    const until = cue.at(-1)?.end ?? 0
    const [first, ...rest] = cue
    const timed = [
      first?.text ?? '',
      ...rest.map((word) => `<${stamp(word.at, '.')}><c> ${word.text}</c>`),
    ].join('')
    const place = 'align:start position:0%'
    blocks.push(
      `${stamp(from, '.')} --> ${stamp(until, '.')} ${place}\n${before}\n${timed}`,
      `${stamp(until, '.')} --> ${stamp(until + 0.01, '.')} ${place}\n${text(cue)}\n `,
    )
    before = text(cue)
  }
  return blocks.join('\n\n')
}

function journalOf(
  pieces: readonly string[],
  products: readonly string[],
  steps: readonly string[],
): Journal {
  const made = pieces.map((line): Piece => {
    const [name = '', surfaces = ''] = line.split(' | ')
    return {
      id: name,
      name,
      kind: name,
      surfaces: surfaces
        .split(', ')
        .map((surface) => ({ id: `${name}.${surface}`, name: surface })),
    }
  })
  const first = made[0]?.name ?? ''
  return {
    job: { id: 'job', title: first, createdAt: instant(0) },
    pieces: made,
    photos: [],
    cameras: [],
    air: [],
    products: products.map((line): Product => {
      const [id = '', category = '', name = ''] = line.split(' | ')
      return {
        id,
        name,
        category: productCategories.find((one) => one === category) ?? 'other',
        chemistry: 'other',
        label: {},
      }
    }),
    steps: steps.map((line, index): Step => {
      const [id = '', kind = '', on = '', ...rest] = line.split(' ')
      const grit = rest.find((part) => part.startsWith('grit='))?.slice(5)
      const product = rest.find((part) => !part.includes('='))
      const known = stepKinds.find((one) => one === kind)
      if (known === undefined) throw new Error(`no kind of step: ${line}`)
      return {
        id,
        kind: known,
        surfaces: on.split(',').map((part) => {
          const [name = '', coat] = part.replaceAll('_', ' ').split(':')
          return {
            surfaceId: name.includes('.') ? name : `${first}.${name}`,
            ...(coat !== undefined && { coat: Number(coat) }),
          }
        }),
        ...(product !== undefined && { productId: product }),
        ...(grit !== undefined && { grit: Number(grit) }),
        photoIds: [],
        startedAt: instant(index * 3_600_000),
        createdAt: instant(index * 3_600_000),
      }
    }),
  }
}
