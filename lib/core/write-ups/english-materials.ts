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
} from '#core/write-ups/english-words'
import type { Language, Units } from '#core/write-ups/language'
import { plainText } from '#core/write-ups/plain-text'

const baseWords: Readonly<Record<Base, string>> = {
  water: 'water-based',
  oil: 'oil-based',
  alcohol: 'alcohol-based',
  lacquer: 'lacquer',
  wax: 'wax',
}

const toolWords = {
  brush: 'a brush',
  roller: 'a small roller',
  pad: 'a pad',
  spray: 'a fine brush, since it was sprayed',
  wipe: 'a cloth',
  dip: 'a brush',
  machine: 'a brush',
  hand: 'a brush',
} as const

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
      layer.purpose,
      ...(layer.base === undefined || layer.base === layer.purpose
        ? []
        : [baseWords[layer.base]]),
      ...(layer.sheen === undefined ? [] : [layer.sheen]),
      `${countOf(layer.coats)} ${layer.coats === 1 ? 'coat' : 'coats'}`,
    ].join(', ')}`,
  touchUp: ({ touchUp }: SurfaceFinish) => {
    const last = touchUp.at(-1)
    if (last === undefined) {
      return 'To touch up: nothing that shows was laid on; ask before you do.'
    }
    const tool =
      last.method === undefined ? 'a small brush' : toolWords[last.method]
    return closed(
      `To touch up: ${listOf(touchUp.map(({ name }) => name))}, with ${tool}`,
    )
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
    return `Left: ${atMost}${amountText(inHandyUnit(left), units)} of ${packs}${packsSupposed ? ' (how many you bought is not written down)' : ''}${unmeasured}.${buyAgain ? ' Not enough for another job like this: buy again.' : ''}`
  },
  reckonedCost: (money: string) => `about ${money} for what was reckoned`,
  reckonedTotal: (money: string) => `With what was reckoned: about ${money}`,
} satisfies Partial<Language['materials']>

function placesText(places: readonly MaterialPlace[]): string {
  const pieces = [...new Set(places.map(({ piece }) => piece.id))]
  return listOf(
    pieces.map((id) => {
      const own = places.filter(({ piece }) => piece.id === id)
      const name = plainText(own[0]?.piece.name ?? '')
      const surfaces = listOf(own.map(({ surface }) => plainText(surface.name)))
      return name === '' ? surfaces : `${capitalised(name)} (${surfaces})`
    }),
  )
}
