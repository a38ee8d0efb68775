import Link from 'next/link'
import { notFound } from 'next/navigation'
import type { Journal, Photo } from '#core/journal/journal'
import { pairNames } from '#core/pairs/pair-names'
import { isSurePair } from '#core/pairs/pair-state'
import { type SheetShape, sheetShapes } from '#core/sheets/plan-sheet'
import type { SheetLook } from '#core/sheets/sheet-design'
import { stepPhotos, storyPhotos } from '#core/sheets/story-photos'
import { sheetPair } from '#core/sheets/sheet-pair'
import { momentWords } from '#core/time/moments'
import { describePair } from '#core/write-ups/describe-pair'
import {
  alternativeOfPhoto,
  ownWordsOfPhotos,
} from '#core/write-ups/write-photo-words'
import { now } from '#services/clock'
import { readJournal } from '#services/journal/read-journal'
import { findPairsLater, readPairs, readSeparated } from '#services/pairs/pairs'
import { hasFfmpeg } from '#services/sheets/has-ffmpeg'
import { readMark } from '#services/sheets/own-mark'
import { readLook } from '#services/sheets/sheet-settings'
import { readWorkshop } from '#services/workshop/workshop'
import { readEdits } from '#services/write-ups/read-edits'
import { EmptyState } from '../../../_components/empty-state'
import { surfacesWords } from '../../../_words'
import { requireLocalRequest } from '../../../_session'
import { LookAgain } from './_components/look-again.client'
import { MarkSection } from './_components/mark-section'
import { PairList } from './_components/pair-list'
import { SheetMaker } from './_components/sheet-maker.client'
import { keepLookAction, keepPairAction, lookAgainAction } from './actions'

const shapes: readonly { readonly shape: SheetShape; readonly use: string }[] =
  [
    { shape: '1x1', use: 'Square' },
    { shape: '4x5', use: 'Upright' },
    { shape: '9x16', use: 'Tall' },
    { shape: '16x9', use: 'Wide' },
  ]
const subjects = [
  { id: 'pair', name: 'One pair' },
  { id: 'grid', name: 'Several pairs' },
  { id: 'story', name: 'The story in a few steps' },
  { id: 'steps', name: 'All steps' },
]
const designs = [
  { id: 'quiet', name: 'Quiet' },
  { id: 'bold', name: 'Bold' },
  { id: 'workshop-card', name: 'Workshop card' },
]
const grounds = [
  { id: 'light', name: 'Light' },
  { id: 'dark', name: 'Dark' },
]
const lights = [
  { id: 'as-taken', name: 'As taken' },
  { id: 'matched', name: 'Matched to the before' },
]
const elements = [
  { id: 'title', name: 'Title' },
  { id: 'finish', name: 'Finish' },
  { id: 'dimensions', name: 'Size' },
  { id: 'price', name: 'Price' },
  { id: 'workshop', name: 'Workshop' },
  { id: 'mark', name: 'Own mark' },
]

/** What a sheet shows until its owner chose otherwise. */
const firstLook: SheetLook = {
  design: 'quiet',
  ground: 'light',
  elements: ['title', 'finish', 'workshop'],
  light: 'as-taken',
}

