import 'server-only'
import { createReadStream } from 'node:fs'
import { readFile } from 'node:fs/promises'
import path from 'node:path'
import { Readable } from 'node:stream'
import { ZipFile } from 'yazl'
import { portfolioFeed } from '#core/portfolio/feed'
import { piecePage } from '#core/portfolio/piece-page'
import {
  copiedHomeLinks,
  copiedPieceLinks,
  siteFiles,
} from '#core/portfolio/portfolio-links'
import { portfolioPage } from '#core/portfolio/portfolio-page'
import {
  pictureFile,
  pictureSides,
  picturesOf,
  sharedPicture,
} from '#core/portfolio/shown-piece'
import { portfolioSitemap } from '#core/portfolio/sitemap'
import type { Instant } from '#core/units'
import {
  readPublished,
  readPublishedPicture,
} from '#services/portfolio/published'
import { readPortfolioHead } from '#services/portfolio/settings'

/**
 * The whole portfolio as a zip of plain files: pages that point at each other by the names of their files, so that they
 * work from any host and from a folder. It is made as it is read; no picture is ever whole in memory.
 *
 * Feed and sitemap are in it where the portfolio has a public address, since they are read elsewhere.
 */
export async function openStaticCopy(): Promise<Readable> {
  const [pieces, head] = await Promise.all([
    readPublished(),
    readPortfolioHead(),
  ])
  const { publicAddress } = head
  const newest = Math.max(0, ...pieces.map(({ changedAt }) => changedAt))
  const zip = new ZipFile()
  const bytes = Readable.from(zip.outputStream, { objectMode: false })
  const fail = (error: Error) => {
    bytes.destroy(error)
  }
  zip.on('error', fail)
  const add = (name: string, text: string, at: number = newest) => {
    zip.addBuffer(Buffer.from(text), name, { mtime: new Date(at) })
  }
  add('index.html', portfolioPage(pieces, head, copiedHomeLinks))
  for (const file of siteFiles) {
    add(file, await readFile(siteFile(file), 'utf8'))
  }
  if (publicAddress !== undefined) {
    add('feed.xml', portfolioFeed(pieces, { ...head, publicAddress }, rfc3339))
    add('sitemap.xml', portfolioSitemap(pieces, publicAddress, rfc3339))
  }
  for (const piece of pieces) {
    const { slug, shown, changedAt } = piece
    add(
      `${slug}/index.html`,
      piecePage(piece, head, copiedPieceLinks),
      changedAt,
    )
    const pictures = picturesOf(shown)
    const files = [
      ...pictures.flatMap(({ name }) =>
        pictureSides.map((side) => pictureFile(name, side)),
      ),
      ...(pictures.length > 0 && publicAddress !== undefined
        ? [sharedPicture.file]
        : []),
    ]
    for (const file of files) {
      zip.addReadStreamLazy(
        `${slug}/${file}`,
        // A picture does not get smaller by being packed once more.
        { mtime: new Date(changedAt), compress: false },
        (give) => {
          readPublishedPicture(slug, file).then(
            (found) => {
              // Taken down meanwhile: half a portfolio is not handed out.
              if (found === undefined) fail(new Error('it is out no more'))
              else give(null, createReadStream(found.path))
            },
            (error: unknown) => {
              fail(error instanceof Error ? error : new Error(String(error)))
            },
          )
        },
      )
    }
  }
  zip.end()
  return bytes
}

/** An instant as RFC 3339 has it. */
export function rfc3339(at: Instant): string {
  return new Date(at).toISOString()
}

function siteFile(name: string): string {
  return path.join(process.cwd(), 'public', 'portfolio', name)
}
