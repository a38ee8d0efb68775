import { parse } from 'csv-parse/sync'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { listMaterials } from '#core/materials/list-materials'
import { materialsCsv } from '#core/materials/materials-csv'
import {
  alderYard,
  journal,
  piece,
  product,
  sideboardAndBench,
  step,
} from '../write-ups/jobs.ts'

function read(csv: string): readonly Record<string, string>[] {
  return parse(csv, { columns: true, record_delimiter: '\r\n' })
}

test('the table reads back, a row for each product and each sanding', () => {
  const rows = read(materialsCsv(listMaterials(sideboardAndBench), alderYard))
  expect(rows).toHaveLength(11)
  expect(rows[1]).toMatchObject({
    product: 'Waterborne enamel, deep teal',
    purpose: 'paint',
    'used on': 'Sideboard: body; Bench: body',
    coats: '2; 2',
    unit: 'ml',
    'uses without amount': '3',
    cost: '23.60',
    'cost complete': 'no',
    currency: 'GBP',
    link: 'https://alder-yard.example/teal',
  })
  expect(rows[2]).toMatchObject({ amount: '', cost: '', coats: '' })
  expect(rows[10]).toMatchObject({ purpose: 'sand', grit: 'P120; P150' })
})

function csvOf(name: string, link?: string): string {
  const box = piece('box', 'box', ['lid'])
  return materialsCsv(
    listMaterials(
      journal(
        'Box',
        [box],
        [step('a', 'coat', 'box-lid', undefined, { productId: 'p' })],
        [
          product(
            'p',
            name,
            'paint',
            'other',
            {},
            {
              ...(link !== undefined && { link }),
            },
          ),
        ],
      ),
    ),
    alderYard,
  )
}

// RFC 4180, section 2, rules 5 to 7.
test('quotes are doubled, and commas stay inside their cell', () => {
  expect(csvOf('the "good" paint, blue')).toContain(
    '"the ""good"" paint, blue"',
  )
})

// OWASP, CSV injection: cells that begin with one of these get an apostrophe in front.
test.each([
  '=1+1',
  '+1',
  '-1',
  '@SUM(A1)',
  '\t=1+1',
  '\r\n=1+1',
  ' =1+1',
  '\uFF1D1',
])('a spreadsheet does not reckon with a product named %j', (name) => {
  const [row] = read(csvOf(name))
  expect(row?.['product']).toBe(`'${name.trim()}`)
})

test('whatever a product is called, its cell is no formula and its row no two', () => {
  fc.assert(
    fc.property(
      fc.string({ unit: 'grapheme', minLength: 1 }),
      fc.webUrl(),
      (name, link) => {
        const csv = csvOf(name, link)
        const rows = read(csv)
        expect(rows).toHaveLength(1)
        expect(rows[0]?.['product']).not.toMatch(/^[=+\-@\t\r\n]/)
        expect(rows[0]?.['link']).toBe(link)
        expect(csv).toMatch(/\r\n$/)
        expect(csv.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
      },
    ),
  )
})
