import type { Metadata } from 'next'
import Link from 'next/link'
import { daysWords, goesWords } from '#core/bin/bin-times'
import { momentWords } from '#core/time/moments'
import { readBin } from '#services/bin/bin'
import { readBinnedParts } from '#services/bin/bin-parts'
import { readBinSettings } from '#services/bin/bin-settings'
import { readReleasedOriginals } from '#services/bin/empty-bin'
import { now } from '#services/clock'
import { readWorkshop } from '#services/workshop/workshop'
import { EmptyState } from '../../_components/empty-state'
import { PageHeading } from '../../_components/page-heading'
import { requireLocalRequest } from '../../_session'
import { BinnedParts } from './_components/binned-parts'
import { BinRulesSection } from './_components/bin-rules-section'
import { BringBack } from './_components/bring-back'
import { EmptyNow } from './_components/empty-now'

export const metadata: Metadata = { title: 'Bin' }

export default async function BinPage() {
  await requireLocalRequest()
  const [{ photos, count }, parts, workshop, { rules }, released] =
    await Promise.all([
      readBin(),
      readBinnedParts(),
      readWorkshop(),
      readBinSettings(),
      readReleasedOriginals(),
    ])
  const isEmpty = photos.length === 0 && parts.length === 0
  const present = now()
  return (
    <>
      <PageHeading
        title="Bin"
        lead={`What is in here is in no timeline, on no sheet and in no list. ${
          rules.keepDays === undefined
            ? 'It stays until you bring it back.'
            : `You can bring it back for ${daysWords(rules.keepDays)}; then it goes for good.`
        }`}
      />
      {isEmpty && (
        <EmptyState title="The bin is empty">
          <p>
            Jobs, pieces, surfaces and photos that you remove wait here. A step
            that you remove is brought back on the timeline.
          </p>
        </EmptyState>
      )}
      {parts.length > 0 && (
        <section aria-labelledby="bin-parts" className="mb-8">
          <h2 id="bin-parts" className="text-lead mb-3 font-bold">
            Jobs, pieces and surfaces
          </h2>
          <BinnedParts parts={parts} present={present} style={workshop} />
        </section>
      )}
      {photos.length > 0 && (
        <h2 className="text-lead mb-3 font-bold">Photos</h2>
      )}
      {photos.length > 0 && (
        <ul className="grid grid-cols-1 gap-4 sm:grid-cols-2 lg:grid-cols-3">
          {photos.map((photo) => (
            <li key={photo.id} className="card flex flex-col gap-3 p-3">
              <a href={`/api/photos/${photo.id}/screen`}>
                <img
                  src={`/api/photos/${photo.id}/thumb`}
                  alt={`${photo.fileName} of ${photo.jobTitle}`}
                  loading="lazy"
                  className="bg-well aspect-4/3 w-full rounded-(--radius-control) object-cover"
                />
              </a>
              <div className="grow">
                <Link
                  prefetch={false}
                  href={`/jobs/${photo.jobId}/photos`}
                  className="link inline-flex min-h-11 items-center"
                >
                  {photo.jobTitle}
                </Link>
                <p className="text-ink-soft text-small break-words">
                  Taken {momentWords(photo.takenAt, present, workshop)}, removed{' '}
                  {momentWords(photo.removedAt, present, workshop)};{' '}
                  {goesWords(photo.goesAt, present, workshop)}
                </p>
              </div>
              <BringBack
                kind="photo"
                jobId={photo.jobId}
                id={photo.id}
                name={photo.fileName}
              />
            </li>
          ))}
        </ul>
      )}
      {count > photos.length && (
        <p className="mt-4">
          The last {photos.length} of {count} are shown.
        </p>
      )}
      <BinRulesSection rules={rules} released={released} />
      {!isEmpty && <EmptyNow rules={rules} />}
    </>
  )
}
