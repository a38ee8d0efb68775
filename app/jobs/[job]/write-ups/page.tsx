import Link from 'next/link'
import { notFound } from 'next/navigation'
import { lengthInBytes, lengthInUnits } from '#core/write-ups/fit-to-limit'
import { listingLimits, writeListing } from '#core/write-ups/write-listing'
import {
  videoLimits,
  writeVideoDescription,
} from '#core/write-ups/write-video-description'
import type { WriteUp } from '#core/write-ups/write-up'
import { now } from '#services/clock'
import { readJobTimeline } from '#services/timeline/timeline'
import { readWorkshop } from '#services/workshop/workshop'
import { CopyButton } from '../../../_components/copy-button.client'
import { PlainText } from '../../../_components/plain-text'
import { requireLocalRequest } from '../../../_session'

export default async function WriteUpsPage({
  params,
  searchParams,
}: PageProps<'/jobs/[job]/write-ups'>) {
  await requireLocalRequest()
  const { job } = await params
  const query = await searchParams
  const [read, settings] = await Promise.all([
    readJobTimeline(job),
    readWorkshop(),
  ])
  if (read === undefined) notFound()
  const listingLimit = limitOf(query['listing'], listingLimits.text)
  const videoLimit = limitOf(query['video'], videoLimits.text)
  const listing = writeListing({
    ...read,
    settings,
    now: now(),
    limit: listingLimit,
  })
  const video = writeVideoDescription({ ...read, settings, limit: videoLimit })
  return (
    <div className="grid items-start gap-10 lg:grid-cols-2">
      <Text
        job={job}
        id="listing"
        title="Sale listing"
        writeUp={listing}
        limit={listingLimit}
        unit="characters"
        length={lengthInUnits(listing.text)}
        other={['video', videoLimit]}
      />
      <Text
        job={job}
        id="video"
        title="Video description"
        writeUp={video}
        limit={videoLimit}
        unit="bytes"
        length={lengthInBytes(video.text)}
        other={['listing', listingLimit]}
      />
    </div>
  )
}

const shortest = 200
const longest = 20_000

function limitOf(
  value: string | readonly string[] | undefined,
  usual: number,
): number {
  const number = typeof value === 'string' ? Math.trunc(Number(value)) : NaN
  return number >= shortest && number <= longest ? number : usual
}

function Text({
  job,
  id,
  title,
  writeUp,
  limit,
  unit,
  length,
  other,
}: {
  readonly job: string
  readonly id: string
  readonly title: string
  readonly writeUp: WriteUp
  readonly limit: number
  readonly unit: 'characters' | 'bytes'
  readonly length: number
  readonly other: readonly [name: string, limit: number]
}) {
  const { missing, leftOut, text } = writeUp
  return (
    <section aria-labelledby={id} className="flex min-w-0 flex-col gap-4">
      <h2 id={id} className="text-lead font-bold">
        {title}
      </h2>
      {missing.length > 0 && (
        <details className="border-doubt bg-doubt-soft rounded-card border-2 px-4">
          <summary className="flex min-h-12 cursor-pointer items-center font-bold">
            It would say more if it knew {missing.length}{' '}
            {missing.length === 1 ? 'thing' : 'things'}
          </summary>
          <ul className="list-disc pl-5">
            {missing.map((one) => (
              <li key={`${one.about.id} ${one.fact}`}>{one.question}</li>
            ))}
          </ul>
          <Link
            prefetch={false}
            href={`/jobs/${job}/details`}
            className="link inline-flex min-h-11 items-center"
          >
            Answer in Details
          </Link>
        </details>
      )}
      <CopyButton text={text}>{`Copy the ${title.toLowerCase()}`}</CopyButton>
      <PlainText text={text} label={title} />
      <form className="flex flex-wrap items-end gap-3">
        <input type="hidden" name={other[0]} value={other[1]} />
        <label className="flex flex-col gap-1 font-semibold">
          Longest, in {unit}
          <input
            type="number"
            name={id}
            min={shortest}
            max={longest}
            defaultValue={limit}
            className="input max-w-36"
          />
        </label>
        <button className="button">Fit to it</button>
        <p className="text-ink-soft basis-full">
          {length} {unit}
          {leftOut.length === 0
            ? '.'
            : `; ${leftOut.length} less important ${leftOut.length === 1 ? 'sentence was' : 'sentences were'} left out to fit.`}
        </p>
      </form>
    </section>
  )
}
