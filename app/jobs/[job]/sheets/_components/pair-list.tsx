import Link from 'next/link'
import type { Journal, Photo } from '#core/journal/journal'
import { commonCrop } from '#core/geometry/common-crop'
import type { PairName } from '#core/pairs/pair-names'
import { doubtSentence } from '#core/pairs/pair-state'
import type { KeptPair } from '#services/pairs/pairs'
import { UsualViews, viewField } from '../../../../_components/usual-views'
import {
  confirmPairAction,
  nameViewAction,
  separatePairAction,
} from '../actions'
import { Wipe } from './wipe.client'

/** The pairs of a job: each to wipe between, with how it was aligned and what its owner can say about it. */
export function PairList({
  journal,
  pairs,
  names,
  chosen,
  words,
}: {
  readonly journal: Journal
  readonly pairs: readonly KeptPair[]
  /** What each is called. */
  readonly names: readonly PairName[]
  /** The pair that the sheets show. */
  readonly chosen: { readonly before: string; readonly after: string }
  /** What a photo shows, for those who do not see it. */
  readonly words: (photo: Photo) => string
}) {
  const job = journal.job.id
  return (
    <>
      <UsualViews />
      <ul className="grid items-start gap-8 lg:grid-cols-2">
        {pairs.map((pair, index) => {
          const before = journal.photos.find(({ id }) => id === pair.before)
          const after = journal.photos.find(({ id }) => id === pair.after)
          if (before === undefined || after === undefined) return null
          const called = names[index] ?? { name: 'pair' }
          const { name } = called
          const used =
            chosen.before === pair.before && chosen.after === pair.after
          return (
            <li
              key={pair.id}
              id={`pair-${pair.id}`}
              className="flex min-w-0 flex-col gap-3"
            >
              <h3 className="text-lead font-bold first-letter:uppercase">
                {name}
              </h3>
              <PairPictures
                job={job}
                pair={pair}
                before={before}
                after={after}
                name={name}
                words={words}
              />
              <p>{stateWords(pair)}</p>
              <NameView job={job} pair={pair.id} called={called} />
              <div className="flex flex-wrap items-center gap-3">
                {used ? (
                  <span className="font-semibold">On the sheets above</span>
                ) : (
                  <Link
                    prefetch={false}
                    href={`/jobs/${job}/sheets?before=${pair.before}&after=${pair.after}`}
                    className="button"
                  >
                    Show on the sheets
                  </Link>
                )}
                {pair.confirmedAt === undefined ? (
                  <form action={confirmPairAction.bind(null, job, pair.id)}>
                    <button className="button">
                      Confirm<span className="sr-only"> the pair {name}</span>
                    </button>
                  </form>
                ) : (
                  <span className="text-sound font-semibold">✓ Confirmed</span>
                )}
                {/* Together, and their words level with what stands above. */}
                <div className="-ml-3 flex basis-full flex-wrap">
                  {pair.state.how !== 'waiting' && (
                    <Link
                      prefetch={false}
                      href={`/jobs/${job}/sheets/by-hand/${pair.id}`}
                      className="button button-quiet"
                    >
                      Align by hand<span className="sr-only">: {name}</span>
                    </Link>
                  )}
                  <form action={separatePairAction.bind(null, job, pair.id)}>
                    <button className="button button-quiet">
                      Not a pair<span className="sr-only">: {name}</span>
                    </button>
                  </form>
                </div>
              </div>
            </li>
          )
        })}
      </ul>
    </>
  )
}

/** A field for the view of a pair, open where it has none. */
function NameView({
  job,
  pair,
  called: { name, view, guess = '' },
}: {
  readonly job: string
  readonly pair: string
  readonly called: PairName
}) {
  const field = (
    <form
      action={nameViewAction.bind(null, job, pair)}
      className="flex flex-wrap items-end gap-3"
    >
      <label className="min-w-0 grow basis-48">
        <span className="mb-1.5 block font-semibold">
          {view === undefined ? 'Name the view' : 'Its name'}
          <span className="sr-only"> of {name}</span>
        </span>
        <input
          key={view ?? guess}
          {...viewField}
          required
          defaultValue={view ?? guess}
          className="input w-full"
        />
      </label>
      <button className="button">
        Save the name<span className="sr-only"> of {name}</span>
      </button>
    </form>
  )
  if (view === undefined) return field
  return (
    <details>
      <summary className="link flex min-h-12 w-fit cursor-pointer items-center">
        Call the view something else
        <span className="sr-only">: {name}</span>
      </summary>
      <div className="pt-2">{field}</div>
    </details>
  )
}

function PairPictures({
  job,
  pair,
  before,
  after,
  name,
  words,
}: {
  readonly job: string
  readonly pair: KeptPair
  readonly before: Photo
  readonly after: Photo
  readonly name: string
  readonly words: (photo: Photo) => string
}) {
  const { state } = pair
  const crop =
    'homography' in state
      ? commonCrop(state.homography, before, after)
      : undefined
  if (crop !== undefined) {
    return (
      <Wipe
        before={`/api/jobs/${job}/pairs/${pair.id}/before`}
        after={`/api/jobs/${job}/pairs/${pair.id}/after`}
        beforeWords={`Before: ${words(before)}`}
        afterWords={`After: ${words(after)}`}
        name={name}
        light={`/api/jobs/${job}/pairs/${pair.id}/light`}
        width={Math.round(crop.width)}
        height={Math.round(crop.height)}
      />
    )
  }
  return (
    <div className="grid grid-cols-2 gap-3">
      {[before, after].map((photo) => (
        <img
          key={photo.id}
          src={`/api/photos/${photo.id}/screen`}
          alt={`${photo.id === before.id ? 'Before' : 'After'}: ${words(photo)}`}
          width={photo.width}
          height={photo.height}
          loading="lazy"
          className="card bg-well h-auto w-full"
        />
      ))}
    </div>
  )
}

function stateWords({ state }: KeptPair): string {
  switch (state.how) {
    case 'waiting':
      return 'Waiting to be aligned.'
    case 'computed':
      return `Aligned by the pictures; sure to ${Math.round(state.confidence * 100)} %.`
    case 'by-hand':
      return 'Aligned by hand.'
    case 'none':
      return `Shown as they are. ${doubtSentence(state.doubt)}`
  }
}
