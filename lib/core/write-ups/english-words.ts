import type { StepKind } from '#core/journal/vocabulary'

/**
 * The indefinite article that goes before these words when spoken: an oak table, a unit, an 8-drawer chest, an L-shaped desk.
 *
 * Common practice, no source: the rule of sound, with the usual exceptions spelt out.
 */
export function indefiniteArticle(words: string): 'a' | 'an' {
  const first = words.trim().split(/[\s,]/)[0] ?? ''
  // Eight, eleven, eighteen and their hundreds begin with a vowel sound; 1,100 and 180 do not.
  if (/^\d/.test(first)) return /^(8\d*|11|18)(\D|$)/.test(first) ? 'an' : 'a'
  // A letter that is spoken by its name: an L-shaped desk, a U-shaped one.
  if (/^[A-Z]($|[-.\d])/.test(first) || /^[A-Z]{2,}($|[-.\d])/.test(first)) {
    return /^[AEFHILMNORSX]/.test(first) ? 'an' : 'a'
  }
  const spoken = first.toLowerCase()
  if (/^(hour|honest|heir|honou?r)/.test(spoken)) return 'an'
  if (
    /^(one($|-|-?off)|once|eu|ew|uni([^nmd]|$)|us[ae]|util|ure|ut(e|o)n|ukulele)/.test(
      spoken,
    )
  )
    return 'a'
  return /^[aeiouàáâäæèéêëìíîïòóôöøùúûü]/.test(spoken) ? 'an' : 'a'
}

const irregular: Readonly<Record<string, string>> = {
  shelf: 'shelves',
  bookshelf: 'bookshelves',
  chaise: 'chaises',
  bureau: 'bureaux',
  furniture: 'furniture',
}

/**
 * Several of a kind of furniture: benches, chests of drawers, bookshelves.
 *
 * Common practice, no source.
 */
export function pluralOf(kind: string): string {
  const [, head = kind, rest = ''] =
    /^(.*?)((?: of | with | for | in ).*)?$/.exec(kind) ?? []
  const [, before = '', noun = head] = /^(.*[\s-])?([^\s-]+)$/.exec(head) ?? []
  const known = irregular[noun.toLowerCase()]
  if (known !== undefined) return `${before}${known}${rest}`
  if (/(s|x|z|ch|sh)$/i.test(noun)) return `${head}es${rest}`
  if (/[^aeiou]y$/i.test(noun)) return `${head.slice(0, -1)}ies${rest}`
  return `${head}s${rest}`
}

// Names of surfaces that there is no more of when there are several. Common practice, no source.
const uncounted =
  /\b(hardware|ironmongery|trim|joinery|glass|leather|upholstery|caning|cane|rush|webbing|moulding|molding|beading)$/i

/** The same surface of several pieces: tops, bodies, drawer fronts, hardware. */
export function pluralOfSurface(name: string): string {
  return uncounted.test(name) || /[^s]s$/i.test(name) ? name : pluralOf(name)
}

/** Names in a row; those that only a number tells apart, by their numbers: chairs 1, 3 and 5, chairs 1 to 6 and the desk. */
export function namesTogether(names: readonly string[]): string {
  const groups: { readonly word?: string; readonly names: string[] }[] = []
  for (const name of names) {
    const word = numbered.exec(name)?.[1]
    const alike = groups.find(
      (one) =>
        word !== undefined && one.word?.toLowerCase() === word.toLowerCase(),
    )
    if (alike !== undefined) alike.names.push(name)
    else groups.push({ ...(word !== undefined && { word }), names: [name] })
  }
  return listOf(
    groups.map(({ word, names: own }) =>
      word === undefined || own.length < 2
        ? listOf(own)
        : `${pluralOf(word)} ${listOf(runsOf(own.map((name) => Number(numbered.exec(name)?.[2]))))}`,
    ),
  )
}

const numbered = /^(.*\S)\s+([1-9]\d{0,3})$/

/** Numbers in a row, three and more that follow each other as `1 to 3`. */
function runsOf(numbers: readonly number[]): readonly string[] {
  const runs: number[][] = []
  for (const number of numbers) {
    const run = runs.at(-1)
    if (run?.at(-1) === number - 1) run.push(number)
    else runs.push([number])
  }
  return runs.flatMap((run) =>
    run.length < 3 ? run.map(String) : `${run[0]} to ${run.at(-1)}`,
  )
}

/** Words in a row: `a`, `a and b`, `a, b and c`. */
export function listOf(words: readonly string[]): string {
  return words.length < 2
    ? (words[0] ?? '')
    : `${words.slice(0, -1).join(', ')} and ${words.at(-1) ?? ''}`
}

/** One to nine in words, the rest in figures. */
export function countOf(count: number): string {
  return (
    [
      'no',
      'one',
      'two',
      'three',
      'four',
      'five',
      'six',
      'seven',
      'eight',
      'nine',
    ][count] ?? String(count)
  )
}

const ordinals = [
  'first',
  'second',
  'third',
  'fourth',
  'fifth',
  'sixth',
  'seventh',
  'eighth',
  'ninth',
]

/** First to ninth in words, the rest in figures: `10th`, `21st`. */
export function ordinalOf(place: number): string {
  const teens = place % 100 > 10 && place % 100 < 14
  const ending = teens ? 'th' : (['th', 'st', 'nd', 'rd'][place % 10] ?? 'th')
  return ordinals[place - 1] ?? `${place}${ending}`
}

/** The words with a capital first letter. */
export function capitalised(words: string): string {
  const [first = ''] = words
  return first.toUpperCase() + words.slice(first.length)
}

/** The words closed as a sentence: with a full stop, unless they are closed already. */
export function closed(words: string): string {
  const trimmed = words.trim()
  return /[.!?…]["')\]”’]*$/.test(trimmed)
    ? trimmed
    : `${trimmed.replace(/[\s,;:]+$/, '')}.`
}

const part =
  /\b(hardware|handles?|knobs?|pulls?|hinges?|locks?|castors?|casters?|doors?|drawers?|shel(f|ves)|mirror|glass)\b/i

/** Whether these surfaces, by their names, are all put back on a piece and are not the piece: they are refitted. */
export function areParts(names: readonly string[]): boolean {
  return names.length > 0 && names.every((name) => part.test(name))
}

/** Whether a step on these surfaces puts back no more than parts of a piece, which never was apart. */
export function isRefit(kind: StepKind, names: readonly string[]): boolean {
  return kind === 'assemble' && areParts(names)
}

/** What was done, by the kind of step: as the name of a stage. */
export const doneWords: Readonly<Record<StepKind, string>> = {
  clean: 'Cleaned',
  repair: 'Repaired',
  strip: 'Stripped',
  sand: 'Sanded',
  scuff: 'Scuffed',
  condition: 'Conditioned',
  prime: 'Primed',
  coat: 'Painted',
  stain: 'Stained',
  glaze: 'Glazed',
  seal: 'Clear-coated',
  wax: 'Waxed',
  hardware: 'Hardware',
  liner: 'Lined',
  detail: 'Details',
  assemble: 'Assembled',
}