export default async function SheetsPage({
  params,
  searchParams,
}: PageProps<'/jobs/[job]/sheets'>) {
  await requireLocalRequest()
  const { job } = await params
  const query = await searchParams
  const [journal, workshop, edits, look, mark, makesVideo] = await Promise.all([
    readJournal(job),
    readWorkshop(),
    readEdits(job),
    readLook(),
    readMark(),
    hasFfmpeg(),
  ])
  if (journal === undefined) notFound()
  const present = now()
  const later = await findPairsLater(job, present)
  const finding = later.ok && later.value
  const pairs = await readPairs(job)
  const asked = { before: one(query['before']), after: one(query['after']) }
  const pair = sheetPair(
    journal.photos,
    asked,
    pairs.filter(isSurePair),
    await readSeparated(job),
  )
  const words = (photo: Photo) =>
    [
      photo.view ?? '',
      surfacesWords(journal.pieces, photo.surfaceIds),
      momentWords(photo.taken.at, present, workshop),
    ]
      .filter((part) => part !== '')
      .join(', ')
  const ownWords = ownWordsOfPhotos(edits)
  const shows = (photo: Photo) => alternativeOfPhoto(journal, photo, ownWords)
  const names = pairNames(journal, pairs)
  const befores = journal.photos.filter((photo) => photo.role === 'before')
  const afters = journal.photos.filter((photo) => photo.role === 'after')
  if (pair === undefined && befores.length > 0 && afters.length > 0) {
    return (
      <section aria-labelledby="which-photos" className="flex flex-col gap-6">
        <div>
          <h2 id="which-photos" className="text-title mb-1 font-bold">
            Which photos belong together?
          </h2>
          <p className="text-ink-soft">
            Nothing says yet which before and after show the same view. Choose
            one of each: they are kept as a pair, laid on each other and put on
            the sheets.
          </p>
        </div>
        <p role="status" className="font-semibold empty:hidden">
          {finding ? 'Looking for photos that match …' : ''}
        </p>
        {finding && <LookAgain look={lookAgainAction.bind(null, job)} />}
        <ChoiceForm
          job={job}
          befores={befores}
          afters={afters}
          words={words}
          isFirst
        />
      </section>
    )
  }
  if (pair === undefined) {
    return (
      <EmptyState title="No pair yet">
        <p>
          A sheet needs a before photo and an after photo. Take the after from
          where you took the before, and give both the same view.
        </p>
        <Link
          prefetch={false}
          href={`/jobs/${job}/photos`}
          className="button button-main"
        >
          Go to the photos
        </Link>
      </EmptyState>
    )
  }
  const sure = pairs.filter(isSurePair)
  const steps = stepPhotos(journal, pair.before)
  const told = storyPhotos(journal, pair.before, 3)
  const chosen = `before=${pair.before.id}&after=${pair.after.id}`
  return (
    <div className="flex flex-col gap-10">
      <section aria-labelledby="sheet" className="flex flex-col gap-4">
        <h2 id="sheet" className="text-title font-bold">
          Make a sheet
        </h2>
        <SheetMaker
          job={job}
          photos={chosen}
          shapes={shapes.map(({ shape, use }) => ({
            id: shape,
            name: use,
            ...sheetShapes[shape],
          }))}
          shows={subjects.filter(
            ({ id }) =>
              // Offered ahead of the pairs: what stands below would move when they are found.
              (id !== 'grid' || sure.length > 1 || finding) &&
              ((id !== 'story' && id !== 'steps') || steps.length > 0),
          )}
          designs={designs}
          grounds={grounds}
          elements={elements}
          look={look ?? firstLook}
          keepLook={keepLookAction}
          lights={lights}
          shown={
            pairs.find(
              ({ before, after }) =>
                before === pair.before.id && after === pair.after.id,
            )?.id
          }
          pairs={sure.map((one) => ({
            id: one.id,
            name: names[pairs.indexOf(one)]?.name ?? 'pair',
            photos: [one.before, one.after],
            alternative: alternativeOf(journal, one),
          }))}
          story={steps.map(({ photo }) => ({
            id: photo.id,
            name: words(photo),
            photos: [photo.id],
            alternative: shows(photo),
            chosen: told.some((one) => one.photo.id === photo.id),
          }))}
          makesVideo={makesVideo}
          alternative={alternativeOf(journal, {
            before: pair.before.id,
            after: pair.after.id,
          })}
        />
      </section>
      <section aria-labelledby="pairs">
        <h2 id="pairs" className="text-title mb-1 font-bold">
          Pairs
        </h2>
        <p className="text-ink-soft mb-4">
          Before and after of one view, laid on each other. Draw the line across
          a pair to compare. Two fingers
          <span className="pointer-coarse:hidden">
            , the wheel, or + and −
          </span>{' '}
          enlarge both at once
          <span className="pointer-coarse:hidden">
            ; Shift and the arrow keys move them
          </span>
          .
        </p>
        <p role="status" className="mb-4 min-h-6 font-semibold">
          {finding ? 'Finding and aligning the pairs …' : ''}
        </p>
        {finding && <LookAgain look={lookAgainAction.bind(null, job)} />}
        <PairList
          journal={journal}
          pairs={pairs}
          names={names}
          chosen={{ before: pair.before.id, after: pair.after.id }}
          words={shows}
        />
      </section>
      <MarkSection job={job} mark={mark} />
      <section aria-labelledby="other-photos">
        <h2 id="other-photos" className="text-lead mb-1 font-bold">
          Use other photos
        </h2>
        <p className="text-ink-soft mb-4">
          What you keep as a pair is laid on each other and stands above with
          the others.
        </p>
        <ChoiceForm
          job={job}
          befores={befores}
          afters={afters}
          chosen={pair}
          words={words}
        />
      </section>
    </div>
  )
}

