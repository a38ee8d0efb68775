import type { PieceChoice } from '#core/portfolio/show-piece'
import type { Result } from '#core/result'
import { keepDraft, readDraft } from '#services/portfolio/drafts'
import { publishPiece } from '#services/portfolio/publish'
import { addPair } from '#services/pairs/pairs'
import { makeJob } from './make-job'
import { arrival, type SentPhoto, sendPhotos } from './send-photos'

export type ShownJob = {
  readonly id: string
  readonly pieceId: string
  readonly before: string
  readonly after: string
  readonly pair: string
}

/** A job with a before and an after that its owner says belong together, though they cannot be laid on each other. */
export async function makeShownJob(
  before: SentPhoto,
  after: SentPhoto,
): Promise<ShownJob> {
  const job = await makeJob()
  const send = async (photo: SentPhoto, role: string) => {
    const { photos } = await sendPhotos(
      job.id,
      [photo],
      [
        ['role', role],
        ['view', 'front'],
      ],
    )
    return photos[0]?.id ?? ''
  }
  const ids = {
    before: await send(before, 'before'),
    after: await send(after, 'after'),
  }
  const pair = accepted(await addPair(job.id, ids, arrival))
  return { id: job.id, pieceId: job.pieceId, ...ids, pair: pair.id }
}

/** A choice of the one pair and of nothing else, with what is given in its place. */
export function choiceOf(
  job: ShownJob,
  more: Partial<PieceChoice> = {},
): PieceChoice {
  return {
    title: 'Sideboard in teal',
    story: '',
    pairs: [job.pair],
    photos: [],
    steps: [],
    finish: false,
    materials: false,
    size: false,
    price: 'none',
    contact: false,
    ...more,
  }
}

/** Publishes a piece with this choice, as its owner does after looking at it; gives its part of the address. */
export async function publishWith(
  jobId: string,
  pieceId: string,
  choice: PieceChoice,
  now = arrival,
): Promise<string> {
  accepted(await keepDraft(jobId, pieceId, choice))
  const { seen } = accepted(await readDraft(jobId, pieceId))
  return accepted(await publishPiece(jobId, pieceId, seen, now))
}

export function accepted<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.refusal.detail)
  return result.value
}
