import type { Piece, Surface } from '#core/journal/journal'
import type { Method, StepKind } from '#core/journal/vocabulary'
import type { MaterialPlace } from '#core/materials/list-materials'
import {
  type MaterialPurpose,
  brightens,
  purposeOf,
} from '#core/materials/purpose'
import { decimalText, fractionOf } from '#core/money/fraction'
import type { Product } from '#core/shelf/product'
import type { Elapsed } from '#core/time/span'
import type { WallClock } from '#core/time/zone'
import { calendarDay } from '#core/time/moments'
import { minutesPerDay, minutesPerHour } from '#core/units'
import { englishChapters } from '#core/write-ups/english-chapters'
import {
  capitalised,
  closed,
  countOf,
  areParts,
  doneWords,
  indefiniteArticle,
  listOf,
  namesTogether,
  ordinalOf,
  pluralOf,
  pluralOfSurface,
} from '#core/write-ups/english-words'
import type {
  Appearance,
  Language,
  LookOf,
  Place,
  Side,
  Units,
} from '#core/write-ups/language'
import { centimetresText, inchesText } from '#core/write-ups/lengths'
import {
  amountLine,
  estimateArithmetic,
  needsLine,
  shownAmount,
} from '#core/write-ups/english-amounts'
import {
  betweenSteps,
  duringStep,
  refitting,
  stepAsWork,
} from '#core/write-ups/english-steps'
import { midSentence } from '#core/write-ups/english-mid-sentence'
import {
  englishMaterials,
  touchUpWords,
} from '#core/write-ups/english-materials'
import {
  labelledName,
  orElse,
  productAndPurpose,
  productName,
  productWords,
} from '#core/write-ups/english-products'
import { plainText } from '#core/write-ups/plain-text'
import {
  type Coating,
  type Layer,
  type Operation,
} from '#core/write-ups/surface-work'

const thing = 'piece'

/** By its kind while that tells it apart, else by the name the owner gave it. */
function labelOf(
  piece: Piece,
  pieces: readonly Piece[],
): { words: string; named: boolean } {
  const kind = midSentence(piece.kind)
  const alike = pieces.filter(
    (one) => midSentence(one.kind).toLowerCase() === kind.toLowerCase(),
  )
  if (kind !== '' && alike.length < 2) return { words: kind, named: false }
  const name = plainText(piece.name)
  return name === ''
    ? { words: kind === '' ? thing : kind, named: false }
    : { words: name, named: true }
}

function the(piece: Piece, pieces: readonly Piece[]): string {
  const { words, named } = labelOf(piece, pieces)
  // A name written small is a description: the large table, but Chair one.
  return named && !/^\p{Ll}/u.test(words) ? words : `the ${words}`
}

function head(piece: Piece, pieces: readonly Piece[]): string {
  return capitalised(labelOf(piece, pieces).words)
}

function surfaceNames(surfaces: readonly Surface[]): string {
  return listOf(surfaces.map(({ name }) => orElse(name, 'surface')))
}

/** The surfaces of several pieces by one name: the tops and legs; undefined where they differ, or there is one piece. */
function alikeNames(places: readonly Place[]): string | undefined {
  const [first, ...others] = places
  return first !== undefined &&
    others.length > 0 &&
    others.every(
      ({ surfaces }) => surfaceNames(surfaces) === surfaceNames(first.surfaces),
    )
    ? listOf(
        first.surfaces.map(({ name }) =>
          pluralOfSurface(orElse(name, 'surface')),
        ),
      )
    : undefined
}

/** "chairs 1, 2 and 4", "the sideboard and the bench" */
function thePieces(own: readonly Piece[], pieces: readonly Piece[]): string {
  return namesTogether(own.map((piece) => the(piece, pieces)))
}

/** "the body and doors of the sideboard and the body of the bench"; the piece goes without saying when there is one. */
function placesPhrase(
  places: readonly Place[],
  pieces: readonly Piece[],
): string {
  const alike = alikeNames(places)
  if (alike !== undefined) {
    return places.length === pieces.length
      ? `the ${alike}`
      : `the ${alike} of ${thePieces(
          places.map(({ piece }) => piece),
          pieces,
        )}`
  }
  return listOf(
    places.map(({ piece, surfaces }) =>
      pieces.length < 2
        ? `the ${surfaceNames(surfaces)}`
        : `the ${surfaceNames(surfaces)} of ${the(piece, pieces)}`,
    ),
  )
}

/** "Sideboard (body and doors) and bench (body)" */
function placesHead(
  places: readonly Place[],
  pieces: readonly Piece[],
): string {
  const alike = alikeNames(places)
  if (alike !== undefined) {
    return capitalised(
      places.length === pieces.length
        ? `${alike} (${pieces.length === 2 ? 'both' : `all ${countOf(pieces.length)}`})`
        : `${alike} of ${thePieces(
            places.map(({ piece }) => piece),
            pieces,
          )}`,
    )
  }
  return capitalised(
    pieces.length < 2
      ? listOf(places.map(({ surfaces }) => surfaceNames(surfaces)))
      : listOf(
          places.map(
            ({ piece, surfaces }) =>
              `${labelOf(piece, pieces).words} (${surfaceNames(surfaces)})`,
          ),
        ),
  )
}

const unsure =
  /^(unknown|unsure|uncertain|not|no|none|maybe|perhaps|possibly|probably|likely|looks|seems|appears|some)\b/i

const plainWords = /^[\p{L}'-]+( [\p{L}'-]+)?$/u
const coated = /^(painted|stained|varnished|lacquered|limed|waxed)\b/i

