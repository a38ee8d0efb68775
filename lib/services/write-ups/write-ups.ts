import 'server-only'
import type { Journal } from '#core/journal/journal'
import { unreachable } from '#core/result'
import type { Instant } from '#core/units'
import { type JsonLd, listingJsonLd } from '#core/write-ups/listing-json-ld'
import { writeCaption } from '#core/write-ups/write-caption'
import { writeCareCard } from '#core/write-ups/write-care-card'
import { type ListingLength, writeListing } from '#core/write-ups/write-listing'
import {
  wordsOfPhotos,
  writePhotoWords,
} from '#core/write-ups/write-photo-words'
import { writeReport } from '#core/write-ups/write-report'
import type {
  SentenceEdit,
  WriteUp,
  WriteUpName,
} from '#core/write-ups/write-up'
import type { WriteUpSettings } from '#core/write-ups/write-up-settings'
import { writeVideoDescription } from '#core/write-ups/write-video-description'
import { readVideoChapters } from '#services/captions/captions'
import { readJobTimeline } from '#services/timeline/timeline'
import { readWorkshop } from '#services/workshop/workshop'
import { readEdits } from '#services/write-ups/read-edits'
import { readWriteUpSettings } from '#services/write-ups/settings'

/** How much of a write-up is wanted, where that is not as the workshop has set it. */
type Wanted = {
  readonly length?: ListingLength | undefined
  readonly limit?: number | undefined
  /** Other edits than those kept. */
  readonly edits?: readonly SentenceEdit[]
}

/** A write-up of a job as of an instant, with the owner's own words in it; undefined when there is no such job. */
export async function readWriteUp(
  jobId: string,
  name: WriteUpName,
  now: Instant,
  wanted: Wanted = {},
): Promise<WriteUp | undefined> {
  const basis = await readBasis(jobId)
  return basis && write(basis, name, now, wanted)
}

/** All write-ups of a job and the journal that they are made from; undefined when there is no such job. */
export async function readWriteUps(
  jobId: string,
  now: Instant,
  length: ListingLength,
): Promise<
  | {
      readonly journal: Journal
      readonly writeUps: Readonly<Record<WriteUpName, WriteUp>>
      /** How long some of them may be, as the workshop has set it. */
      readonly limits: WriteUpSettings['limits']
    }
  | undefined
> {
  const basis = await readBasis(jobId)
  if (basis === undefined) return undefined
  return {
    journal: basis.found.journal,
    limits: basis.settings.limits,
    writeUps: {
      listing: write(basis, 'listing', now, { length }),
      video: write(basis, 'video', now),
      caption: write(basis, 'caption', now),
      care: write(basis, 'care', now),
      report: write(basis, 'report', now),
      photos: write(basis, 'photos', now),
    },
  }
}

type Basis = NonNullable<Awaited<ReturnType<typeof readBasis>>>

async function readBasis(jobId: string) {
  const [found, workshop, settings, edits] = await Promise.all([
    readJobTimeline(jobId),
    readWorkshop(),
    readWriteUpSettings(),
    readEdits(jobId),
  ])
  if (found === undefined) return undefined
  const { chapters } = await readVideoChapters(found.journal)
  return { found, chapters, workshop, settings, edits }
}

function write(
  {
    found,
    chapters,
    workshop,
    settings: { limits, links, tags },
    edits: kept,
  }: Basis,
  name: WriteUpName,
  now: Instant,
  wanted: Wanted = {},
): WriteUp {
  const edits = wanted.edits ?? kept.filter((edit) => edit.writeUp === name)
  const all = { ...found, settings: workshop, now, edits }
  switch (name) {
    case 'listing':
      return writeListing({
        ...all,
        length: wanted.length ?? 'full',
        limit: wanted.limit ?? limits.listing,
        titleLimit: limits.listingTitle,
      })
    case 'video':
      return writeVideoDescription({
        ...all,
        chapters,
        workshop: { links, tags },
        limit: wanted.limit ?? limits.video,
      })
    case 'caption':
      return writeCaption({
        ...all,
        tags,
        limit: wanted.limit ?? limits.caption,
      })
    case 'care':
      return writeCareCard(all)
    case 'report':
      return writeReport(all)
    case 'photos':
      return writePhotoWords(all)
    default:
      return unreachable(name)
  }
}

/**
 * A job's listing in the words of schema.org; undefined when there is no such job.
 *
 * @param origin of the addresses of its photos
 */
export async function readListingJsonLd(
  jobId: string,
  now: Instant,
  origin: string,
): Promise<JsonLd | undefined> {
  const basis = await readBasis(jobId)
  return (
    basis &&
    listingJsonLd({
      journal: basis.found.journal,
      settings: basis.workshop,
      listing: write(basis, 'listing', now),
      photoWords: wordsOfPhotos(write(basis, 'photos', now)),
      photoAddress: (id) => new URL(`/api/photos/${id}/screen`, origin).href,
    })
  )
}
