import type { Photo } from '#core/journal/journal'
import type { TimeBasis } from '#core/journal/vocabulary'
import { spanWidthWords } from '#core/time/clock-words'
import {
  type MomentStyle,
  dayInFull,
  spanWords,
  timeOfDay,
} from '#core/time/moments'
import { type Instant, minutesBetween } from '#core/units'
import {
  ActionForm,
  SubmitButton,
} from '../../../../../_components/action-form.client'
import { SelectField, TextField } from '../../../../../_components/field.client'
import { localText } from '../../../../../_local-text'
import { forgetTimeAction, typeTimeAction } from '../actions'
import { typedUncertainties } from '../typed-uncertainties'

/** When a photo was taken, how well that is known and why, and a form for whoever knows better. */
export function CaptureTimeSection({
  job,
  photo,
  isClockUnchecked,
  style,
  now,
}: {
  readonly job: string
  readonly photo: Pick<Photo, 'id' | 'taken' | 'basis'>
  /** Its time rests on the clock of a camera that nobody has checked. */
  readonly isClockUnchecked: boolean
  readonly style: MomentStyle
  readonly now: Instant
}) {
  const { earliest, at, latest } = photo.taken
  const isWide = minutesBetween(earliest, latest) >= 1
  return (
    <section aria-labelledby="taken">
      <h2 id="taken" className="text-lead font-bold">
        Taken {dayInFull(at, style)}, {timeOfDay(at, style)}
      </h2>
      <p>{basisWords[photo.basis]}</p>
      {isWide && (
        <p className="mt-1">
          Some time from {spanWords(earliest, latest, now, style)}.
        </p>
      )}
      {photo.basis !== 'arrival' && photo.basis !== 'file' && (
        <p className="mt-1">
          {isClockUnchecked
            ? `Known ${spanWidthWords(photo.taken)} by the camera’s own clock, which nobody has checked.`
            : `Known ${spanWidthWords(photo.taken)}.`}
        </p>
      )}
      <ActionForm
        action={typeTimeAction.bind(null, job, photo.id)}
        label="Type the time"
        className="mt-4 flex flex-col gap-3"
      >
        <TextField
          name="time"
          label="You know better? Type the time"
          type="datetime-local"
          step={1}
          defaultValue={localText(at, style.zone, true)}
        />
        <SelectField
          name="within"
          label="Give or take"
          options={typedUncertainties.map(({ seconds, text }) => ({
            value: String(seconds),
            text,
          }))}
        />
        <div>
          <SubmitButton quiet>Use this time</SubmitButton>
        </div>
      </ActionForm>
      {photo.basis === 'typed' && (
        <form action={forgetTimeAction.bind(null, job, photo.id)}>
          <button className="button button-quiet">
            Go by the photo’s own time again
          </button>
        </form>
      )}
    </section>
  )
}

const basisWords: Record<TimeBasis, string> = {
  typed: 'You typed it.',
  offset: 'The camera wrote it with its offset.',
  gps: 'From satellite time in the photo.',
  zone: 'The camera wrote no offset, so it was read in the workshop’s time zone.',
  file: 'From the file’s own date, which may be that of a copy: the photo says none.',
  arrival:
    'That is when it arrived here: neither photo nor file says more. It was taken some time before.',
}
