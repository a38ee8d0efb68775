import { expect, test } from 'vitest'
import { listingJsonLd } from '#core/write-ups/listing-json-ld'
import { writeListing } from '#core/write-ups/write-listing'
import { jsonLdFaults } from '../../support/json-ld-faults.ts'
import { goldenJobs } from './golden-jobs.ts'
import { alderYard } from './jobs.ts'

function jsonLd(name: string) {
  const golden = goldenJobs[name]
  if (!golden) throw new Error(`no job ${name}`)
  const { job, now, settings = alderYard } = golden
  return listingJsonLd({
    journal: job,
    settings,
    listing: writeListing({ journal: job, now, settings }),
    photoAddress: (id) => `https://alder-yard.example/photos/${id}`,
  })
}

const withFault = {
  '@context': 'https://schema.org',
  '@type': 'Product',
  name: 'Bench',
} as const

test('every kept listing is valid by the vocabulary, and what is not valid is told apart', () => {
  expect(
    jsonLdFaults(
      Object.fromEntries(
        Object.keys(goldenJobs).map((name) => [name, jsonLd(name)]),
      ),
    ),
  ).toEqual([])
  expect(
    jsonLdFaults({
      colour: { ...withFault, colour: 'teal' },
      condition: {
        ...withFault,
        offers: {
          '@type': 'Offer',
          itemCondition: 'https://schema.org/OldCondition',
        },
      },
      width: { ...withFault, width: { '@type': 'Offer' } },
    }),
  ).toHaveLength(3)
})

test('a single piece has its own sizes, and its photos in the order of the listing', () => {
  expect(jsonLd('flaws')).toMatchObject({
    '@type': 'Product',
    name: 'Country pine chest of drawers, ochre, 96.5 cm wide',
    color: 'ochre',
    material: 'pine',
    width: { value: 96.5, unitCode: 'CMT' },
    height: { value: 101, unitCode: 'CMT' },
    image: [
      {
        contentUrl: 'https://alder-yard.example/photos/front',
        caption:
          'Chest of drawers, front view, after the work: painted ochre and waxed, with the top waxed.',
      },
      {},
      {},
      {},
      {
        caption:
          'Top of the chest of drawers, a flaw: a short scratch on the top, near the back.',
      },
    ],
    offers: {
      price: '260.00',
      priceCurrency: 'GBP',
      availability: 'https://schema.org/InStock',
      itemCondition: 'https://schema.org/UsedCondition',
    },
  })
})

test('a set is one offer that names what is in it; without a price there is none', () => {
  expect(jsonLd('set-of-three')).toMatchObject({
    offers: {
      price: '120.00',
      includesObject: [
        {
          amountOfThisGood: 1,
          typeOfGood: { name: 'large table', material: 'beech' },
        },
        {},
        {},
      ],
    },
  })
  expect(jsonLd('set-of-three')).not.toHaveProperty('width')
  expect(jsonLd('missing-facts')).not.toHaveProperty('offers')
})