// Whoever puts a word into quotation marks is not sure of it.
const quoted = /(^|\s)['‘]/

/** Words where they can stand before the noun: one or two that do not doubt, or a few such in a row. */
function beforeNoun(typed: string, kind: string): string {
  // Oak veneer on a pine frame is oak veneer at a glance; what it is on is told as the material.
  const [told = ''] = midSentence(typed).split(/ (?:on|over|with) /)
  const parts = told.split(/\s*[,/]\s*(?:and )?| and /).map(midSentence)
  const said = plainText(kind).toLowerCase()
  return parts.length <= 3 &&
    parts.every(
      (part) =>
        plainWords.test(part) &&
        !unsure.test(part) &&
        !coated.test(part) &&
        !quoted.test(part) &&
        !said.includes(part.toLowerCase()),
    )
    ? `${listOf(parts)} `
    : ''
}

/** "mid-century oak " */
function adjectivesOf({ style = '', material = '', kind }: Piece): string {
  return beforeNoun(style, kind) + beforeNoun(material, kind)
}

/** "an oak veneer sideboard and two pine benches" */
function nouns(
  pieces: readonly Piece[],
  withMaterial: boolean,
  article: boolean,
): string {
  const counted = new Map<
    string,
    { count: number; before: string; kind: string }
  >()
  for (const piece of pieces) {
    const typed = midSentence(piece.kind)
    const kind = typed === '' ? thing : typed
    const before = withMaterial ? adjectivesOf(piece) : ''
    const key = `${before}${kind}`.toLowerCase()
    counted.set(key, {
      count: (counted.get(key)?.count ?? 0) + 1,
      before,
      kind,
    })
  }
  return listOf(
    [...counted.values()].map(({ count, before, kind }) => {
      if (count > 1) return `${countOf(count)} ${before}${pluralOf(kind)}`
      const words = `${before}${kind}`
      return article ? `${indefiniteArticle(words)} ${words}` : words
    }),
  )
}

function layerWords({ kind, sheen, finishedWith, ...layer }: Layer): string {
  const colour =
    layer.colour === undefined ? undefined : midSentence(layer.colour)
  const shine = sheen === undefined ? '' : ` in ${sheen}`
  switch (kind) {
    case 'clear':
      return `clear-coated${shine}`
    case 'lined':
      return finishedWith === undefined
        ? 'lined'
        : `lined with ${productWords({ name: finishedWith }, 'liner')}`
    case 'finished':
      if (finishedWith !== undefined)
        return `finished with ${labelledName(finishedWith)}${shine}`
      return colour === undefined ? 'finished' : `finished in ${colour}`
    case 'painted':
      return `${colour === undefined ? kind : `${kind} ${colour}`}${shine}`
    case 'primed':
    case 'stained':
    case 'glazed':
    case 'sealed':
    case 'waxed':
      return colour === undefined ? kind : `${kind} ${colour}`
  }
}

function lookWords(layers: readonly Layer[]): string {
  return listOf(layers.map(layerWords))
}

function othersWords(
  others: readonly LookOf[],
  pieces: readonly Piece[],
): string {
  const told = others.map(
    ({ places, layers }) =>
      `${placesPhrase(places, pieces)} ${lookWords(layers)}`,
  )
  // Each part has its own "and": a comma stands before the last as well.
  return told.length < 2
    ? told.join('')
    : `${told.slice(0, -1).join(', ')}, and ${told.at(-1) ?? ''}`
}

function appearanceWords(
  { main, others }: Appearance,
  pieces: readonly Piece[],
): string {
  const look = main === undefined ? '' : `, ${lookWords(main)}`
  const rest =
    others.length === 0 ? '' : `, with ${othersWords(others, pieces)}`
  return look + rest
}

const sideWords: Readonly<
  Record<Side, { adjective: string; question: string }>
> = {
  width: { adjective: 'wide', question: 'wide' },
  depth: { adjective: 'deep', question: 'deep' },
  height: { adjective: 'high', question: 'tall' },
}

function sidesOf(piece: Piece): readonly { side: Side; millimetres: number }[] {
  const sides = [
    ['width', piece.widthMillimetres],
    ['depth', piece.depthMillimetres],
    ['height', piece.heightMillimetres],
  ] as const
  return sides.flatMap(([side, millimetres]) =>
    millimetres !== undefined && millimetres > 0 ? [{ side, millimetres }] : [],
  )
}

function bothUnits(lengths: readonly number[], units: Units): string {
  const centimetres = `${lengths.map(centimetresText).join(' x ')} cm`
  const inches = `${lengths.map(inchesText).join(' x ')} in`
  return units === 'us'
    ? `${inches} (${centimetres})`
    : `${centimetres} (${inches})`
}

const sizeLegend = ', width x depth x height, at the widest'

function sizeWords(piece: Piece, units: Units): string {
  const sides = sidesOf(piece)
  return sides.length === 3
    ? `${bothUnits(
        sides.map((one) => one.millimetres),
        units,
      )}${sizeLegend}`
    : sides
        .map(
          ({ side, millimetres }) =>
            `${bothUnits([millimetres], units)} ${sideWords[side].adjective}`,
        )
        .join(', ')
}

function methodWords(method: Method | undefined): string {
  switch (method) {
    case 'brush':
      return 'brushed '
    case 'roller':
      return 'rolled '
    case 'pad':
      return 'pad-applied '
    case 'spray':
      return 'sprayed '
    case 'wipe':
      return 'wiped-on '
    case 'dip':
      return 'dipped '
    case 'hand':
      return 'hand-applied '
    case 'machine':
    case undefined:
      return ''
  }
}

function methodAlone(method: Method): string {
  switch (method) {
    case 'wipe':
      return 'wiped on'
    case 'pad':
      return 'applied with a pad'
    case 'hand':
      return 'by hand'
    case 'machine':
      return 'by machine'
    case 'brush':
    case 'roller':
    case 'spray':
    case 'dip':
      return methodWords(method).trim()
  }
}

const coatVerbs: Readonly<Partial<Record<MaterialPurpose, string>>> = {
  conditioner: 'conditioned',
  primer: 'primed',
  paint: 'painted',
  stain: 'stained',
  glaze: 'glazed',
  sealer: 'sealed',
  'clear coat': 'clear-coated',
  wax: 'waxed',
}

function coatVerb(coating: Coating): string {
  return (
    coatVerbs[purposeOf(coating.kind, coating.product?.category)] ?? 'finished'
  )
}

function gritsWords(grits: readonly number[]): string {
  return grits.length === 0
    ? ''
    : ` with ${listOf(grits.map((grit) => `P${grit}`))}`
}

/** "two sprayed coats of waterborne primer (grey), sanded between coats" */
function coatsWords(coating: Coating, full: boolean): string {
  const { coats, method, product } = coating
  const laid = `${countOf(coats)} ${methodWords(method)}${coats === 1 ? 'coat' : 'coats'}`
  const purpose = purposeOf(coating.kind, product?.category)
  const base = product ? `${laid} of ${productWords(product, purpose)}` : laid
  const asides = [
    ...(full && coating.thinningPercents.length > 0
      ? [thinnedWords(coating.thinningPercents)]
      : []),
    ...(coating.sandedBetween
      ? [`sanded between coats${full ? gritsWords(coating.gritsBetween) : ''}`]
      : []),
  ]
  return asides.length === 0 ? base : `${base}, ${asides.join(' and ')}`
}

function coatingWords(coating: Coating, full: boolean): string {
  const coats = coatsWords(coating, full)
  if (coating.product) return `${coatVerb(coating)} with ${coats}`
  const [laid = '', ...asides] = coats.split(', ')
  return [`${coatVerb(coating)} (${laid})`, ...asides].join(', ')
}

/** What was done, phrase by phrase; coats of two products that do the same are one phrase. */
function operationsWords(
  operations: readonly Operation[],
  isPart: boolean,
  full: boolean,
): readonly string[] {
  return operations.reduce<readonly string[]>((told, operation, index) => {
    const words = operationWords(operation, isPart, full)
    if (words === undefined) return told
    const before = operations[index - 1]
    const last = told.at(-1)
    return last !== undefined &&
      operation.type === 'coating' &&
      before?.type === 'coating' &&
      operation.product &&
      before.product &&
      coatVerb(operation) === coatVerb(before)
      ? [
          ...told.slice(0, -1),
          `${last}${last.includes(',') ? ', then with' : ' and'} ${coatsWords(operation, full)}`,
        ]
      : [...told, words]
  }, [])
}

function operationWords(
  operation: Operation,
  isPart: boolean,
  full: boolean,
): string | undefined {
  switch (operation.type) {
    case 'coating':
      return coatingWords(operation, full)
    case 'abrasion':
      return `${operation.kind === 'sand' ? 'sanded' : 'scuffed'}${full ? gritsWords(operation.grits) : ''}`
    case 'other':
      return otherWords(operation.kind, operation.product, isPart, full)
  }
}

function otherWords(
  kind: StepKind,
  product: Product | undefined,
  isPart: boolean,
  full: boolean,
): string | undefined {
  const purpose = purposeOf(kind, product?.category)
  const using = product ? ` with ${productWords(product, purpose)}` : ''
  switch (kind) {
    case 'clean':
      return full ? `cleaned${using}` : 'cleaned'
    case 'repair':
      return full ? `repaired${using}` : 'repaired'
    case 'strip':
      return full ? `stripped${using}` : 'stripped'
    case 'liner':
      return `lined${using}`
    case 'detail':
      return product ? `detailed${using}` : undefined
    case 'assemble':
      return isPart ? 'refitted' : 'put back together'
    case 'hardware':
      return hardwareWork(product, purpose, using)
    // All others have words of their own.
    case 'sand':
    case 'scuff':
    case 'condition':
    case 'prime':
    case 'coat':
    case 'stain':
    case 'glaze':
    case 'seal':
    case 'wax':
      return undefined
  }
}

/** What was done to hardware with a product that leaves no coat; taking it off says nothing to a reader. */
const hardwareWorks: Readonly<Partial<Record<MaterialPurpose, string>>> = {
  cleaner: 'cleaned',
  repair: 'repaired',
  stripper: 'stripped',
  abrasive: 'rubbed down',
}

const brightenedWords = { polish: 'polished', clean: 'cleaned' } as const

function hardwareWork(
  product: Product | undefined,
  purpose: MaterialPurpose,
  using: string,
): string | undefined {
  const done = product && brightens(product)
  const work = done ? brightenedWords[done] : hardwareWorks[purpose]
  return work && `${work}${using}`
}

function inOrder(phrases: readonly string[]): string {
  return phrases.length < 2
    ? (phrases[0] ?? '')
    : `${phrases.slice(0, -1).join(', ')}, then ${phrases.at(-1) ?? ''}`
}

function workLine(
  places: readonly Place[],
  pieces: readonly Piece[],
  operations: readonly Operation[],
  full: boolean,
): string | undefined {
  const isPart = areParts(
    places.flatMap(({ surfaces }) => surfaces.map(({ name }) => name)),
  )
  const phrases = operationsWords(operations, isPart, full)
  if (phrases.length === 0) return undefined
  const told = full ? phrases.join('; ') : inOrder(phrases)
  return closed(`${placesHead(places, pieces)}: ${told}`)
}

function thinnedWords(percents: readonly number[]): string {
  const parts = listOf(percents.map((one) => decimalText(fractionOf(one), 1)))
  return `thinned with ${parts} parts to 100`
}

function durationText(length: number): string {
  // Cut, not rounded: a wait is never told as longer than it was.
  const whole = Math.floor(length)
  const days = Math.floor(whole / minutesPerDay)
  const parts =
    days >= 2
      ? [
          [days, 'days'],
          [Math.floor((whole % minutesPerDay) / minutesPerHour), 'h'],
        ]
      : [
          [Math.floor(whole / minutesPerHour), 'h'],
          [whole % minutesPerHour, 'min'],
        ]
  const told = parts.filter(([count]) => count !== 0)
  return told.length === 0
    ? 'under 1 min'
    : told.map((part) => part.join(' ')).join(' ')
}

function elapsedText({ low, high }: Elapsed): string {
  const [least, most] = [
    durationText(Math.max(0, low)),
    durationText(Math.max(0, high)),
  ]
  return least === most ? least : `${least} to ${most}`
}

/** "Material of the bench"; of all pieces it is the material. */
function ofPieces(
  word: string,
  own: readonly Piece[],
  pieces: readonly Piece[],
): string {
  return own.length === pieces.length
    ? word
    : `${word} of ${thePieces(own, pieces)}`
}

/** "Sideboard (body and doors) and Bench (body)", "Chairs 1 to 6 (frame and seat)" */
function placeGroups<Own extends MaterialPlace>(
  places: readonly Own[],
  words: (own: readonly Own[]) => string = (own) =>
    surfaceNames(own.map(({ surface }) => surface)),
): string {
  const alike = new Map<string, string[]>()
  for (const id of new Set(places.map(({ piece }) => piece.id))) {
    const own = places.filter(({ piece }) => piece.id === id)
    const name = plainText(own[0]?.piece.name ?? '')
    const told = words(own)
    alike.set(told, [
      ...(alike.get(told) ?? []),
      name === '' ? capitalised(thing) : name,
    ])
  }
  return capitalised(
    listOf(
      [...alike].map(([told, names]) => `${namesTogether(names)} (${told})`),
    ),
  )
}

function coatCount(coats: number): string {
  return `${countOf(coats)} ${coats === 1 ? 'coat' : 'coats'}`
}

const disturbedWords = {
  strip: 'stripped',
  sand: 'sanded',
  scuff: 'scuffed',
} as const

function dayCount(days: number): string {
  return `${days} ${days === 1 ? 'day' : 'days'}`
}

/** "Cured by", or "Except for the hardware spray, cured by" */
function exceptWords(beginning: string, except: readonly string[]): string {
  return except.length === 0
    ? beginning
    : `Except for ${namesOf(except)}, ${beginning.toLowerCase()}`
}

/** "the label of the enamel gives 30 days to full cure"; where another coat was the last of all, with the day of this one. */
function curingTime(
  {
    product,
    days,
    laidOn,
  }: {
    readonly product: string
    readonly days: number
    readonly laidOn?: WallClock
  },
  units: Units,
): string {
  const name = labelledName(product)
  return laidOn === undefined
    ? `the label of the ${name} gives ${dayCount(days)} to full cure`
    : `the ${name}, last laid on ${calendarDay(laidOn, units)}, takes ${dayCount(days)} to full cure by its label`
}

/** Why the day is after the one that the label alone gives. */
const laterWords = {
  air: ', and the air in the workshop made it longer',
  photos: ', counted from the latest day that photos of that coat leave open',
}

/** What a buyer does where a label gives no time to full cure; empty, or begins with a space. */
function untoldWords(except: readonly string[]): string {
  return except.length === 0
    ? ''
    : ` For ${namesOf(except)} no time to full cure is noted: handle gently what ${except.length === 1 ? 'it is' : 'they are'} on.`
}

function namesOf(products: readonly string[]): string {
  return listOf(products.map((name) => `the ${labelledName(name)}`))
}

/** ", front view", ", from above", ", hardware"; nothing where the view is called as the piece itself is. */
function viewWords(view: string | undefined, pieces: readonly Piece[]): string {
  const shown = midSentence(
    plainText((view ?? '').replace(/[-_]/g, ' ')).replace(
      /three quarter/i,
      'three-quarter',
    ),
  )
  if (shown === 'top') return ', from above'
  if (
    pieces.some(({ name, kind }) =>
      [name, kind].map(midSentence).includes(shown),
    )
  )
    return ''
  // What is looked at, and not from where.
  if (/^(hardware|inside|interior|details?|underside)$/.test(shown))
    return `, ${shown}`
  return shown === '' ? '' : `, ${shown} view`
}

/** What says something stands for itself: "the family bought it new" is nothing to go by, "the way its joints are made" is. */
const tellsItself =
  /^(it|they|he|she|we|i|(its|my|our|the) [\w-]+) (is|are|has|have|came|comes)\b|\b(bought|dated|gave|given|got|had|inherited|knew|knows|remember(ed|s)?|said|says|sold|tells|told|was|were)\b/i

/** English, as it is written in Britain; dates follow the units. */
export const english: Language = {
  title: ({ pieces, colours, colour, main, widest }, units) => {
    const alike = pieces.filter(
      ({ kind }) =>
        midSentence(kind).toLowerCase() ===
        midSentence(widest?.kind ?? '').toLowerCase(),
    )
    const isAsWide = ({ widthMillimetres }: Piece) =>
      widthMillimetres === widest?.widthMillimetres
    const isEach = pieces.every(isAsWide)
    const isEachOfKind = alike.length > 1 && alike.every(isAsWide)
    const widestName = widest === undefined ? '' : labelOf(widest, pieces).words
    const look =
      colours.length > 0
        ? listOf(colours.map(midSentence))
        : main && main.length > 0
          ? lookWords(main)
          : undefined
    const one =
      colour !== undefined
        ? midSentence(colour)
        : colours.length === 0
          ? look
          : undefined
    const width = widest?.widthMillimetres
    const size =
      widest === undefined ||
      width === undefined ||
      // The widest of several of a kind is only known where all were measured.
      alike.some((piece) => !((piece.widthMillimetres ?? 0) > 0))
        ? undefined
        : `${pieces.length < 2 ? '' : isEach ? 'each ' : isEachOfKind ? `each ${midSentence(widest.kind)} ` : `${widestName.replace(/(\d)$/, '$1:')} `}${
            units === 'us'
              ? `${inchesText(width)} in`
              : `${centimetresText(width)} cm`
          } wide`
    const full = capitalised(nouns(pieces, true, false))
    const short = capitalised(nouns(pieces, false, false))
    const join = (...parts: readonly (string | undefined)[]) =>
      parts.filter((part) => part !== undefined).join(', ')
    return [
      join(full, look, size),
      join(full, one, size),
      join(full, look),
      join(full, one),
      join(short, look, size),
      join(short, one, size),
      join(short, one),
      short,
      // Where there is hardly any room a chest of drawers is a chest, and a filing cabinet a cabinet.
      pieces.length < 2
        ? capitalised(
            /^(.*?)(?: (?:of|for|on|with) |$)/
              .exec(short)?.[1]
              ?.split(' ')
              .at(-1) ?? short,
          )
        : `${pieces.length} pieces`,
    ]
  },
  summary: (pieces, appearance) =>
    closed(
      capitalised(nouns(pieces, true, true)) +
        appearanceWords(appearance, pieces),
    ),
  size: (own, pieces, units) => {
    const [piece] = own
    if (piece === undefined) return ''
    const of =
      pieces.length < 2
        ? 'Size'
        : own.length === pieces.length
          ? 'Size of each'
          : `${capitalised(namesTogether(own.map((one) => labelOf(one, pieces).words)))}${own.length < 2 ? '' : ', each'}`
    return closed(`${of}: ${sizeWords(piece, units)}`)
  },
  sizeBriefly: (own, pieces, units) =>
    english.size(own, pieces, units).replace(sizeLegend, ''),
  material: (words, own, pieces) =>
    closed(`${ofPieces('Material', own, pieces)}: ${midSentence(words)}`),
  doneHeading: 'What was done',
  done: (places, pieces, operations) =>
    workLine(places, pieces, operations, false),
  style: (words, own, pieces) =>
    closed(`${ofPieces('Style', own, pieces)}: ${midSentence(words)}`),
  age: (age, knownBy, own, pieces) => {
    const by = midSentence(knownBy).replace(/[.\s]+$/, '')
    const told = /^(by|from|as|because|since|going|according)\b/i.test(by)
      ? `, ${by}`
      : tellsItself.test(by)
        ? ` (${by})`
        : `, going by ${by}`
    return `${ofPieces('Age', own, pieces)}: ${midSentence(age).replace(/[.\s]+$/, '')}${by === '' ? '' : told}.`
  },
  hardware: (words, own, pieces) =>
    closed(`${ofPieces('Hardware', own, pieces)}: ${midSentence(words)}`),
  liner: (liner, own, pieces) =>
    `${ofPieces('Drawer lining', own, pieces)}: ${
      liner === 'removable' ? 'can be taken out' : 'fixed for good'
    }.`,
  conditionHeading: 'Condition',
  flaw: (words, photos, piece, pieces) => {
    const flaw = midSentence(words).replace(/[.\s]+$/, '')
    const told =
      pieces.length < 2 || piece === undefined
        ? capitalised(flaw)
        : `${head(piece, pieces)}: ${flaw}`
    return photos.length === 0
      ? closed(told)
      : `${told} (${photos.length === 1 ? 'photo' : 'photos'} ${listOf(photos.map(String))}).`
  },
  flawless: (own, pieces) =>
    own.length === pieces.length
      ? 'No marks, repairs or smells noted.'
      : `${capitalised(namesTogether(own.map((piece) => labelOf(piece, pieces).words)))}: no marks, repairs or smells noted.`,
  flawsBriefly: (count) =>
    `${capitalised(countOf(count))} ${count === 1 ? 'flaw' : 'flaws'} to know of: please ask.`,
  lastCoat: (day, doubtful, units) =>
    `Last coat: ${calendarDay(day, units)}${
      doubtful ? ', by a camera whose clock has not been checked' : ''
    }.`,
  curing: ({ day, doubtful, except, ...told }, units) =>
    `${exceptWords('Cured by', except)} ${calendarDay(day, units)}${doubtful ? ' if that clock is right' : ''}: ${curingTime(told, units)}${
      told.laterBy === undefined ? '' : laterWords[told.laterBy]
    }. Until then handle gently, and do not wash the finish, cover it, or put hot or heavy things on it.${untoldWords(except)}`,
  curingBriefly: ({ day, doubtful, except }, units) =>
    `${exceptWords('Cured by', except)} ${calendarDay(day, units)}${doubtful ? ' if that clock is right' : ''}: handle gently${except.length === 0 ? ' until then' : ''}.`,
  cured: ({ day, except, ...told }, units) =>
    `${exceptWords('Cured since', except)} ${calendarDay(day, units)}: ${curingTime(told, units)}.${untoldWords(except)}`,
  cureUnknown:
    'The time to full cure is not noted here: handle gently, and ask before you wash the finish or put hot or heavy things on it.',
  cureUnknownBriefly:
    'The time to full cure is not noted: handle gently, and ask.',
  care: {
    now: (isHeaded) =>
      `${isHeaded ? 'Use' : 'To clean, use'} a soft damp cloth and mild soap, and dry at once; no ammonia, bleach, abrasives or silicone polish.`,
    afterCure:
      'Once cured, clean with a soft damp cloth and mild soap, and dry at once; no ammonia, bleach, abrasives or silicone polish.',
    wax: 'Where it is waxed, dust with a soft dry cloth and leave out the soap.',
    waxAlone: (isHeaded) =>
      `${isHeaded ? 'Dust' : 'To clean, dust'} with a soft dry cloth; no soap, ammonia, bleach, abrasives or silicone polish.`,
    use: (top) =>
      top
        ? 'Use coasters and felt pads, and keep out of direct sun and away from heaters.'
        : 'Keep out of direct sun and away from heaters.',
  },
  leadUntested: ({ by, aged, ageless, pieces }) => {
    const was = listOf(by.map((kind) => disturbedWords[kind]))
    const noted =
      ageless.length === 0
        ? 'no lead test is noted'
        : aged.length > 0
          ? `no lead test is noted, nor the age of ${thePieces(ageless, pieces)}`
          : `neither the age of ${thePieces(ageless, pieces)} nor a lead test is noted`
    return `${was === '' ? capitalised(noted) : `The old surface was ${was}; ${noted}`}. Finishes from before 1978 (US) or 1992 (UK) may contain lead: have what is left tested before you sand, scrape or strip it, and before a child uses the furniture.`
  },
  leadUntestedBriefly: [
    'The old finish may contain lead; no test is noted. Have it tested before you sand or strip it, and before a child uses the furniture.',
    'May contain lead, no test noted: have it tested before you sand it or a child uses it.',
    'May contain lead: test before sanding.',
  ],
  leadNotedBriefly: (bySwab) => [
    ...(bySwab
      ? ['A lead swab was used, which is only a screen: ask for the result.']
      : []),
    'Tested for lead: ask for the result.',
  ],
  leadNoted: (note) =>
    `Noted during the work: "${plainText(note)
      .replace(/"/g, "'")
      .replace(/[.\s]+$/, '')}".`,
  leadScreen: 'A swab test is only a screen; a laboratory test decides.',
  tipOver: (tall, pieces) =>
    `Furniture with drawers or doors can tip over: fix ${thePieces(tall, pieces)} to the wall with ${tall.length === 1 ? 'an anchor' : 'anchors'}, and keep heavy things low.`,
  tipOverBriefly: (tall, pieces) => [
    `${capitalised(thePieces(tall, pieces))} can tip over: fix ${tall.length === 1 ? 'it' : 'them'} to the wall.`,
    'Can tip over: fix to the wall.',
  ],
  price: (money) => (money === undefined ? 'Price: free.' : `Price: ${money}.`),
  sold: 'Sold.',
  tag: { givenAway: 'Free', sold: 'Sold' },
  collection: (words) => {
    const text = plainText(words)
    return closed(
      /^(collect|pick|deliver)/i.test(text)
        ? capitalised(text)
        : `Collection: ${midSentence(text)}`,
    )
  },
  keywords: ({ pieces, colours }) => {
    const kindsWith = (isSo: (told: (typeof pieces)[number]) => boolean) => [
      ...new Set(
        pieces.filter(isSo).map(({ piece }) => orElse(piece.kind, thing)),
      ),
    ]
    const looks = (['painted', 'stained', 'waxed'] as const).filter((look) =>
      pieces.some(({ layers }) => layers.some(({ kind }) => kind === look)),
    )
    return [
      ...pieces.flatMap(({ piece: { style = '', material = '', kind } }) => [
        beforeNoun(material, kind) + orElse(kind, thing),
        beforeNoun(style, kind) + orElse(kind, thing),
      ]),
      ...looks.flatMap((look) =>
        kindsWith(({ layers }) => layers.some(({ kind }) => kind === look)).map(
          (kind) => `${look} ${kind}`,
        ),
      ),
      ...colours.flatMap((colour) =>
        kindsWith((told) => told.colours.includes(colour)).map(
          (kind) => `${colour} ${kind}`,
        ),
      ),
      ...kindsWith(() => true),
    ]
  },
  keywordLine: (keywords) => `Keywords: ${keywords.join(', ')}.`,
  ask: {
    flawPhoto: (flaw) =>
      `Which photo shows this flaw: ${midSentence(flaw).replace(/[.\s]+$/, '')}?`,
    age: (piece, pieces) =>
      `How old is ${the(piece, pieces)}, as far as you know?`,
    ageKnownBy: (piece, pieces) =>
      `What tells the age of ${the(piece, pieces)}?`,
    liner: (piece, pieces) =>
      `Can the lining of ${the(piece, pieces)} be taken out again?`,
    client: 'Whom is this report for?',
    sheen: (product) =>
      `What sheen is "${productName(product)}"? Write it in the product's name, after a comma.`,
    clock: (cameras) =>
      `Is the clock of ${listOf(cameras.map((name) => plainText(name) || 'the camera'))} right? The dates of the coats hang on it.`,
    side: (side, piece, pieces) =>
      `How ${sideWords[side].question} is ${the(piece, pieces)}?`,
    material: (piece, pieces) =>
      `What is ${the(piece, pieces)} made of, as far as you can tell?`,
    flaws: (piece, pieces) =>
      `Which marks, repairs or smells must a buyer of ${the(piece, pieces)} know about? If there are none, say so.`,
    colour: (product) =>
      `What colour is "${productName(product)}"? Write it after a comma in the product's name.`,
    cureDays: (product) =>
      `How many days to full cure does the label of "${productName(product)}" give?`,
    lastCoat: 'When did the last coat go on?',
    work: (piece, pieces) => `What was done to ${the(piece, pieces)}?`,
    hardware: (piece, pieces) =>
      `Is the hardware of ${the(piece, pieces)} its own, cleaned, or new?`,
    repair: (piece, pieces) =>
      `What was repaired on ${the(piece, pieces)}? Add it to what a buyer must be told.`,
    lead: 'Was the old finish tested for lead? Note the test and its result on the step.',
    soundness: (place, pieces) =>
      `A coat on ${placesPhrase([place], pieces)} went on too soon: is the finish sound? The listing does not say so.`,
    child: (piece, pieces) =>
      `Have you checked ${the(piece, pieces)} against today's child safety rules and recalls? Some may not be sold at all.`,
    price: 'What do you ask for it?',
    collection: 'Where and how can a buyer collect it?',
    finished:
      'Is the job finished? The listing tells only what is written down so far.',
  },
  video: {
    disclosure: 'Ad: I may earn a commission from links marked (ad).',
    paidMark: '(ad)',
    work: (done) => {
      // Where no more than parts were put back, the piece was never apart.
      const isRefit = areParts(
        done.flatMap(({ operation, on }) =>
          operation.kind === 'assemble' ? [on] : [],
        ),
      )
      // Kinds of work, not what became of the pieces: not each was done to each.
      const kinds = done.flatMap(({ operation: one }) => {
        if (one.kind === 'hardware') return []
        if (one.kind === 'assemble' && isRefit) return [refitting]
        if (one.type === 'coating')
          return stepAsWork(
            one.kind,
            purposeOf(one.kind, one.product?.category),
          )
        if (one.type === 'other' && one.kind === 'detail' && !one.product)
          return []
        return stepAsWork(one.kind)
      })
      const isHardwareCoated = done.some(
        ({ operation: { kind, type } }) =>
          kind === 'hardware' && type === 'coating',
      )
      const told = [
        ...new Set(kinds),
        ...(isHardwareCoated ? ['a new finish for the hardware'] : []),
      ]
      return told.length === 0
        ? undefined
        : closed(`Work done: ${listOf(told)}`)
    },
    materialsHeading: 'Materials, in order of use',
    material: (number, material, paid, units) => {
      const { product, purposes, link } = material
      const used = shownAmount(material, units)
      const amount = used === '' ? '' : `, ${used}`
      const address =
        link === null
          ? ''
          : `: ${plainText(link)}${paid ? ` ${english.video.paidMark}` : ''}`
      return `${number}. ${productAndPurpose(product.name, purposes)}${amount}${address}`
    },
    methodsHeading: 'How',
    method: (places, pieces, operations) =>
      workLine(places, pieces, operations, true),
    waitsHeading: 'Waits, as they were',
    wait: ({ places, pieces, elapsed, from, to, shortOf }) => {
      const short =
        shortOf === undefined
          ? ''
          : shortOf.by === 'label'
            ? `; the label asks for at least ${durationText(Math.ceil(shortOf.minutes))}`
            : `; in the air that day it needed at least ${durationText(Math.ceil(shortOf.minutes))}`
      return closed(
        `${placesHead(places, pieces)}, ${betweenSteps(from, to)}: ${elapsedText(elapsed)}${short}`,
      )
    },
    safetyHeading: 'Safety',
    linksHeading: 'The workshop',
    link: (label, address) => {
      const name = plainText(label)
      return `${name === '' ? '' : `${name}: `}${plainText(address)}`
    },
    stripper:
      'Stripper burns skin and eyes: wear gloves and goggles, keep the air moving, never mix products, and use none with methylene chloride.',
    oldFinish:
      'Old finishes may contain lead (before 1978 in the US, 1992 in the UK): test before you sand, scrape, heat or strip.',
    spraying:
      'Spraying: wear a fitted respirator made for the product (a dust mask does not stop vapour), ventilate, and keep flames and sparks away.',
    oilyRags:
      'Rags wet with oil or oil stain can catch fire by themselves: lay them flat outdoors to dry, or put them under water in a lidded metal can.',
    dust: 'Sanding dust harms the lungs: extract it at the tool and wear a mask.',
    authority:
      'Follow each product label, its safety data sheet and local rules.',
  },
  careCard: {
    title: (pieces) =>
      pieces.length === 0
        ? 'Care card'
        : `Care card: ${nouns(pieces, false, false)}`,
    finishHeading: 'What is on it',
    cleanHeading: 'How to clean it',
    touchUpHeading: 'How to touch it up',
    touchUp: (places, pieces, layers) =>
      closed(`${placesHead(places, pieces)}: ${touchUpWords(layers)}`),
    touchUpHow:
      'Once cured, clean the spot, and try the same product where it does not show: a new patch may shine differently. Scuff paint and clear coats lightly first.',
    cautionHeading: 'Please note',
    maker: (workshop) => closed(`Refinished by ${plainText(workshop)}`),
    page: (address) => `More of it: ${plainText(address)}`,
    madeAt: (address) => `How it was made: ${address}`,
    codeOf: (address) => `QR code of ${address}`,
  },
  report: {
    title: (job) =>
      plainText(job) === '' ? 'Job report' : `Job report: ${plainText(job)}`,
    client: (client) => closed(`For ${midSentence(client)}`),
    brief: (brief) => closed(`Agreed: ${midSentence(brief)}`),
    dates: (from, to, doubtful, units) => {
      const [first, last] = [calendarDay(from, units), calendarDay(to, units)]
      const when = first === last ? first : `from ${first} to ${last}`
      return `Worked on ${when}${doubtful ? ', by a camera whose clock has not been checked' : ''}.`
    },
    materialsHeading: 'What was used, in order',
  },
  photo: ({ pieces, surfaces, all, role, view, flaw, step, appearance }) => {
    const whole = capitalised(
      listOf(pieces.map((piece) => labelOf(piece, all).words)),
    )
    const detail = capitalised(
      listOf(
        surfaces.map(
          (piece) => `${surfaceNames(piece.surfaces)} of ${the(piece, all)}`,
        ),
      ),
    )
    const what = detail === '' ? whole : detail
    const from = viewWords(view, pieces)
    const words = flaw === undefined ? '' : plainText(flaw)
    if (words !== '') {
      return [
        closed(`${what}, a flaw: ${midSentence(words)}`),
        closed(`A flaw: ${midSentence(words)}`),
        closed(`${whole}, a flaw`),
      ]
    }
    const during = step === undefined ? undefined : `during ${duringStep(step)}`
    const told =
      role === 'before'
        ? 'before the work'
        : role === 'progress'
          ? (during ?? 'during the work')
          : 'after the work'
    const short = [
      closed(`${what}${from}, ${told}`),
      closed(`${whole}, ${told}`),
    ]
    const main = appearance.main === undefined ? '' : lookWords(appearance.main)
    const rest = othersWords(appearance.others, pieces)
    if (role !== 'after' || (main === '' && rest === '')) return short
    return [
      ...(main !== '' && rest !== ''
        ? [closed(`${what}${from}, ${told}: ${main}, with ${rest}`)]
        : []),
      closed(
        `${what}${from}, ${told}: ${main === '' ? rest : main + (rest === '' ? '' : ' for the most part')}`,
      ),
      ...short,
    ]
  },
  chapters: englishChapters,
  pair: ({ pieces, all, view, appearance }) => {
    const what = capitalised(
      listOf(pieces.map((piece) => labelOf(piece, all).words)),
    )
    const from = viewWords(view, pieces)
    const main = appearance.main === undefined ? '' : lookWords(appearance.main)
    const rest = othersWords(
      appearance.others,
      pieces.length < 2 ? pieces : all,
    )
    const start = `${what}${from}, before and after`
    return [
      ...(main !== '' && rest !== ''
        ? [`${start}: as found, then ${main}, with ${rest}.`]
        : []),
      ...(main === '' && rest !== ''
        ? [`${start}: as found, then with ${rest}.`]
        : []),
      ...(main === ''
        ? []
        : [`${start}: as found, then ${rest === '' ? '' : 'mostly '}${main}.`]),
      `${start}.`,
      `${what}, before and after.`,
    ]
  },
  sheet: {
    before: 'Before',
    after: 'After',
    finish: ({ main, others }, pieces) => {
      const look = main === undefined ? '' : lookWords(main)
      const rest = othersWords(others, pieces)
      const all =
        look === '' || rest === '' ? look + rest : `${look}, with ${rest}`
      return [...new Set([all, look])]
        .filter((words) => words !== '')
        .map(capitalised)
    },
    size: (pieces, units) => {
      const measured = pieces.filter((piece) => sidesOf(piece).length > 0)
      return measured
        .map((piece) => {
          const sides = sidesOf(piece)
          const words =
            sides.length === 3
              ? bothUnits(
                  sides.map((one) => one.millimetres),
                  units,
                )
              : sizeWords(piece, units)
          return measured.length < 2 ? words : `${head(piece, pieces)} ${words}`
        })
        .join('; ')
    },
    step: (kind, coat) =>
      coat === undefined || coat < 2
        ? doneWords[kind]
        : `${doneWords[kind]}, ${ordinalOf(coat)} coat`,
    finishHead: 'Finish',
    sizeHead: 'Size',
    priceHead: 'Price',
  },
  materials: {
    title: (job) =>
      plainText(job) === '' ? 'Materials' : `Materials: ${plainText(job)}`,
    none: 'No products are written down for this job.',
    heading: (number, { product, purposes }) =>
      `${number}. ${productAndPurpose(product.name, purposes)}`,
    places: ({ places }) => {
      const counts = new Set(places.map(({ coats }) => coats))
      const [first = null] = counts
      if (counts.size > 1) {
        return placeGroups(places, (own) =>
          own
            .map(
              ({ surface, coats }) =>
                `${orElse(surface.name, 'surface')}${coats === null ? '' : `, ${coatCount(coats)}`}`,
            )
            .join('; '),
        )
      }
      return first === null
        ? placeGroups(places)
        : `${placeGroups(places)}, ${coatCount(first)}${places.length > 1 ? ' each' : ''}`
    },
    how: ({ methods, thinningPercents, grits }) => {
      const told = [
        ...(methods.length === 0 ? [] : [listOf(methods.map(methodAlone))]),
        ...(thinningPercents.length === 0
          ? []
          : [thinnedWords(thinningPercents)]),
        ...(grits.length === 0
          ? []
          : [listOf(grits.map((grit) => `P${grit}`))]),
      ]
      return told.length === 0 ? undefined : capitalised(told.join(', '))
    },
    amount: amountLine,
    shownAmount: (material, units) => capitalised(shownAmount(material, units)),
    estimates: ({ estimate }, units) =>
      (estimate?.uses ?? []).map((use) => estimateArithmetic(use, units)),
    needs: needsLine,
    cost: (money, complete) =>
      complete ? money : `${money} for what was measured`,
    sandedHeading: 'Sanding',
    sanded: ({ places, steps }) =>
      `${placeGroups(places)}: ${steps
        .map(
          ({ kind, grit }) =>
            `${kind === 'sand' ? 'sanded' : 'scuffed'}${grit === null ? '' : ` P${grit}`}`,
        )
        .join(', ')}`,
    total: (money, complete) =>
      `Cost of what was used: ${money}${complete ? '' : ', without what has no amount or price'}`,
    ...englishMaterials,
  },
}
