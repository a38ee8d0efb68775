import { XMLParser } from 'fast-xml-parser'
import { describe, expect, test } from 'vitest'
import { portfolioFeed } from '#core/portfolio/feed'
import { portfolioSitemap } from '#core/portfolio/sitemap'
import type { Instant } from '#core/units'
import { bench, inPublic, out, sideboard } from './shown'

const rfc3339 = (at: Instant) => new Date(at).toISOString()
const reader = new XMLParser({
  ignoreAttributes: false,
  attributeNamePrefix: '',
})
const pieces = [out('sideboard', sideboard, 2), out('bench', bench, 1)]

type Feed = {
  readonly feed: Readonly<Record<string, unknown>> & {
    readonly link: readonly Readonly<Record<string, string>>[]
    readonly entry: readonly (Readonly<Record<string, unknown>> & {
      readonly link: Readonly<Record<string, string>>
    })[]
  }
}

/** What RFC 4287 says a feed and its entries must have: sections 4.1.1 and 4.1.2. */
describe('the feed', () => {
  const text = portfolioFeed(pieces, inPublic, rfc3339)
  const { feed } = reader.parse(text) as Feed

  test('is read as Atom by an independent reader', () => {
    expect(feed['xmlns']).toBe('http://www.w3.org/2005/Atom')
  })

  test('has an id, a title, an author, when it was changed, and where it is itself', () => {
    expect(feed['id']).toBe('https://alder-yard.example/work/')
    expect(feed['title']).toBe('Alder Yard: portfolio')
    expect(feed['author']).toEqual({ name: 'Alder Yard' })
    expect(feed['updated']).toBe('2026-10-02T12:00:00.000Z')
    expect(feed.link.find(({ rel }) => rel === 'self')).toMatchObject({
      href: 'https://alder-yard.example/work/feed.xml',
      type: 'application/atom+xml',
    })
  })

  test('has an entry for each piece, with an id of its own and a whole address', () => {
    expect(feed.entry).toHaveLength(2)
    const [first] = feed.entry
    expect(first).toMatchObject({
      id: 'urn:uuid:6f1c0c3e-0000-4000-8000-000000000002',
      title: 'Oak & brass "sideboard"',
      published: '2026-10-02T12:00:00.000Z',
      updated: '2026-10-02T12:00:00.000Z',
    })
    expect(first?.link['href']).toBe(
      'https://alder-yard.example/work/sideboard/',
    )
    expect(JSON.stringify(first)).toContain(
      'https://alder-yard.example/work/sideboard/front-after-1440.webp',
    )
  })
})

/** Tags, namespace and form of dates: the Sitemap protocol 0.9, https://www.sitemaps.org/protocol.html */
test('the sitemap names every page by its whole address', () => {
  const text = portfolioSitemap(pieces, inPublic.publicAddress, rfc3339)
  expect(reader.parse(text)).toMatchObject({
    urlset: {
      xmlns: 'http://www.sitemaps.org/schemas/sitemap/0.9',
      url: [
        {
          loc: 'https://alder-yard.example/work/',
          lastmod: '2026-10-02T12:00:00.000Z',
        },
        { loc: 'https://alder-yard.example/work/sideboard/' },
        { loc: 'https://alder-yard.example/work/bench/' },
      ],
    },
  })
})
