import 'server-only'
import { createHash } from 'node:crypto'
import type { Journal, Piece } from '#core/journal/journal'
import { isSurePair } from '#core/pairs/pair-state'
import {
  type ChoosablePair,
  type PictureOrigin,
  type PieceChoice,
  pairsOfPiece,
  photosOfPiece,
  proposedChoice,
  showPiece,
  stepsOfPiece,
} from '#core/portfolio/show-piece'
import { freeSlug } from '#core/portfolio/piece-slug'
import { type Result, ok, refused } from '#core/result'
import { ownWordsOfPhotos } from '#core/write-ups/write-photo-words'
import { notInBin } from '#services/bin/bin'
import { database } from '#services/database/open-database'
import { newId } from '#services/database/new-id'
import { readJournal } from '#services/journal/read-journal'
import { readAcceptedPair, readPairs } from '#services/pairs/pairs'
import { readColours } from '#services/portfolio/portfolio-pictures'
import {
  type PictureSource,
  type PublishedContent,
  pictureSource,
  pieceChoice,
  publishedContent,
} from '#services/portfolio/schema'
import { readWorkshop } from '#services/workshop/workshop'
import { readEdits } from '#services/write-ups/read-edits'

/** What a piece would show, were it put out now, with what its owner can choose from. */
export type PieceDraft = PublishedContent & {
  readonly journal: Journal
  readonly piece: Piece
  readonly choice: PieceChoice
  readonly pairs: readonly ChoosablePair[]
  readonly photos: Journal['photos']
  readonly steps: Journal['steps']
  /** Its part of the address: the one it has had before, else what its title gives. */
  readonly slug: string
  readonly isOut: boolean
  /** Whether what is out looks different. */
  readonly hasChanged: boolean
  /** Tells this draft from any other that looks different. */
  readonly seen: string
}

/** The refusal for an id that no piece of the job has. */
export const noPiece = refused({
  kind: 'not-found',
  detail: 'There is no such piece in this job. It may have been removed.',
} as const)

/** Keeps what the owner wants to be seen of a piece. What is out stays as it is. */
export async function keepDraft(
  jobId: string,
  pieceId: string,
  choice: PieceChoice,
): Promise<Result<undefined>> {
  const db = await database()
  return db.$transaction(async (transaction) => {
    const piece = await transaction.piece.count({
      where: { id: pieceId, jobId, ...notInBin, job: notInBin },
    })
    if (piece === 0) return noPiece
    const draft = JSON.stringify(choice)
    await transaction.portfolioPage.upsert({
      where: { pieceId },
      create: { id: newId(), pieceId, draft },
      update: { draft },
      select: { id: true },
    })
    return ok(undefined)
  })
}

/**
 * What a piece would show, were it put out now: by what its owner chose, else by what is proposed; without the colours that
 * its pictures tell.
 */
export async function readDraft(
  jobId: string,
  pieceId: string,
): Promise<Result<PieceDraft>> {
  const db = await database()
  const [journal, settings, kept, page, edits] = await Promise.all([
    readJournal(jobId),
    readWorkshop(),
    readPairs(jobId),
    db.portfolioPage.findUnique({
      where: { pieceId },
      select: { draft: true, slug: true, published: true },
    }),
    readEdits(jobId),
  ])
  const piece = journal?.pieces.find(({ id }) => id === pieceId)
  if (journal === undefined || piece === undefined) return noPiece
  const pairs = pairsOfPiece(
    journal,
    piece,
    kept.filter(isSurePair).map(({ id, before, after, view, state }) => ({
      id,
      before,
      after,
      ...(view !== undefined && { view }),
      ...('homography' in state && { homography: state.homography }),
    })),
  )
  const choice =
    page === null
      ? proposedChoice(journal, piece, pairs)
      : pieceChoice.parse(JSON.parse(page.draft))
  const { shown: chosen, origins } = showPiece({
    journal,
    piece,
    pairs,
    choice,
    settings,
    photoWords: ownWordsOfPhotos(edits),
  })
  const sources = await sourcesOf(jobId, origins)
  const content = { shown: chosen, sources }
  const out =
    page === null || page.published === null
      ? undefined
      : publishedContent.parse(JSON.parse(page.published))
  return ok({
    ...content,
    journal,
    piece,
    choice,
    pairs,
    photos: photosOfPiece(journal, piece),
    steps: stepsOfPiece(journal, piece),
    slug: page?.slug ?? freeSlug(chosen.title, 'piece', new Set()),
    isOut: out !== undefined,
    hasChanged:
      out !== undefined && printOf(out, choice) !== printOf(content, choice),
    seen: printOf(content, choice),
  })
}

/**
 * What visitors would see of a draft, with the colours that its pictures tell where its owner does not say. Pictures are
 * made where they are missing.
 */
export async function contentOf({
  piece,
  choice,
  shown,
  sources,
}: PieceDraft): Promise<PublishedContent> {
  return choice.colours === undefined
    ? {
        shown: {
          ...shown,
          colours: await readColours(piece.id, shown, sources),
        },
        sources,
      }
    : { shown, sources }
}

/** What is the same for two contents that look the same; colours that follow from the pictures need no telling. */
function printOf(
  { shown, sources }: PublishedContent,
  { colours }: PieceChoice,
): string {
  const told = colours === undefined ? { ...shown, colours: [] } : shown
  return createHash('sha256')
    .update(JSON.stringify(publishedContent.parse({ shown: told, sources })))
    .digest('hex')
}

async function sourcesOf(
  jobId: string,
  origins: ReadonlyMap<string, PictureOrigin>,
): Promise<Readonly<Record<string, PictureSource>>> {
  const db = await database()
  const rows = await db.photo.findMany({
    where: { jobId },
    select: { id: true, sha256: true, quarterTurns: true },
  })
  const photoSource = (id: string) => {
    const row = rows.find((one) => one.id === id)
    if (row === undefined) throw new Error(`the photo ${id} is gone`)
    const { sha256, quarterTurns } = row
    return { photo: id, sha256, quarterTurns }
  }
  const sources: Record<string, PictureSource> = {}
  for (const [name, origin] of origins) {
    if (origin.of === 'photo') {
      sources[name] = pictureSource.parse({
        of: 'photo',
        ...photoSource(origin.photo),
      })
      continue
    }
    const { side, before, after } = origin
    const accepted = await readAcceptedPair(jobId, before, after)
    if (accepted === undefined) {
      throw new Error(`the pair ${origin.pair} is aligned no more`)
    }
    sources[name] = pictureSource.parse({
      of: 'pair',
      side,
      before: { ...photoSource(before), size: accepted.before.size },
      after: { ...photoSource(after), size: accepted.after.size },
      homography: accepted.homography,
    })
  }
  return sources
}
