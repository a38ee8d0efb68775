import type { WorkshopSettings } from '#core/journal/journal'
import type { Material, MaterialsList } from '#core/materials/list-materials'
import type { Stock } from '#core/materials/stock'
import { formatMoney } from '#core/money/format-money'
import { english } from '#core/write-ups/english'
import type { Language } from '#core/write-ups/language'
import { plainText } from '#core/write-ups/plain-text'

/** Whom a materials list is for: who watches how it is done, or who pays for it. */
export type MaterialsReader = 'viewer' | 'owner'

/**
 * A materials list as plain text: one product a paragraph, in order of first use; ends with a line break.
 *
 * @param reader a viewer reads what, where, how and how much; the owner also what it cost, how what was not measured is
 *   reckoned, and what is left
 */
export function materialsText(
  list: MaterialsList,
  { currency, units }: WorkshopSettings,
  reader: MaterialsReader = 'owner',
  stocks: readonly Stock[] = [],
  language: Language = english,
): string {
  const words = language.materials
  const isOwner = reader === 'owner'
  const paragraphs = [
    words.title(list.title),
    ...(list.materials.length === 0 ? [words.none] : []),
    ...list.materials.map((material, index) => {
      const { link } = material
      const how = words.how(material)
      const stock = stocks.find((one) => one.productId === material.product.id)
      const lines = [
        words.places(material),
        ...(how === undefined ? [] : [how]),
        isOwner
          ? [
              words.amount(material, units),
              ...costWords(material, currency, language),
            ].join('; ')
          : words.shownAmount(material, units),
        ...(isOwner ? words.estimates(material, units) : []),
        ...(isOwner ? [words.needs(material)] : []),
        ...(isOwner && stock !== undefined ? [words.left(stock, units)] : []),
        ...(link === null ? [] : [plainText(link)]),
      ]
      return [
        words.heading(index + 1, material),
        ...lines.filter((line) => line !== '').map((line) => `   ${line}`),
      ].join('\n')
    }),
    ...(list.sanded.length === 0
      ? []
      : [[words.sandedHeading, ...list.sanded.map(words.sanded)].join('\n')]),
    ...(isOwner ? totalWords(list, currency, language) : []),
    ...(isOwner &&
    list.materials.some(({ product }) =>
      stocks.some((one) => one.productId === product.id && one.packsSupposed),
    )
      ? [words.packsSupposed]
      : []),
  ]
  return `${paragraphs.join('\n\n')}\n`
}

function costWords(
  { cost, estimate }: Material,
  currency: string,
  { materials: words }: Language,
): readonly string[] {
  const reckoned = estimate?.costMinor ?? null
  return [
    ...(cost === null
      ? []
      : [words.cost(formatMoney(cost.minor, currency), cost.complete)]),
    ...(reckoned === null
      ? []
      : [words.reckonedCost(formatMoney(reckoned, currency))]),
  ]
}

function totalWords(
  { materials, costMinor, estimatedCostMinor }: MaterialsList,
  currency: string,
  { materials: words }: Language,
): readonly string[] {
  const lines = [
    ...(costMinor === null
      ? []
      : [
          words.total(
            formatMoney(costMinor, currency),
            materials.every(({ cost }) => cost?.complete === true),
          ),
        ]),
    ...(estimatedCostMinor === null
      ? []
      : [
          words.reckonedTotal(
            formatMoney((costMinor ?? 0) + estimatedCostMinor, currency),
          ),
        ]),
  ]
  return lines.length === 0 ? [] : [lines.join('\n')]
}
