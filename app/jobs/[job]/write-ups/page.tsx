import Link from 'next/link'
import { notFound } from 'next/navigation'
import type { Journal } from '#core/journal/journal'
import { lengthInBytes, lengthInUnits } from '#core/write-ups/fit-to-limit'
import { listingPhotos } from '#core/write-ups/listing-photos'
import {
  type ListingLength,
  listingLengths,
} from '#core/write-ups/write-listing'
import { wordsOfPhotos } from '#core/write-ups/write-photo-words'
import type {
  MissingFact,
  WriteUp,
  WriteUpName,
} from '#core/write-ups/write-up'
import { now } from '#services/clock'
import { readWriteUps } from '#services/write-ups/write-ups'
import { CopyButton } from '../../../_components/copy-button.client'
import { PlainText } from '../../../_components/plain-text'
import { PrintButton } from '../../../_components/print-button.client'
import { requireLocalRequest } from '../../../_session'

export default async function WriteUpsPage({
  params,
  searchParams,
}: PageProps<'/jobs/[job]/write-ups'>) {
  await requireLocalRequest()
  const { job } = await params
  const query = await searchParams
  const length = listingLengths.find((one) => one === query['length']) ?? 'full'
  const read = await readWriteUps(job, now(), length)
  if (read === undefined) notFound()
  const { journal, writeUps, limits } = read
  const { listing, video, caption, care, report, photos } = writeUps
  const of = { journal }
  return (
    <>
      <p className="text-ink-soft mb-6 max-w-prose print:hidden">
        Written from the journal alone. How long they may be, your links and
        your tags are set in{' '}
        <Link prefetch={false} href="/workshop#write-ups" className="link">
          Workshop
        </Link>
        .
      </p>
      <Ways
        titles={Object.entries(titles).filter(
          ([name]) =>
            (name !== 'report' || journal.job.client !== undefined) &&
            (name !== 'photos' || listingPhotos(journal).length > 0),
        )}
      />
      <div className="gap-10 lg:columns-2 print:columns-auto">
        <Text {...of} name="listing" writeUp={listing} limit={limits.listing}>
          <Lengths job={job} current={length} />
        </Text>
        <Text {...of} name="video" writeUp={video} limit={limits.video} bytes>
          <Link
            prefetch={false}
            href={`/jobs/${job}/write-ups/chapters`}
            className="button"
          >
            Chapters
          </Link>
        </Text>
        <Text {...of} name="caption" writeUp={caption} limit={limits.caption} />
        <Text {...of} name="care" writeUp={care}>
          <a href={`/api/jobs/${job}/write-ups/care.pdf`} className="button">
            Print it: PDF
          </a>
        </Text>
        {journal.job.client !== undefined && (
          <Text {...of} name="report" writeUp={report}>
            <PrintButton>Print the report</PrintButton>
          </Text>
        )}
        <PhotoTexts journal={journal} writeUp={photos} />
      </div>
    </>
  )
}

const titles = {
  listing: 'Sale listing',
  video: 'Video description',
  caption: 'Caption',
  care: 'Care card',
  report: 'Job report',
  photos: 'Photos for the listing, in words',
} as const satisfies Partial<Record<WriteUpName, string>>

