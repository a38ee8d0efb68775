import type { Journal, WorkshopSettings } from '#core/journal/journal'
import type { SheetElement } from '#core/sheets/sheet-design'
import { appearanceOf } from '#core/write-ups/appearance'
import { english } from '#core/write-ups/english'
import { firstThatFits } from '#core/write-ups/fit-to-limit'
import type { Language } from '#core/write-ups/language'
import { plainText } from '#core/write-ups/plain-text'
import { priceTag } from '#core/write-ups/price-text'
import { surfaceWork } from '#core/write-ups/surface-work'

/** Common practice, no source: what is taken in at a glance. */
const finishCharacters = 110

/** The words of a sheet, each in one line; what is absent does not stand on it. */
export type SheetWords = {
  readonly title?: string
  readonly finish?: string
  readonly dimensions?: string
  readonly price?: string
  readonly workshop?: string
  readonly mark?: string
}

/**
 * What is told on a sheet, from the journal's facts: of the elements asked for those that there is something to say about.
 *
 * @param mark the owner's own mark in words; absent where it is a picture or there is none
 */
export function sheetWords({
  journal,
  workshop,
  elements,
  mark,
  language = english,
}: {
  readonly journal: Journal
  readonly workshop: WorkshopSettings
  readonly elements: readonly SheetElement[]
  readonly mark?: string
  readonly language?: Language
}): SheetWords {
  const { job, pieces } = journal
  const { askingPriceMinor, soldAt } = job
  const appearance = appearanceOf(surfaceWork(journal), pieces)
  const words: Readonly<Record<SheetElement, string>> = {
    title: plainText(job.title),
    finish: firstThatFits(
      language.sheet.finish(appearance, pieces),
      finishCharacters,
    ),
    dimensions: language.sheet.size(pieces, workshop.units),
    price:
      soldAt !== undefined
        ? language.tag.sold
        : askingPriceMinor === undefined
          ? ''
          : priceTag(askingPriceMinor, workshop.currency, language),
    workshop: plainText(workshop.name),
    mark: plainText(mark ?? ''),
  }
  return Object.fromEntries(
    elements
      .map((element) => [element, words[element]] as const)
      .filter(([, said]) => said !== ''),
  )
}
