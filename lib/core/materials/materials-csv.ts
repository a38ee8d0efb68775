import type { WorkshopSettings } from '#core/journal/journal'
import type { Material, MaterialsList } from '#core/materials/list-materials'
import type { MaterialsReader } from '#core/materials/materials-text'
import { moneyDigits } from '#core/money/format-money'
import { decimalText, fractionOf, times } from '#core/money/fraction'
import { plainText } from '#core/write-ups/plain-text'

const columns = [
  'order',
  'product',
  'purpose',
  'used on',
  'coats',
  'method',
  'parts added to 100',
  'grit',
  'amount',
  'unit',
  'uses without amount',
  'reckoned ml',
  'cost',
  'cost complete',
  'reckoned cost',
  'currency',
  'link',
] as const
type Column = (typeof columns)[number]

/** What only the owner is to read. */
const ownColumns: ReadonlySet<Column> = new Set([
  'cost',
  'cost complete',
  'reckoned cost',
  'currency',
])

/**
 * A materials list as a table for a spreadsheet: a row of headings, a row for each product in order of
 * first use, then a row for each group of surfaces that were sanded alike. What is not known is empty.
 *
 * Amounts are in the units they were written down in; several values in one cell stand apart by `; `.
 * Format: RFC 4180, every cell quoted, lines end with CR LF. A cell that a spreadsheet would take for a
 * formula begins with an apostrophe (OWASP, CSV injection).
 *
 * @param reader a viewer gets no column about money
 */
export function materialsCsv(
  list: MaterialsList,
  { currency }: WorkshopSettings,
  reader: MaterialsReader = 'owner',
): string {
  const shown = columns.filter(
    (column) => reader === 'owner' || !ownColumns.has(column),
  )
  const rows: readonly Partial<Record<Column, string>>[] = [
    ...list.materials.map((material, index) =>
      materialRow(material, index + 1, currency),
    ),
    ...list.sanded.map(({ places, steps }, index) => ({
      order: String(list.materials.length + index + 1),
      purpose: [...new Set(steps.map(({ kind }) => kind))].join('; '),
      'used on': places
        .map(({ piece, surface }) => `${piece.name}: ${surface.name}`)
        .join('; '),
      grit: steps
        .flatMap(({ grit }) => (grit === null ? [] : [`P${grit}`]))
        .join('; '),
    })),
  ]
  return [shown, ...rows.map((row) => shown.map((column) => row[column] ?? ''))]
    .map((row) => `${row.map(cell).join(',')}\r\n`)
    .join('')
}

function materialRow(
  material: Material,
  order: number,
  currency: string,
): Record<Column, string> {
  const { product, purposes, places, methods, amounts, cost, link, estimate } =
    material
  const reckonedMinor = estimate?.costMinor ?? null
  return {
    order: String(order),
    product: product.name,
    purpose: purposes.join('; '),
    'used on': places
      .map(({ piece, surface }) => `${piece.name}: ${surface.name}`)
      .join('; '),
    coats: places.every(({ coats }) => coats === null)
      ? ''
      : places.map(({ coats }) => String(coats ?? 0)).join('; '),
    method: methods.join('; '),
    'parts added to 100': material.thinningPercents.join('; '),
    grit: material.grits.map((grit) => `P${grit}`).join('; '),
    amount: (amounts ?? []).map(({ value }) => String(value)).join('; '),
    unit: (amounts ?? []).map(({ unit }) => unit).join('; '),
    'uses without amount': String(material.stepsWithoutAmount),
    'reckoned ml': estimate
      ? decimalText(times(estimate.litres, fractionOf(1000)), 0)
      : '',
    cost: cost ? moneyDigits(cost.minor, currency) : '',
    'cost complete': cost ? (cost.complete ? 'yes' : 'no') : '',
    'reckoned cost':
      reckonedMinor === null ? '' : moneyDigits(reckonedMinor, currency),
    currency: cost || reckonedMinor !== null ? currency : '',
    link: link ?? '',
  }
}

// The signs that begin a formula, and their full-width forms.
const formula = /^[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]/

function cell(typed: string): string {
  // A tab or line break at the start would hide the sign behind it; plain text has none.
  const text = plainText(typed)
  const safe = formula.test(text) ? `'${text}` : text
  return `"${safe.replace(/"/g, '""')}"`
}