/** What a pair shows, for those who do not see it. */
function alternativeOf(
  journal: Journal,
  pair: { readonly before: string; readonly after: string },
): string {
  const before = journal.photos.find(({ id }) => id === pair.before)
  const after = journal.photos.find(({ id }) => id === pair.after)
  return before === undefined || after === undefined
    ? ''
    : describePair({ journal, before, after })
}

function one(
  value: string | readonly string[] | undefined,
): string | undefined {
  return typeof value === 'string' && value !== '' ? value : undefined
}

function ChoiceForm({
  job,
  befores,
  afters,
  chosen,
  words,
  isFirst = false,
}: {
  readonly job: string
  readonly befores: readonly Photo[]
  readonly afters: readonly Photo[]
  readonly chosen?: { readonly before: Photo; readonly after: Photo }
  readonly words: (photo: Photo) => string
  /** Whether there is no pair yet, and nothing else to do. */
  readonly isFirst?: boolean
}) {
  return (
    <form className="flex flex-col gap-6">
      <Choices
        name="before"
        legend="Before"
        photos={befores}
        chosen={chosen?.before.id}
        words={words}
      />
      <Choices
        name="after"
        legend="After"
        photos={afters}
        chosen={chosen?.after.id}
        words={words}
      />
      <div className="flex flex-wrap gap-3">
        <button
          className={isFirst ? 'button button-main' : 'button'}
          formAction={keepPairAction.bind(null, job)}
        >
          Keep these two as a pair
        </button>
        <button className="button button-quiet -ml-3">
          Only see them on a sheet
        </button>
      </div>
    </form>
  )
}

function Choices({
  name,
  legend,
  photos,
  chosen,
  words,
}: {
  readonly name: string
  readonly legend: string
  readonly photos: readonly Photo[]
  readonly chosen: string | undefined
  readonly words: (photo: Photo) => string
}) {
  return (
    <fieldset className="min-w-0">
      <legend className="mb-2 font-semibold">{legend}</legend>
      <div className="grid grid-cols-2 gap-3 sm:grid-cols-4 lg:grid-cols-6">
        {photos.map((photo) => (
          <label
            key={photo.id}
            className="card has-checked:border-press has-checked:ring-press flex cursor-pointer flex-col overflow-hidden has-checked:ring-2 has-focus-visible:outline-3 has-focus-visible:outline-(--press)"
          >
            <img
              src={`/api/photos/${photo.id}/thumb`}
              alt=""
              width={320}
              height={240}
              loading="lazy"
              className="bg-well aspect-[4/3] w-full object-cover"
            />
            <span className="flex items-start gap-2 p-2">
              <input
                type="radio"
                name={name}
                value={photo.id}
                required
                defaultChecked={photo.id === chosen}
                className="mt-0.5 size-6 shrink-0 accent-(--press)"
              />
              <span className="text-small">{words(photo)}</span>
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  )
}
