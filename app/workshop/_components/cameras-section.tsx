import { clockWords, guessedClockWords } from '#core/time/clock-words'
import type { MomentStyle } from '#core/time/moments'
import type { Instant } from '#core/units'
import type { CameraSummary } from '#services/cameras/cameras'
import type { ClockSuggestion } from '#services/cameras/learn-clock'
import type { WorkshopChange } from '#services/changes/workshop-changes'
import { OfferedChange } from '../../_components/offered-change'
import { ActionForm, SubmitButton } from '../../_components/action-form.client'
import {
  learnFromPairAction,
  learnFromSatelliteAction,
  setClockAction,
} from '../actions'

/** Every camera that has taken photos here: whether its clock can be relied on, and what to do when it cannot. */
export function CamerasSection({
  cameras,
  suggestions,
  changes,
  present,
  style,
}: {
  readonly cameras: readonly CameraSummary[]
  readonly suggestions: readonly ClockSuggestion[]
  /** Of clocks, those that can be undone. */
  readonly changes: readonly WorkshopChange[]
  readonly present: Instant
  readonly style: MomentStyle
}) {
  const names = cameras.map((camera) => camera.name)
  return (
    <section id="cameras" aria-labelledby="cameras-title">
      <h2 id="cameras-title" className="text-lead mb-1 font-bold">
        Cameras
      </h2>
      <p className="text-ink-soft mb-4 max-w-prose">
        Every camera and phone that has taken photos here. When a clock is set,
        all its photos are put right, earlier ones too. The originals stay as
        they are.
      </p>
      {cameras.length === 0 && <p>No photo here has named its camera yet.</p>}
      <ul className="flex flex-col gap-4">
        {cameras.map((camera) => {
          const twins = names.filter((name) => name === camera.name).length > 1
          const name =
            twins && camera.serial !== ''
              ? `${camera.name}, serial ${camera.serial}`
              : camera.name
          const change = changes.find(({ cameraIds }) =>
            cameraIds.includes(camera.id),
          )
          return (
            <li key={camera.id} className="card p-4">
              <CameraClockCard
                camera={camera}
                name={name}
                suggestion={suggestions.find(
                  (one) => one.cameraId === camera.id,
                )}
              />
              {change !== undefined && (
                <OfferedChange
                  change={change}
                  words={`how far the clock of ${name} is off`}
                  present={present}
                  style={style}
                />
              )}
            </li>
          )
        })}
      </ul>
    </section>
  )
}

function CameraClockCard({
  camera,
  name,
  suggestion,
}: {
  readonly camera: CameraSummary
  readonly name: string
  readonly suggestion: ClockSuggestion | undefined
}) {
  const { photoCount } = camera
  return (
    <>
      <h3 className="font-bold break-words">{name}</h3>
      <p className="text-ink-soft">
        {photoCount} {photoCount === 1 ? 'photo' : 'photos'}
      </p>
      <p className="mt-2">{stateOf(camera)}</p>
      {suggestion === undefined ? (
        camera.clock === undefined &&
        camera.clockOnlyCount > 0 && (
          <p className="mt-2">
            To check it, take a photo with it of a phone that shows the time,
            add that to a job, open it there and say what the phone shows.
          </p>
        )
      ) : (
        <Suggestion suggestion={suggestion} name={name} />
      )}
      <details className="mt-2">
        <summary className="link flex min-h-12 cursor-pointer items-center">
          Type how far it is off
        </summary>
        <ClockForm camera={camera} name={name} />
      </details>
    </>
  )
}

function stateOf({ clock, clockOnlyCount, photoCount }: CameraSummary): string {
  if (clock !== undefined) {
    return `Its clock ${clockWords(clock)}. Its photos are corrected by that.`
  }
  if (photoCount === 0) return 'None of its photos is in a job.'
  if (clockOnlyCount === 0) {
    return 'Its photos hold their time zone or satellite time, as those of a phone do, which sets its clock itself. If you set its clock by hand, check it.'
  }
  return 'Nobody has checked its clock. Waits between its own photos are right all the same; waits between them and anything else are unsure.'
}

function Suggestion({
  suggestion,
  name,
}: {
  readonly suggestion: ClockSuggestion
  readonly name: string
}) {
  if (suggestion.from === 'satellite') {
    const count = suggestion.photoIds.length
    return (
      <ActionForm
        action={learnFromSatelliteAction.bind(null, suggestion.cameraId)}
        label={`Satellite time in photos of ${name}`}
        className="mt-2"
      >
        <p className="mb-3">
          Satellite time in {count === 1 ? 'one' : count} of its photos says
          that its clock {clockWords(suggestion.clock)}.
        </p>
        <SubmitButton quiet>Set it by satellite time</SubmitButton>
      </ActionForm>
    )
  }
  const { photoId, otherPhotoId } = suggestion
  return (
    <ActionForm
      action={learnFromPairAction.bind(null, photoId, otherPhotoId)}
      label={`Two photos that look alike, one of ${name}`}
      className="mt-2"
    >
      <p>
        Two photos look alike, the second by another camera. Look closely: if
        you took both at the same moment, its clock{' '}
        {guessedClockWords(suggestion.clock)}. If not, leave it.
      </p>
      <div className="my-3 grid max-w-md grid-cols-2 gap-3">
        {[
          { id: photoId, alt: `The photo of ${name}` },
          { id: otherPhotoId, alt: 'The photo of the other camera' },
        ].map(({ id, alt }) => (
          <a key={id} href={`/api/photos/${id}/screen`}>
            <img
              src={`/api/photos/${id}/thumb`}
              alt={alt}
              loading="lazy"
              className="bg-well aspect-square w-full rounded-(--radius-control) object-cover"
            />
          </a>
        ))}
      </div>
      <SubmitButton quiet>Yes, the same moment</SubmitButton>
    </ActionForm>
  )
}

function ClockForm({
  camera,
  name,
}: {
  readonly camera: CameraSummary
  readonly name: string
}) {
  const seconds = camera.clock?.correctionSeconds ?? 0
  // A field keeps what stands in it when the page comes anew, unless it is another field: a clock may have been undone.
  const of = camera.clock === undefined ? 'unchecked' : String(seconds)
  return (
    <ActionForm
      action={setClockAction.bind(null, camera.id)}
      label={`Clock of ${name}`}
    >
      <fieldset className="flex flex-wrap items-end gap-3">
        <legend className="sr-only">Clock of {name}</legend>
        <label className="flex flex-col gap-1.5 font-semibold">
          Off by, in minutes
          <input
            key={of}
            name="minutes"
            inputMode="decimal"
            autoComplete="off"
            defaultValue={
              camera.clock === undefined ? '' : minutesText(seconds)
            }
            className="input max-w-32"
          />
        </label>
        <label className="flex flex-col gap-1.5 font-semibold">
          Direction
          <select
            key={of}
            name="direction"
            defaultValue={seconds < 0 ? 'fast' : 'slow'}
            className="input"
          >
            <option value="slow">slow</option>
            <option value="fast">fast</option>
          </select>
        </label>
        <SubmitButton quiet>Set the clock</SubmitButton>
      </fieldset>
    </ActionForm>
  )
}

/** Minutes to the second, without a tail of digits. */
function minutesText(seconds: number): string {
  return String(Math.round((Math.abs(seconds) / 60) * 100) / 100)
}
