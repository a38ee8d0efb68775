import 'server-only'
import { database } from '#services/database/open-database'
import {
  removeOtherPictures,
  removePicturesOfOthers,
} from '#services/portfolio/portfolio-pictures'
import { publishedContent } from '#services/portfolio/schema'
import { photosOf } from '#services/portfolio/published'

/** Removes the pictures of the portfolio that show pieces and photos of which there is no record any more. */
export async function removePicturesOfWhatIsGone(): Promise<void> {
  const db = await database()
  const pages = await db.portfolioPage.findMany({
    where: { published: { not: null } },
    select: { pieceId: true, published: true },
  })
  // What is out of nothing was made for a look at its draft, and is made again for the next.
  await removePicturesOfOthers(pages.map(({ pieceId }) => pieceId))
  for (const { pieceId, published } of pages) {
    const { sources } = publishedContent.parse(JSON.parse(published ?? '{}'))
    const all = Object.values(sources)
    const rows = await db.photo.findMany({
      where: { id: { in: all.flatMap(photosOf) } },
      select: { id: true },
    })
    const there = new Set(rows.map(({ id }) => id))
    const left = all.filter((one) => photosOf(one).every((id) => there.has(id)))
    if (left.length < all.length) await removeOtherPictures(pieceId, left)
  }
}
