import { describe, expect, test } from 'vitest'
import { embedPair, embeddedFiles } from '#core/portfolio/embed-pair'
import { messagePage } from '#core/portfolio/message-page'
import { piecePage } from '#core/portfolio/piece-page'
import {
  type PortfolioLinks,
  copiedHomeLinks,
  copiedPieceLinks,
  servedLinks,
} from '#core/portfolio/portfolio-links'
import { portfolioPage } from '#core/portfolio/portfolio-page'
import { withoutPictures } from '#core/portfolio/shown-piece'
import { alderYard, bench, inPublic, out, sideboard } from './shown'

const both = [out('sideboard', sideboard, 2), out('bench', bench, 1)]

const pages = (links: PortfolioLinks, head: typeof alderYard = alderYard) => [
  portfolioPage(both, head, links),
  ...both.map((piece) => piecePage(piece, head, links)),
  messagePage(head, links, { title: 'Nothing', words: 'Nothing is here.' }),
]

describe('every page of the portfolio', () => {
  test.each(pages(servedLinks))(
    'asks nothing that a strict policy refuses',
    (page) => {
      expect(page).not.toMatch(/\sstyle="/)
      expect(page).not.toMatch(/\son\w+="/)
      expect(page).not.toContain('<style')
      for (const [tag] of page.matchAll(/<script\b[^>]*>/g)) {
        expect(tag).toMatch(/type="application\/ld\+json"|src="/)
      }
    },
  )

  test.each(pages(servedLinks))(
    'has one heading of the first level, its language and a place to skip to',
    (page) => {
      expect(page.match(/<h1/g)).toHaveLength(1)
      expect(page).toContain('<html lang="en">')
      expect(page).toContain('href="#content"')
    },
  )

  test('gives each picture its words and its size, so that nothing moves', () => {
    const images = pages(servedLinks).flatMap(
      (page) => page.match(/<img[^>]*>/g) ?? [],
    )
    // Two first pages' pictures, and all of the two pieces.
    expect(images).toHaveLength(2 + 6 + 1)
    for (const image of images) {
      expect(image).toMatch(/alt="What [a-z-]+ shows\."/)
      expect(image).toContain('width="1440"')
      expect(image).toContain('height="1080"')
    }
  })

  test('names no address of this machine where there is no public one', () => {
    for (const page of pages(servedLinks)) {
      expect(page).not.toMatch(/https?:\/\/(?!schema\.org)/)
      expect(page).not.toContain('og:image')
      expect(page).not.toContain('canonical')
    }
  })

  test('names its public address where there is one, also for its picture', () => {
    const [first = '', piece = ''] = pages(servedLinks, inPublic)
    expect(first).toContain(
      'rel="canonical" href="https://alder-yard.example/work/"',
    )
    expect(piece).toContain(
      'rel="canonical" href="https://alder-yard.example/work/sideboard/"',
    )
    expect(piece).toContain(
      'property="og:image" content="https://alder-yard.example/work/sideboard/shared.jpg"',
    )
    expect(piece).toContain('href="https://alder-yard.example/work/feed.xml"')
    expect(piece).toContain(
      '"contentUrl":"https://alder-yard.example/work/sideboard/front-after-1440.webp"',
    )
  })
})

describe('the page of a piece', () => {
  const page = piecePage(out('sideboard', sideboard), alderYard, servedLinks)

  test('tells all that was chosen, as text', () => {
    for (const words of [
      'Oak &amp; brass &quot;sideboard&quot;',
      'That is gone.',
      'A sideboard, painted deep teal.',
      'Size: 137 cm wide.',
      'Waterborne enamel, deep teal (paint): two coats',
      'Primed, first coat: body',
      '£485',
      'href="mailto:hello@alder-yard.example"',
      'href="tel:+442079460000"',
      'By appointment',
    ]) {
      expect(page).toContain(words)
    }
  })

  test('wipes between pictures that lie on each other, and shows others side by side', () => {
    expect(page.match(/data-wipe="Front"/g)).toHaveLength(1)
    expect(page).not.toContain('data-wipe="Left"')
    expect(page.match(/class="two"/g)).toHaveLength(1)
  })

  test('has a word for what is given away, as the listing has, and no amount of 0', () => {
    const price = { state: 'asking', minor: 0, currency: 'GBP' } as const
    const given = { ...sideboard, price }
    const givenAway = piecePage(out('sideboard', given), alderYard, servedLinks)
    expect(givenAway).toContain('<p class="price">Free</p>')
    expect(givenAway).not.toContain('£')
  })

  test('leaves out what was not chosen', () => {
    const bare = piecePage(out('bench', bench), alderYard, servedLinks)
    for (const absent of [
      'About it',
      'How it was made',
      'mailto:',
      'class="story"',
      '£',
    ]) {
      expect(bare).not.toContain(absent)
    }
    expect(bare).toContain('>Sold<')
  })
})

describe('the first page', () => {
  test('offers to filter by what tells pieces apart, and by nothing else', () => {
    const first = portfolioPage(both, alderYard, servedLinks)
    for (const name of ['kind', 'colour', 'finish']) {
      expect(first).toContain(`<select name="${name}">`)
    }
    const alone = portfolioPage(both.slice(0, 1), alderYard, servedLinks)
    expect(alone).not.toContain('<select')
  })

  test('says so when nothing is out', () => {
    expect(portfolioPage([], alderYard, servedLinks)).toContain(
      'Nothing is out yet.',
    )
  })
})

test('copied pages point at files by their names, and at nothing outside', () => {
  for (const [page, depth] of [
    [portfolioPage(both, alderYard, copiedHomeLinks), ''],
    [
      piecePage(out('sideboard', sideboard), alderYard, copiedPieceLinks),
      '../',
    ],
  ] as const) {
    const addresses = [...page.matchAll(/\b(?:href|src)="([^"]*)"/g)].map(
      ([, address = '']) => address,
    )
    expect(addresses.length).toBeGreaterThan(5)
    for (const address of addresses) {
      expect(address).toMatch(
        /^(?:\.\.\/)?[\w./-]+\.(?:html|css|js|svg|webp)$|^#|^mailto:|^tel:/,
      )
    }
    expect(page).toContain(`href="${depth}portfolio.css"`)
  }
})

test('a picture that is gone takes its pair along, and leaves its step', () => {
  const left = withoutPictures(sideboard, new Set(['front-before', 'prime']))
  expect(left.pairs.map(({ name }) => name)).toEqual(['Left'])
  expect(left.steps).toEqual([
    { words: 'Primed, first coat: body' },
    { words: 'Painted, first coat: body' },
  ])
})

describe('a pair for another site', () => {
  const [aligned, apart] = sideboard.pairs
  test('is HTML and CSS with two pictures and no script', () => {
    for (const pair of [aligned, apart]) {
      if (pair === undefined) throw new Error('no pair')
      const snippet = embedPair(pair, (file) => `https://x.example/${file}`)
      expect(snippet).not.toMatch(/<script|\son\w+=|javascript:/)
      const sources = [...snippet.matchAll(/src="([^"]+)"/g)].map(
        ([, source]) => source,
      )
      expect(sources.toSorted()).toEqual(
        embeddedFiles(pair)
          .map((file) => `https://x.example/${file}`)
          .toSorted(),
      )
    }
  })
})
