import 'server-only'
import {
  type PublishedPiece,
  pictureFile,
  pictureSides,
  picturesOf,
  sharedPicture,
  withoutPictures,
} from '#core/portfolio/shown-piece'
import { wholeAddress } from '#core/portfolio/portfolio-links'
import { notInBin } from '#services/bin/bin'
import { toInstant } from '#services/database/instants'
import { database } from '#services/database/open-database'
import {
  type PictureFile,
  readPortfolioPicture,
  readSharedPicture,
} from '#services/portfolio/portfolio-pictures'
import {
  type PictureSource,
  type PublishedContent,
  publishedContent,
} from '#services/portfolio/schema'
import { readPortfolioSettings } from '#services/portfolio/settings'

// Nothing here reads the journal: what is not in the row of a page cannot get out by it. Only whether photos are in the
// bin is asked.

type Out = {
  readonly pieceId: string
  readonly jobId: string
  readonly piece: PublishedPiece
  readonly sources: PublishedContent['sources']
}

/** All pieces that are out, the newest first. */
export async function readPublished(): Promise<readonly PublishedPiece[]> {
  return (await readOut({})).map(({ piece }) => piece)
}

/** A piece that is out, by its part of the address; undefined when there is none. */
export async function readPublishedPiece(
  slug: string,
): Promise<PublishedPiece | undefined> {
  return (await readOut({ slug }))[0]?.piece
}

/** Which pieces of a job are out, by their ids. */
export async function readPublishedOfJob(
  jobId: string,
): Promise<ReadonlyMap<string, PublishedPiece>> {
  const out = await readOut({ piece: { jobId } })
  return new Map(out.map(({ pieceId, piece }) => [pieceId, piece]))
}

/**
 * The whole address of what is out of a job: of its one page, or of the portfolio where it has several.
 *
 * @returns undefined while nothing of it is out, or the portfolio has no public address
 */
export async function readPublishedAddress(
  jobId: string,
): Promise<string | undefined> {
  const { publicAddress } = await readPortfolioSettings()
  const out = await readOut({ piece: { jobId } })
  const [only] = out
  if (publicAddress === '' || only === undefined) return undefined
  return wholeAddress(
    publicAddress,
    out.length === 1 ? only.piece.slug : undefined,
  )
}

/**
 * A picture of a piece that is out, by the name of its file; undefined when nothing that is out shows it.
 *
 * @throws Error when its original is missing or damaged
 */
export async function readPublishedPicture(
  slug: string,
  file: string,
): Promise<PictureFile | undefined> {
  const [out] = await readOut({ slug })
  return out && pictureOf(out.pieceId, out.piece.shown, out.sources, file)
}

/** A picture of a piece, out or not, by the name of its file; undefined when the piece does not show it. */
export async function pictureOf(
  pieceId: string,
  shown: PublishedPiece['shown'],
  sources: Readonly<Record<string, PictureSource>>,
  file: string,
): Promise<PictureFile | undefined> {
  if (file === sharedPicture.file) {
    return readSharedPicture(pieceId, shown, sources)
  }
  for (const { name } of picturesOf(shown)) {
    const side = pictureSides.find((one) => pictureFile(name, one) === file)
    const source = sources[name]
    if (side !== undefined && source !== undefined) {
      return readPortfolioPicture(pieceId, source, side)
    }
  }
  return undefined
}

async function readOut(where: {
  readonly slug?: string
  readonly piece?: { readonly jobId: string }
}): Promise<readonly Out[]> {
  const db = await database()
  const { piece, ...page } = where
  const rows = await db.portfolioPage.findMany({
    // What is in the bin is out no more; it is out again once it comes back.
    where: {
      ...page,
      published: { not: null },
      piece: { ...piece, ...notInBin, job: notInBin },
    },
    orderBy: [{ publishedAt: 'desc' }, { id: 'asc' }],
    select: {
      id: true,
      pieceId: true,
      slug: true,
      published: true,
      publishedAt: true,
      changedAt: true,
      piece: { select: { jobId: true } },
    },
  })
  const out = rows.flatMap((row) =>
    row.published === null || row.slug === null || row.publishedAt === null
      ? []
      : {
          row,
          slug: row.slug,
          publishedAt: row.publishedAt,
          content: publishedContent.parse(JSON.parse(row.published)),
        },
  )
  const there = await photosThere(
    out.flatMap(({ content }) =>
      Object.values(content.sources).flatMap(photosOf),
    ),
  )
  return out.map(({ row, slug, publishedAt, content }) => {
    const gone = Object.entries(content.sources)
      .filter(([, source]) => photosOf(source).some((id) => !there.has(id)))
      .map(([name]) => name)
    return {
      pieceId: row.pieceId,
      jobId: row.piece.jobId,
      sources: content.sources,
      piece: {
        slug,
        id: row.id,
        publishedAt: toInstant(publishedAt),
        changedAt: toInstant(row.changedAt ?? publishedAt),
        shown: withoutPictures(content.shown, new Set(gone)),
      },
    }
  })
}

/** The photos that a picture is made from. */
export function photosOf(source: PictureSource): readonly string[] {
  return source.of === 'photo'
    ? [source.photo]
    : [source.before.photo, source.after.photo]
}

/** Which of these photos are there and not in the bin. */
async function photosThere(
  ids: readonly string[],
): Promise<ReadonlySet<string>> {
  const db = await database()
  const rows = await db.photo.findMany({
    where: { id: { in: [...new Set(ids)] }, ...notInBin },
    select: { id: true },
  })
  return new Set(rows.map(({ id }) => id))
}
