import { finishesText } from '#core/materials/finishes-text'
import { materialsText } from '#core/materials/materials-text'
import type { JobMaterials } from '#services/materials/materials'
import type { materialsReaders } from '#services/materials/schema'

/** A job's materials as text for one of its readers. */
export function textFor(
  reader: (typeof materialsReaders)[number],
  { list, finishes, stocks, settings }: JobMaterials,
): string {
  return reader === 'buyer'
    ? finishesText(list.title, finishes, settings)
    : materialsText(list, settings, reader, stocks)
}
