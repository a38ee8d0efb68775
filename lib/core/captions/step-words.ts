import { numberAt } from '#core/captions/spoken-numbers'
import type { SpokenWord } from '#core/captions/spoken-words'
import { plainHues, plainHueShare } from '#core/captions/plain-hues'
import { stem } from '#core/captions/stem'
import { tradePhrases } from '#core/captions/trade-words'
import type { Journal, Step } from '#core/journal/journal'

/** What tells one step of a journal from another when it is spoken of. All words are stems. */
export type StepWords = {
  readonly step: Step
  readonly coat?: number
  /** Its number among the coats of its product, where that differs: varnish over a coat of shellac begins at one again. */
  readonly coatOfProduct?: number
  /** Whether it is the last numbered coat of its kind. */
  readonly lastCoat: boolean
  /** Coat numbers of its kind in this journal. */
  readonly coats: readonly number[]
  /** Of the product's name, those that say more than its kind, with how few products share each: 0 to 1. */
  readonly product: ReadonlyMap<string, number>
  /** Of its surfaces and pieces, those that not all steps share. */
  readonly places: ReadonlySet<string>
  /** Of surfaces and pieces that it is not on. */
  readonly otherPlaces: ReadonlySet<string>
  readonly grits: readonly number[]
  /** Whether the step before it differs in places alone, so that only they can tell it apart. */
  readonly again: boolean
}

// The names of surfaces as they are spoken; common practice, no source.
const placeWords: Readonly<Record<string, string>> = {
  body: 'body frame carcass carcase case cabinet base outside exterior bottom',
  top: 'top tabletop worktop lid',
  doors: 'door',
  'drawer fronts': 'drawer front',
  legs: 'leg foot spindle rail',
  base: 'base bottom leg',
  frame: 'frame leg rail',
  shelves: 'shelf',
  shelf: 'shelf',
  interior: 'inside interior shelf',
  drawers: 'drawer',
  hardware: 'hardware handle knob',
}
const idle = new Set(
  'a an and the of for in on with to water waterborn waterbas bas oil base based piece wood deep light dark pale clear coat paint small large old'
    .split(' ')
    .concat(['new', 'our', 'my']),
)

/** The words of each step, in the order given. */
export function stepWords(
  steps: readonly Step[],
  { pieces, products }: Pick<Journal, 'pieces' | 'products'>,
): readonly StepWords[] {
  const ofProduct = new Map(
    products.map((product) => [product.id, productWords(product.name)]),
  )
  const shared = (word: string) =>
    [...ofProduct.values()].filter((words) => words.has(word)).length
  const onSurface = new Map(
    pieces.flatMap((piece) => {
      const own =
        pieces.length > 1
          ? [...stemsOf(piece.name), ...stemsOf(piece.kind)]
          : []
      return piece.surfaces.map(
        ({ id, name }) =>
          [
            id,
            new Set([
              ...stemsOf(placeWords[name.toLowerCase()] ?? name),
              ...own,
            ]),
          ] as const,
      )
    }),
  )
  const placesOf = (step: Step) =>
    new Set(
      step.surfaces.flatMap(({ surfaceId }) => [
        ...(onSurface.get(surfaceId) ?? []),
      ]),
    )
  const all = steps.map(placesOf)
  const everywhere = [...(all[0] ?? [])].filter((word) =>
    all.every((words) => words.has(word)),
  )
  const anywhere = new Set(all.flatMap((words) => [...words]))
  return steps.map((step, index) => {
    const places = new Set(
      [...(all[index] ?? [])].filter((word) => !everywhere.includes(word)),
    )
    const coat = step.surfaces.find((on) => on.coat !== undefined)?.coat
    const coats = steps
      .filter((one) => one.kind === step.kind)
      .flatMap((one) => one.surfaces.flatMap((on) => on.coat ?? []))
    const before = steps[index - 1]
    const first = Math.min(
      ...steps
        .filter(
          (one) => one.kind === step.kind && one.productId === step.productId,
        )
        .flatMap((one) => one.surfaces.flatMap((on) => on.coat ?? [])),
    )
    return {
      step,
      ...(coat !== undefined && { coat }),
      ...(coat !== undefined &&
        first > 1 && { coatOfProduct: coat - first + 1 }),
      coats: [...new Set(coats)],
      lastCoat: coat !== undefined && coat > 1 && coat === Math.max(...coats),
      product: new Map(
        [...(ofProduct.get(step.productId ?? '') ?? [])].map(
          ([word, weight]) => [word, weight / Math.max(1, shared(word))],
        ),
      ),
      places,
      otherPlaces: new Set(
        [...anywhere].filter(
          (word) => !places.has(word) && !everywhere.includes(word),
        ),
      ),
      grits: [
        ...(step.grit === undefined ? [] : [step.grit]),
        ...gritsIn(step.note ?? ''),
      ],
      again: before !== undefined && isSameWork(before, step),
    }
  })
}

