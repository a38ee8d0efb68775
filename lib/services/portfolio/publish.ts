import 'server-only'
import { freeSlug } from '#core/portfolio/piece-slug'
import { pictureSides } from '#core/portfolio/shown-piece'
import { type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import { toDate } from '#services/database/instants'
import { newId } from '#services/database/new-id'
import { database } from '#services/database/open-database'
import { contentOf, noPiece, readDraft } from '#services/portfolio/drafts'
import {
  readPortfolioPicture,
  readSharedPicture,
  removeOtherPictures,
} from '#services/portfolio/portfolio-pictures'

/**
 * Puts the page of a piece out, word for word as its draft shows it now. It stays so until it is put out again or taken
 * down, whatever happens in the journal; only a photo that is put in the bin vanishes from it at once.
 *
 * @param seen of the draft that the owner looked at (`readDraft`): another is not put out
 * @returns its part of the address
 */
export async function publishPiece(
  jobId: string,
  pieceId: string,
  seen: string,
  now: Instant,
): Promise<Result<string>> {
  const draft = await readDraft(jobId, pieceId)
  if (!draft.ok) return draft
  const { sources, choice } = draft.value
  if (draft.value.seen !== seen) {
    return refused({
      kind: 'conflict',
      detail:
        'Something has changed since you looked at it. Look at it again, then publish it.',
    })
  }
  if (Object.keys(sources).length === 0) {
    return refused({
      kind: 'conflict',
      detail: 'Choose at least one pair or photo to show.',
    })
  }
  // Made before it is out, so that the first visitor does not wait for them.
  const all = Object.values(sources)
  await removeOtherPictures(pieceId, all)
  for (const source of all) {
    for (const side of pictureSides) {
      await readPortfolioPicture(pieceId, source, side)
    }
  }
  const { shown } = await contentOf(draft.value)
  await readSharedPicture(pieceId, shown, sources)
  const content = JSON.stringify({ shown, sources })
  const db = await database()
  const slug = await db.$transaction(async (transaction) => {
    const there = await transaction.portfolioPage.findUnique({
      where: { pieceId },
      select: { slug: true, published: true, publishedAt: true },
    })
    const others = await transaction.portfolioPage.findMany({
      where: { pieceId: { not: pieceId }, slug: { not: null } },
      select: { slug: true },
    })
    const taken = new Set(others.flatMap((one) => one.slug ?? []))
    const own = there?.slug ?? freeSlug(shown.title, 'piece', taken)
    const values = {
      slug: own,
      published: content,
      publishedAt: there?.publishedAt ?? toDate(now),
      ...(there?.published === content ? {} : { changedAt: toDate(now) }),
    }
    await transaction.portfolioPage.upsert({
      where: { pieceId },
      create: {
        id: newId(),
        pieceId,
        draft: JSON.stringify(choice),
        ...values,
      },
      update: values,
      select: { id: true },
    })
    return own
  })
  return ok(slug)
}

/** Takes the page of a piece down: from now on nobody gets it or its pictures. What was chosen is kept, and its address. */
export async function unpublishPiece(
  jobId: string,
  pieceId: string,
): Promise<Result<undefined>> {
  const db = await database()
  const there = await db.$transaction(async (transaction) => {
    const piece = await transaction.piece.count({
      where: { id: pieceId, jobId },
    })
    if (piece === 0) return false
    await transaction.portfolioPage.updateMany({
      where: { pieceId },
      data: { published: null, publishedAt: null, changedAt: null },
    })
    return true
  })
  if (!there) return noPiece
  await removeOtherPictures(pieceId, [])
  return ok(undefined)
}
