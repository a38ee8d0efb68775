import type { Mention } from '#core/captions/find-mentions'
import type { StepWords } from '#core/captions/step-words'

// Weights in units of a step's own name said while it is done. Common practice, no source: set by hand on transcripts of
// our own.

/** Of beginning a step at all: less than this is no beginning. */
export const enterCost = 2.1
/** Of beginning a step that only its place tells from the one before. */
export const coatAgainCost = 2.5
/** Of beginning a further coat where nothing says that it is one. */
const unsaidCoatCost = 1.2
const bonus = {
  coat: 1.5,
  coatAgain: 0.8,
  grit: 1.2,
  place: 0.5,
  product: 0.7,
} as const
/** What a product's own word says for a beginning where nothing else does. */
const productAlone = 1.3
/** What naming its place says for a beginning where nothing else does: "the drawers were the next concern". */
const placeNamed = 0.3
/** How much an utterance can say for a step at most. */
const mostSaid = 2.2

/** What one utterance says for being in a step, and for its beginning. */
export type Evidence = { readonly said: number; readonly begins: number }

/** What one utterance says for one of the steps. */
export function stepEvidence(
  step: StepWords,
  steps: readonly StepWords[],
  mentions: readonly Mention[],
  stems: ReadonlySet<string>,
  focus: ReadonlySet<string>,
  grits: readonly number[],
): Evidence {
  const { kind } = step.step
  const isAbrasion = kind === 'sand' || kind === 'scuff'
  // A grit is a word of sanding by itself: "then one eighty".
  let said = isAbrasion && grits.length > 0 ? 0.5 : 0
  let begins = said * 1.7
  let coat = 0
  for (const mention of mentions) {
    const weight = mention.kinds[kind] ?? 0
    if (weight === 0) continue
    const { doing } = mention
    said += weight * (doing >= 0.5 ? 0.5 + doing / 2 : doing * doing)
    // Less is said for a beginning by a second mention in the same breath.
    begins = Math.max(begins, weight * doing * 1.7) + weight * doing * 0.25
    coat +=
      weight > 0.3 && doing > 0.3
        ? coatAgreement(step, mention) * Math.min(1, weight / 0.8)
        : 0
  }
  const product = Math.min(
    1,
    [...step.product].reduce(
      (sum, [word, rarity]) => sum + (stems.has(word) ? rarity : 0),
      0,
    ),
  )
  // A product's own word says what is done with it: "here comes the blue".
  if (begins < productAlone && product >= 0.7) begins = product * productAlone
  const own = [...step.places].some((word) => focus.has(word))
  const foreign = [...step.otherPlaces].some((word) => focus.has(word))
  const isNamed =
    own &&
    !foreign &&
    [...step.places].some((word) => stems.has(word)) &&
    !steps.some((other) => isOtherProduct(other, step, stems))
  if (begins < 0.3 && isNamed) begins = placeNamed
  if (begins < 0.3) {
    return { said: Math.min(said, mostSaid) + product * 0.4, begins: 0 }
  }
  // Handles sit on doors: where they are says nothing against them.
  const isOfNoPlace =
    kind === 'hardware' || kind === 'assemble' || kind === 'liner'
  const place = own ? 1 : foreign && !isOfNoPlace ? -1 : 0
  const grit = !isAbrasion
    ? 0
    : grits.some((one) => step.grits.includes(one))
      ? 1
      : grits.some((one) => steps.some((other) => other.grits.includes(one)))
        ? -0.7
        : 0
  // A second coat of the same is heard as one: whoever goes on about the first says its name again.
  const unsaid =
    step.coat !== undefined && step.coat > 1 && coat <= 0
      ? step.coatOfProduct === 1
        ? 0
        : unsaidCoatCost
      : 0
  const extra =
    Math.max(-1.2, Math.min(1.2, coat)) * bonus.coat +
    place * bonus.place +
    grit * bonus.grit +
    product * bonus.product
  return {
    said: Math.max(
      -0.5,
      Math.min(said, mostSaid) + extra * (extra < 0 ? 0.6 : 0.45),
    ),
    begins:
      Math.min(begins, 2.6) +
      extra -
      unsaid +
      (step.again && own ? coatAgainCost + 0.4 : 0),
  }
}

/** Whether the coat that is spoken of is this one: 1, another: -1, or either: 0. */
function coatAgreement(step: StepWords, { coat }: Mention): number {
  if (coat === undefined || step.coat === undefined) return 0
  const again = bonus.coatAgain / bonus.coat
  if (coat === 'again') return step.coat > 1 ? again : -again
  if (coat === 'last')
    return step.lastCoat ? 1 : step.coats.length > 1 ? -0.6 : 0
  if (coat === step.coat || coat === step.coatOfProduct) return 1
  return step.coats.includes(coat) ? -1 : -0.2
}

/** Whether a product is named that is another step's and not this one's. */
function isOtherProduct(
  other: StepWords,
  step: StepWords,
  stems: ReadonlySet<string>,
): boolean {
  return [...other.product].some(
    ([word, rarity]) =>
      rarity >= 0.5 && stems.has(word) && !step.product.has(word),
  )
}