/** What the words of a product's name, and the plain names of its colour, say for it: 0 to 1. */
function productWords(name: string): ReadonlyMap<string, number> {
  const own = stemsOf(name)
  return new Map([
    ...plainHues(own).map((word) => [word, plainHueShare] as const),
    ...[...own]
      .filter((word) => !idle.has(word))
      .map((word) => [word, isTradeWord(word) ? 0.4 : 1] as const),
  ])
}

function isTradeWord(word: string): boolean {
  return (tradePhrases.get(word) ?? []).some(({ words }) => words.length === 1)
}

function stemsOf(text: string): ReadonlySet<string> {
  return new Set(
    text
      .toLowerCase()
      .split(/[^\p{L}\p{N}]+/u)
      .filter((word) => word.length > 2)
      .map(stem),
  )
}

function gritsIn(note: string): readonly number[] {
  return [...note.matchAll(/\bP(\d{2,4})\b/g)].map(([, grit]) => Number(grit))
}

function isSameWork(one: Step, other: Step): boolean {
  const coat = (step: Step) => step.surfaces.find((on) => on.coat)?.coat
  return (
    one.kind === other.kind &&
    one.productId === other.productId &&
    one.grit === other.grit &&
    coat(one) === coat(other)
  )
}

/** The grades of abrasives that are sold. Source: ISO 6344 (FEPA P), the grades that wood takes. */
export const grades: ReadonlySet<number> = new Set([
  24, 36, 40, 50, 60, 80, 100, 120, 150, 180, 220, 240, 280, 320, 360, 400, 500,
  600, 800, 1000, 1200, 1500, 2000,
])

/** A grit that is spoken of, with the index of its word. */
export type SpokenGrit = { readonly grit: number; readonly index: number }

/**
 * Grits that are spoken of between two words: a grade of abrasive close to a word of sanding, or one that the journal
 * knows of.
 */
export function spokenGrits(
  words: readonly SpokenWord[],
  first: number,
  last: number,
  known: readonly number[] = [],
): readonly SpokenGrit[] {
  const from = Math.max(0, first - 12)
  const texts = words.slice(from, last + 12).map((word) => word.text)
  const found: SpokenGrit[] = []
  for (let i = 0; i < texts.length; i += 1) {
    const number = numberAt(texts, i)
    if (number === undefined) continue
    const index = from + i
    const near = texts
      .slice(Math.max(0, i - 10), i + number.words + 8)
      .join(' ')
    const next = texts[i + number.words] ?? ''
    const isGrit =
      grades.has(number.value) &&
      !/^(?:minutes?|mins?|hours?|days?|seconds?|percent|pounds?|dollars?|quid|years?|degrees|inch(?:es)?|coats?|ml|times)$/.test(
        next,
      ) &&
      (/^p\d/.test(texts[i] ?? '') ||
        known.includes(number.value) ||
        /\b(?:grit|grits|sandpaper|paper|sand|sanded|sanding|sander|disc|disk|pad|block|scuff|scuffed|scuffing)\b/.test(
          near,
        ))
    if (isGrit && index >= first && index < last) {
      found.push({ grit: number.value, index })
    }
    i += number.words - 1
  }
  return found
}
