import type { z } from 'zod'
import type { Photo, Step } from '#core/journal/journal'
import type { StepKind } from '#core/journal/vocabulary'
import type { Result } from '#core/result'
import type { Instant } from '#core/units'
import { readJobs } from '#services/jobs/jobs'
import { readJournal } from '#services/journal/read-journal'
import { addPair } from '#services/pairs/pairs'
import { keepDraft, readDraft } from '#services/portfolio/drafts'
import { publishPiece } from '#services/portfolio/publish'
import { pieceChoice, portfolioSettings } from '#services/portfolio/schema'
import { changePortfolioSettings } from '#services/portfolio/settings'

/** What stands on every page of the invented workshop's portfolio. */
const settings: z.input<typeof portfolioSettings> = {
  introduction:
    'Two bays, one pair of hands. Sound old furniture, cleaned, mended and finished to be used for another fifty years.',
  contact: 'hello@alder-yard.example\nVisits by appointment',
}

/** The piece of the demo that is finished, as its owner shows it. */
const shown = {
  piece: 'sideboard',
  title: 'Oak sideboard in deep teal',
  story: `It came out of a house clearance: sound joints, a dry orange varnish, and a white ring where somebody had put a hot pan down once too often.

The body was scuffed, primed twice and painted deep teal. The top was worth more than paint: it was stripped, sanded back to the oak, stained dark and sealed. The knobs are its own, in brass again, and the drawers are lined with leaves.`,
  pairs: ['front', 'left three-quarter', 'top'],
  photos: ['hardware', 'inside'],
  /** Of each kind the last step on the piece. */
  steps: [
    'scuff',
    'prime',
    'coat',
    'strip',
    'stain',
    'seal',
    'hardware',
    'liner',
  ],
} as const

/**
 * Puts the finished piece of the demo out in the portfolio, with its pairs laid on each other, as its owner would: through
 * the services alone. The demo must be there.
 *
 * @throws Error when a service refuses what the demo says
 */
export async function publishDemo(now: Instant): Promise<void> {
  await changePortfolioSettings(portfolioSettings.parse(settings))
  const { jobs } = await readJobs(undefined, 10)
  const job = jobs.find(({ pieces }) =>
    pieces.some(({ name }) => name === shown.piece),
  )
  const piece = job?.pieces.find(({ name }) => name === shown.piece)
  const journal = job && (await readJournal(job.id))
  if (piece === undefined || journal === undefined)
    throw new Error(`the demo has no ${shown.piece}`)
  const { id: jobId } = journal.job
  const photoOf = (view: string, role: Photo['role']) =>
    found(
      journal.photos.find((one) => one.view === view && one.role === role),
      `${role}: ${view}`,
    )
  const surfaces =
    journal.pieces.find(({ id }) => id === piece.id)?.surfaces ?? []
  const lastOf = (kind: StepKind) =>
    found(
      journal.steps.findLast(
        (step: Step) =>
          step.kind === kind &&
          step.surfaces.some((on) =>
            surfaces.some(({ id }) => id === on.surfaceId),
          ),
      ),
      kind,
    )
  const pairs: string[] = []
  for (const view of shown.pairs) {
    const photos = {
      before: photoOf(view, 'before'),
      after: photoOf(view, 'after'),
    }
    pairs.push(accepted(await addPair(jobId, photos, now)).id)
  }
  const choice = pieceChoice.parse({
    title: shown.title,
    story: shown.story,
    pairs,
    photos: shown.photos.map((view) => photoOf(view, 'after')),
    steps: shown.steps.map(lastOf),
    finish: true,
    materials: true,
    size: true,
    price: 'sold',
    contact: true,
  })
  accepted(await keepDraft(jobId, piece.id, choice))
  const { seen } = accepted(await readDraft(jobId, piece.id))
  accepted(await publishPiece(jobId, piece.id, seen, now))
}

function found(one: { readonly id: string } | undefined, what: string): string {
  if (one === undefined) throw new Error(`the demo has no ${what}`)
  return one.id
}

function accepted<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.refusal.detail)
  return result.value
}
