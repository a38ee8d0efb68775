import { expect, test } from 'vitest'
import { pieceJsonLd, portfolioJsonLd } from '#core/portfolio/piece-json-ld'
import { servedLinks } from '#core/portfolio/portfolio-links'
import { jsonLdFaults } from '../../support/json-ld-faults'
import { alderYard, bench, inPublic, out, sideboard } from './shown'

const withoutPrice = Object.fromEntries(
  Object.entries(sideboard).filter(([key]) => key !== 'price'),
) as typeof sideboard

const both = [out('sideboard', sideboard), out('bench', bench)]

test('pieces and portfolio are valid by the vocabulary of schema.org', () => {
  const [one, other] = both.map((piece) => ({
    here: pieceJsonLd(piece, alderYard, servedLinks),
    public: pieceJsonLd(piece, inPublic, servedLinks),
  }))
  expect(
    jsonLdFaults({
      a: one?.here,
      b: one?.public,
      c: other?.here,
      d: other?.public,
      e: portfolioJsonLd(both, alderYard, servedLinks),
      f: portfolioJsonLd([], inPublic, servedLinks),
      // That a fault is seen.
      misnamed: {
        '@context': 'https://schema.org',
        '@type': 'CollectionPage',
        mainThing: 'x',
      },
    }),
  ).toEqual([expect.stringContaining('mainThing')])
})

test('a price is an offer in stock, what is sold is sold out, and without either there is no offer', () => {
  expect(
    pieceJsonLd(out('a', sideboard), alderYard, servedLinks),
  ).toMatchObject({
    offers: {
      price: '485.00',
      priceCurrency: 'GBP',
      availability: 'https://schema.org/InStock',
    },
  })
  expect(pieceJsonLd(out('a', bench), alderYard, servedLinks)).toMatchObject({
    offers: { availability: 'https://schema.org/SoldOut' },
  })
  expect(
    pieceJsonLd(out('a', withoutPrice), alderYard, servedLinks),
  ).not.toHaveProperty('offers')
})