/** The texts are long: on a phone each is one tap away. */
function Ways({
  titles,
}: {
  readonly titles: readonly (readonly [name: string, title: string])[]
}) {
  return (
    <nav
      aria-label="Texts on this page"
      className="mb-6 lg:hidden print:hidden"
    >
      <ul className="flex flex-wrap gap-x-6">
        {titles.map(([name, title]) => (
          <li key={name}>
            <a
              href={`#${name}`}
              className="link inline-flex min-h-12 items-center"
            >
              {title}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  )
}

function Lengths({
  job,
  current,
}: {
  readonly job: string
  readonly current: ListingLength
}) {
  return (
    <nav aria-label="Length of the listing">
      <ul className="flex flex-wrap gap-2">
        {listingLengths.map((length) => (
          <li key={length}>
            <Link
              prefetch={false}
              href={`/jobs/${job}/write-ups?length=${length}`}
              aria-current={length === current ? 'true' : undefined}
              className={`rounded-control flex min-h-12 items-center border-2 px-4 font-semibold ${length === current ? 'border-press bg-press-soft text-press' : 'border-line bg-paper hover:bg-well'}`}
            >
              {lengthWords[length]}
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  )
}

const lengthWords: Readonly<Record<ListingLength, string>> = {
  short: 'Short',
  medium: 'Medium',
  full: 'In full',
}

function Text({
  journal,
  name,
  writeUp,
  limit,
  bytes = false,
  children,
}: {
  readonly journal: Journal
  readonly name: keyof typeof titles
  readonly writeUp: WriteUp
  /** How long it may be; none where it goes out by itself. */
  readonly limit?: number
  readonly bytes?: boolean
  readonly children?: React.ReactNode
}) {
  const { leftOut, text } = writeUp
  const title = titles[name]
  const job = journal.job.id
  const changed = changedEdits(writeUp)
  return (
    <section
      aria-labelledby={name}
      data-printable
      className="mb-10 flex min-w-0 break-inside-avoid flex-col gap-4 print:block print:break-inside-auto"
    >
      <h2
        id={name}
        className="text-lead scroll-mt-4 break-after-avoid font-bold print:mb-2"
      >
        {title}
      </h2>
      <Questions journal={journal} missing={writeUp.missing} />
      {changed > 0 && (
        <p className="border-doubt bg-doubt-soft rounded-card border-2 p-4 font-semibold print:hidden">
          The journal has changed under {changed}{' '}
          {changed === 1 ? 'sentence' : 'sentences'} of yours.{' '}
          <Link
            prefetch={false}
            href={`/jobs/${job}/write-ups/${name}`}
            className="link inline-flex min-h-11 items-center"
          >
            Look at {changed === 1 ? 'it' : 'them'}
          </Link>
        </p>
      )}
      <div className="flex flex-wrap items-center gap-3 print:hidden">
        {children}
        <CopyButton text={text}>{`Copy the ${title.toLowerCase()}`}</CopyButton>
      </div>
      <PlainText text={text} label={title} />
      <p className="text-ink-soft print:hidden">
        {bytes ? lengthInBytes(text) : lengthInUnits(text)}
        {limit === undefined ? '' : ` of at most ${limit}`}
        {bytes ? ' bytes' : ' characters'}
        {leftOut.length === 0
          ? '.'
          : `; ${leftOut.length} less important ${leftOut.length === 1 ? 'sentence was' : 'sentences were'} left out to fit.`}
      </p>
      <div className="print:hidden">
        <Link
          prefetch={false}
          href={`/jobs/${job}/write-ups/${name}`}
          className="button"
        >
          {`Reword the ${title.toLowerCase()}`}
        </Link>
      </div>
    </section>
  )
}

function changedEdits({
  paragraphs,
  removed,
  leftOut,
  looseEdits,
  titleEdit,
}: WriteUp): number {
  const sentences = [
    ...paragraphs.flatMap((paragraph) => paragraph.sentences),
    ...leftOut,
    ...removed,
  ]
  return (
    sentences.filter(({ edit }) => edit?.changed).length +
    looseEdits.length +
    (titleEdit?.changed ? 1 : 0)
  )
}

function Questions({
  journal,
  missing,
}: {
  readonly journal: Journal
  readonly missing: readonly MissingFact[]
}) {
  if (missing.length === 0) return null
  return (
    <details className="border-doubt bg-doubt-soft rounded-card border-2 px-4 print:hidden">
      <summary className="flex min-h-12 cursor-pointer items-center py-2 font-bold">
        It would say more if it knew {missing.length}{' '}
        {missing.length === 1 ? 'thing' : 'things'}
      </summary>
      <ul className="mb-2">
        {missing.map((one) => (
          <li key={`${one.about.id} ${one.fact} ${one.question}`}>
            <Link
              prefetch={false}
              href={answerPlace(journal, one)}
              className="link inline-flex min-h-11 items-center"
            >
              {one.question}
            </Link>
          </li>
        ))}
      </ul>
    </details>
  )
}

/** Where a question is answered: the very field, where there is one. */
function answerPlace({ job, pieces }: Journal, missing: MissingFact): string {
  const { about, fact } = missing
  const details = `/jobs/${job.id}/details`
  const index = pieces.findIndex(({ id }) => id === about.id)
  if (about.kind === 'product') return `/shelf/${about.id}`
  if (about.kind === 'workshop') return '/workshop#cameras'
  if (fact === 'flawPhoto') return `/jobs/${job.id}/photos`
  if (fact === 'lead' || fact === 'lastCoat' || fact === 'work')
    return `/jobs/${job.id}/timeline`
  if (about.kind === 'piece' && index !== -1) {
    const field = ['width', 'depth', 'height'].includes(fact)
      ? `dimensions-${fact}`
      : ['material', 'age', 'ageKnownBy', 'hardware', 'liner'].includes(fact)
        ? fact
        : 'flaws'
    return `${details}#field-pieces-${index}-${field}`
  }
  const fields: Readonly<Record<string, string>> = {
    askingPriceMinor: 'field-askingPrice',
    collection: 'field-collection',
    client: 'field-client',
    finished: 'finished',
  }
  const field = fields[fact]
  return field === undefined ? details : `${details}#${field}`
}

/** The text alternative of each photo that goes with the listing, in its order. */
function PhotoTexts({
  journal,
  writeUp,
}: {
  readonly journal: Journal
  readonly writeUp: WriteUp
}) {
  const photos = listingPhotos(journal)
  if (photos.length === 0) return null
  const words = wordsOfPhotos(writeUp)
  const texts = photos.map(({ id }) => words.get(id) ?? '')
  const changed = changedEdits(writeUp)
  return (
    <section
      aria-labelledby="photos"
      className="mb-10 flex min-w-0 break-inside-avoid flex-col gap-4 print:block print:break-inside-auto"
    >
      <h2 id="photos" className="text-lead scroll-mt-4 font-bold">
        {titles.photos}
      </h2>
      <p className="text-ink-soft">
        In the order in which the listing counts them, for readers who cannot
        see them.
      </p>
      {changed > 0 && (
        <p className="border-doubt bg-doubt-soft rounded-card border-2 p-4 font-semibold">
          The journal has changed under your words for {changed}{' '}
          {changed === 1 ? 'photo' : 'photos'}.
        </p>
      )}
      <div className="print:hidden">
        <CopyButton
          text={texts.map((text, index) => `${index + 1}. ${text}`).join('\n')}
        >
          Copy the words
        </CopyButton>
      </div>
      <ol className="flex flex-col gap-3">
        {photos.map((photo, index) => (
          <li
            key={photo.id}
            className="card flex break-inside-avoid flex-wrap items-center gap-4 p-3"
          >
            <img
              src={`/api/photos/${photo.id}/thumb`}
              alt=""
              width={photo.width}
              height={photo.height}
              loading="lazy"
              className="bg-well size-20 shrink-0 object-cover"
            />
            <span className="min-w-0 grow basis-40">
              {index + 1}. {texts[index] || 'Left without words.'}
            </span>
          </li>
        ))}
      </ol>
      <div className="print:hidden">
        <Link
          prefetch={false}
          href={`/jobs/${journal.job.id}/write-ups/photos`}
          className="button"
        >
          Reword the words of photos
        </Link>
      </div>
    </section>
  )
}
