import type { WorkshopSettings } from '#core/journal/journal'
import type { MaterialsList } from '#core/materials/list-materials'
import { formatMoney } from '#core/money/format-money'
import { english } from '#core/write-ups/english'
import type { Language } from '#core/write-ups/language'
import { plainText } from '#core/write-ups/plain-text'

/** A materials list as plain text for a reader: one product a paragraph, in order of first use; ends with a line break. */
export function materialsText(
  list: MaterialsList,
  { currency, units }: WorkshopSettings,
  language: Language = english,
): string {
  const words = language.materials
  const paragraphs = [
    words.title(list.title),
    ...(list.materials.length === 0 ? [words.none] : []),
    ...list.materials.map((material, index) => {
      const { cost, link } = material
      const how = words.how(material)
      const lines = [
        words.places(material),
        ...(how === undefined ? [] : [how]),
        [
          words.amount(material, units),
          ...(cost
            ? [words.cost(formatMoney(cost.minor, currency), cost.complete)]
            : []),
        ].join('; '),
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
    ...(list.costMinor === null
      ? []
      : [
          words.total(
            formatMoney(list.costMinor, currency),
            list.materials.every(({ cost }) => cost?.complete === true),
          ),
        ]),
  ]
  return `${paragraphs.join('\n\n')}\n`
}
