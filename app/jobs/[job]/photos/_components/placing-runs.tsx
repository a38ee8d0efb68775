import type { Journal, WorkshopSettings } from '#core/journal/journal'
import { type Place, placeKey } from '#core/placing/place'
import { placeOfStep } from '#core/placing/sequence-items'
import { dayInFull, timeOfDay } from '#core/time/moments'
import { startOfDay } from '#core/time/zone'
import type { ShownBurst } from '#services/placing/read-placing'
import {
  ActionForm,
  type FormAction,
  SubmitButton,
} from '../../../../_components/action-form.client'
import { placeWords, sureEnough, sureWords } from '../_place-words'

/** The photos that nobody has placed, a day a form: one tap places all that is proposed, each burst can be changed first. */
export function PlacingRuns({
  bursts,
  journal,
  workshop,
  confirm,
}: {
  readonly bursts: readonly ShownBurst[]
  readonly journal: Journal
  readonly workshop: WorkshopSettings
  readonly confirm: FormAction
}) {
  const photos = new Map(journal.photos.map((photo) => [photo.id, photo]))
  const days = new Map<string, ShownBurst[]>()
  for (const burst of bursts) {
    const at = photos.get(burst.photoIds[0] ?? '')?.taken.at
    if (at === undefined) continue
    const day = dayInFull(startOfDay(at, workshop.zone), workshop)
    days.set(day, [...(days.get(day) ?? []), burst])
  }
  if (days.size === 0) return null
  return (
    <section aria-labelledby="to-place" className="mb-8">
      <h2 id="to-place" className="text-lead font-bold">
        Not placed yet
      </h2>
      <p className="text-ink-soft mb-4 max-w-prose">
        Each line says what its photos may show. Change what is wrong, leave
        what you do not know, then place the rest in one tap. What is only a
        guess is left unless you choose it.
      </p>
      {[...days].map(([day, own]) => (
        <ActionForm
          key={day}
          action={confirm}
          label={`Photos of ${day}`}
          className="card mb-6 p-4"
        >
          <h3 className="mb-3 font-bold">{day}</h3>
          <ol className="divide-line divide-y">
            {own.map((burst) => (
              <li
                key={burst.photoIds[0]}
                className="@container py-4 first:pt-0"
              >
                <BurstRow
                  burst={burst}
                  journal={journal}
                  times={timesOf(burst, photos, workshop)}
                />
              </li>
            ))}
          </ol>
          <div className="mt-2 flex flex-wrap">
            <SubmitButton pendingText="Placing …">
              Place the photos of this day
            </SubmitButton>
          </div>
        </ActionForm>
      ))}
    </section>
  )
}

function timesOf(
  { photoIds }: ShownBurst,
  photos: ReadonlyMap<string, Journal['photos'][number]>,
  workshop: WorkshopSettings,
): string {
  const at = photos.get(photoIds[0] ?? '')?.taken.at
  return at === undefined ? '' : timeOfDay(at, workshop)
}

function BurstRow({
  burst,
  journal,
  times,
}: {
  readonly burst: ShownBurst
  readonly journal: Journal
  readonly times: string
}) {
  const { photoIds, folds, proposals } = burst
  const first = proposals[0]
  const id = photoIds[0] ?? ''
  const isSure = first !== undefined && first.confidence >= sureEnough
  const count = photoIds.length
  const behind = folds.flatMap((fold) => fold.behind)
  const what = `${times}, ${count === 1 ? 'one photo' : `${count} photos`}`
  return (
    <div className="grid items-start gap-3 @min-[16rem]:grid-cols-[7rem_1fr] @min-[30rem]:grid-cols-[11rem_1fr]">
      <div className="flex flex-col gap-1">
        {folds.map((fold) => (
          <a
            key={fold.front}
            href={`/jobs/${journal.job.id}/photos/${fold.front}`}
            className="block"
          >
            <img
              src={`/api/photos/${fold.front}/thumb`}
              alt={`Taken at ${times}`}
              loading="lazy"
              width={320}
              height={240}
              className="bg-well rounded-control aspect-[4/3] w-full object-cover"
            />
          </a>
        ))}
      </div>
      <div className="min-w-0">
        <p>
          <span className="font-bold">{times}</span>
          {count > 1 && <span> · {count} photos</span>}
          {first !== undefined && (
            <span className="text-ink-soft">
              {' '}
              · {sureWords(first.confidence)}
            </span>
          )}
        </p>
        {first !== undefined && !isSure && (
          <p className="text-ink-soft text-small">
            {placeWords(first.place, journal.pieces)}?
          </p>
        )}
        <input type="hidden" name="burst" value={id} />
        <input type="hidden" name={`photos ${id}`} value={photoIds.join(' ')} />
        <select
          name={`place ${id}`}
          aria-label={`What it shows: ${what}`}
          defaultValue={isSure ? valueOf(first.place) : ''}
          className="input mt-2"
        >
          <optgroup label="Proposed">
            {proposals.map(({ place }) => (
              <option key={placeKey(place)} value={valueOf(place)}>
                {optionWords(place, journal)}
              </option>
            ))}
          </optgroup>
          <option value="">Leave for later</option>
          <Others proposals={proposals} journal={journal} />
        </select>
        {behind.length > 0 && (
          <details className="mt-2">
            <summary className="link inline-flex min-h-11 cursor-pointer items-center">
              {behind.length === 1
                ? 'One more like it'
                : `${behind.length} more like it`}
            </summary>
            <ul className="mt-2 grid grid-cols-3 gap-2 sm:grid-cols-5">
              {behind.map((photo) => (
                <li key={photo}>
                  <a href={`/jobs/${journal.job.id}/photos/${photo}`}>
                    <img
                      src={`/api/photos/${photo}/thumb`}
                      alt={`Taken at ${times}, like the one in front`}
                      loading="lazy"
                      width={320}
                      height={240}
                      className="bg-well rounded-control aspect-[4/3] w-full object-cover"
                    />
                  </a>
                </li>
              ))}
            </ul>
          </details>
        )}
      </div>
    </div>
  )
}

/** What was not proposed: the steps that are there, before and after. */
function Others({
  proposals,
  journal,
}: {
  readonly proposals: ShownBurst['proposals']
  readonly journal: Journal
}) {
  const proposed = new Set(proposals.map(({ place }) => placeKey(place)))
  const places: readonly Place[] = [
    { as: 'before' },
    { as: 'after' },
    ...journal.steps.map(placeOfStep).reverse(),
  ]
  const others = places.filter((place) => !proposed.has(placeKey(place)))
  if (others.length === 0) return null
  return (
    <optgroup label="Something else">
      {others.map((place) => (
        <option key={placeKey(place)} value={valueOf(place)}>
          {optionWords(place, journal)}
        </option>
      ))}
    </optgroup>
  )
}

function optionWords(place: Place, { pieces }: Journal): string {
  const words = placeWords(place, pieces)
  return place.as === 'step' && place.stepId === undefined
    ? `${words} (new step)`
    : words
}

/** A place as the action takes it. */
function valueOf(place: Place): string {
  if (place.as !== 'step') return JSON.stringify({ as: place.as })
  const { stepId, kind, surfaceIds, coat } = place
  return JSON.stringify(
    stepId === undefined
      ? { as: 'step', kind, surfaces: surfaceIds, coat }
      : { as: 'step', step: stepId },
  )
}
