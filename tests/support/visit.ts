import { GET as readFeed } from '../../app/portfolio/feed.xml/route'
import { GET as readHome } from '../../app/portfolio/route'
import { GET as readSitemap } from '../../app/portfolio/sitemap.xml/route'
import { GET as readPicture } from '../../app/portfolio/[slug]/[file]/route'
import { GET as readPiece } from '../../app/portfolio/[slug]/route'

/**
 * Asks for a page or a picture of the portfolio as a stranger does.
 *
 * @param address from `/portfolio` on
 */
export async function visit(
  address: string,
  headers: Readonly<Record<string, string>> = {},
): Promise<Response> {
  const request = new Request(new URL(address, 'http://localhost:3000'), {
    headers: { host: 'localhost:3000', ...headers },
  })
  const [slug, file] = address.split('/').slice(2)
  const none = { params: Promise.resolve({}) }
  if (slug === undefined) return readHome(request, none)
  if (slug === 'feed.xml') return readFeed(request, none)
  if (slug === 'sitemap.xml') return readSitemap(request, none)
  return file === undefined
    ? readPiece(request, { params: Promise.resolve({ slug }) })
    : readPicture(request, { params: Promise.resolve({ slug, file }) })
}

/** The whole addresses and the addresses on this server that a page or a feed names, but for those of vocabularies. */
export function addressesIn(text: string): readonly string[] {
  const found = [
    ...text.matchAll(/(?:href|src|content)="([^"]*)"/g),
    ...text.matchAll(/([^\s",]+\.(?:webp|jpg))/g),
  ].map(([, address = '']) => address)
  return [...new Set(found)].filter((one) => one.startsWith('/portfolio'))
}
