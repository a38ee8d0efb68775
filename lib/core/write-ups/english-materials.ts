import type { Base } from '#core/finish/base-of'
import type { FinishLayer, SurfaceFinish } from '#core/materials/list-finishes'
import type { MaterialPlace } from '#core/materials/list-materials'
import type { Stock } from '#core/materials/stock'
import { amountText, inHandyUnit } from '#core/write-ups/english-amounts'
import {
  capitalised,
  closed,
  countOf,
  listOf,
  namesTogether,
} from '#core/write-ups/english-words'
import type { Language, Units } from '#core/write-ups/language'
import { isSaidBy, productWords } from '#core/write-ups/english-products'
import { plainText } from '#core/write-ups/plain-text'

const baseWords: Readonly<Record<Base, string>> = {
  water: 'water-based',
  oil: 'oil-based',
  alcohol: 'alcohol-based',
  lacquer: 'lacquer',
  wax: 'wax',
}

/** How a little of a layer is put on: a stain or wax with a cloth, what was sprayed with a fine brush. */
function dabWords({ purpose, method, isAerosol }: FinishLayer): string {
  if (isAerosol) return ', sprayed into its cap and dabbed on with a fine brush'
  if (['stain', 'glaze', 'wax'].includes(purpose)) return ' with a cloth'
  switch (method) {
    case 'wipe':
    case 'hand':
      return ' with a cloth'
    case 'roller':
      return ' with a small roller'
    case 'pad':
      return ' with a pad'
    case 'spray':
      return ' with a fine brush'
    case 'brush':
    case 'dip':
    case 'machine':
    case undefined:
    default:
      return ' with a small brush'
  }
}

/** What a spot is touched up with, in order: "oil stain in dark walnut with a cloth, then clear coat with a small brush". */
export function touchUpWords(layers: readonly FinishLayer[]): string {
  const told = layers.map(
    (layer) => productWords(layer, layer.purpose) + dabWords(layer),
  )
  return told.length < 2
    ? told.join('')
    : `${told.join(', then ')}, letting each dry`
}

/** The words of what a buyer and the owner are told of the materials. */
export const englishMaterials = {
  finishesTitle: (job: string) =>
    plainText(job) === ''
      ? 'What is on it'
      : `What is on it: ${plainText(job)}`,
  noFinish: 'No finish is written down for this job.',
  finishPlaces: ({ places }: SurfaceFinish) => placesText(places),
  layer: (layer: FinishLayer) =>
    `${capitalised(layer.name)}: ${[
      ...[
        layer.purpose,
        ...(layer.base === undefined || layer.base === layer.purpose
          ? []
          : [baseWords[layer.base]]),
        ...(layer.sheen === undefined ? [] : [layer.sheen]),
      ].filter((words) => !isSaidBy(layer.name, words)),
      `${countOf(layer.coats)} ${layer.coats === 1 ? 'coat' : 'coats'}`,
    ].join(', ')}`,
  touchUp: ({ touchUp }: SurfaceFinish) => {
    if (touchUp.length === 0) {
      return 'To touch up: nothing that shows was laid on; ask before you do.'
    }
    return closed(`To touch up: ${touchUpWords(touchUp)}`)
  },
  touchUpCare: (workshop: string) =>
    `Before you touch up: clean and dry the spot, dull it lightly with fine abrasive, try it where nobody looks, and follow the label of the product. ${
      plainText(workshop) === ''
        ? 'Fresh colour can differ from what has aged.'
        : `Fresh colour can differ from what has aged; ask ${plainText(workshop)} when in doubt.`
    }`,
  left: (stock: Stock, units: Units) => {
    const { left, packsBought, packsSupposed, unmeasuredUses, buyAgain } = stock
    const packs = `${countOf(packsBought)} ${packsBought === 1 ? 'pack' : 'packs'}`
    if (left.value < 0) {
      return closed(
        `More was used than ${packs} held, by ${amountText(inHandyUnit({ ...left, value: -left.value }), units)}: a pack is missing on the shelf, or an amount is too high`,
      )
    }
    const atMost = unmeasuredUses > 0 ? 'at most ' : ''
    const unmeasured =
      unmeasuredUses === 0
        ? ''
        : `; ${countOf(unmeasuredUses)} ${unmeasuredUses === 1 ? 'use was' : 'uses were'} not measured`
    return `Left: ${atMost}${amountText(inHandyUnit(left), units)} of ${packs}${packsSupposed ? '*' : ''}${unmeasured}.${buyAgain ? ' Not enough for another job like this: buy again.' : ''}`
  },
  packsSupposed:
    '* How many packs you bought is not written down on the shelf: no more are counted than were needed.',
  reckonedCost: (money: string) => `about ${money} for what was reckoned`,
  reckonedTotal: (money: string) => `With what was reckoned: about ${money}`,
} satisfies Partial<Language['materials']>

function placesText(places: readonly MaterialPlace[]): string {
  const alike = new Map<string, string[]>()
  for (const id of new Set(places.map(({ piece }) => piece.id))) {
    const own = places.filter(({ piece }) => piece.id === id)
    const name = capitalised(plainText(own[0]?.piece.name ?? ''))
    const surfaces = listOf(own.map(({ surface }) => plainText(surface.name)))
    alike.set(surfaces, [...(alike.get(surfaces) ?? []), name])
  }
  return listOf(
    [...alike].map(([surfaces, names]) => {
      const named = names.filter((name) => name !== '')
      return named.length === 0
        ? surfaces
        : `${namesTogether(named)} (${surfaces})`
    }),
  )
}
