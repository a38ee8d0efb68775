import { expect, test } from 'vitest'
import { type SheetElement, sheetElements } from '#core/sheets/sheet-design'
import { sheetWords } from '#core/sheets/sheet-words'
import { bareFacts, local, sideboardAndBench } from '../write-ups/jobs.ts'

const workshop = {
  name: 'Alder Yard',
  zone: 'Europe/London',
  currency: 'GBP',
  units: 'metric',
} as const

function wordsOf(
  journal: Parameters<typeof sheetWords>[0]['journal'],
  elements: readonly SheetElement[] = sheetElements,
) {
  return sheetWords({ journal, workshop, elements, mark: 'A.Y.' })
}

test('a sheet tells the journal’s facts, each in one line', () => {
  const { job } = sideboardAndBench
  const words = wordsOf({
    ...sideboardAndBench,
    job: { ...job, title: 'Oak\nsideboard', askingPriceMinor: 48_500 },
  })
  expect(words).toMatchObject({
    title: 'Oak sideboard',
    price: '£485',
    workshop: 'Alder Yard',
    mark: 'A.Y.',
  })
  expect(words.finish).toMatch(/^Painted deep teal/)
  expect(words.dimensions).toMatch(/\d cm \(.* in\)/)
})

test('what is given away is free on a sheet as in a listing, not an amount of 0', () => {
  const { job } = sideboardAndBench
  const journal = { ...sideboardAndBench, job: { ...job, askingPriceMinor: 0 } }
  expect(wordsOf(journal).price).toBe('Free')
})

test('what is sold is offered on no sheet', () => {
  const { job } = sideboardAndBench
  const soldAt = local('2026-11-20T12:00')
  const sold = { ...job, askingPriceMinor: 48_500, soldAt }
  expect(wordsOf({ ...sideboardAndBench, job: sold }).price).toBe('Sold')
})

test('what there is nothing to say about does not stand on it, nor what was not asked for', () => {
  const untouched = wordsOf({ ...bareFacts, steps: [] })
  expect(untouched).not.toHaveProperty('price')
  expect(untouched).not.toHaveProperty('finish')
  expect(wordsOf(sideboardAndBench, ['workshop'])).toEqual({
    workshop: 'Alder Yard',
  })
  expect(wordsOf(sideboardAndBench, [])).toEqual({})
})
