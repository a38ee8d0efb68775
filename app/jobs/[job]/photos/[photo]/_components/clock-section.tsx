import { clockWords } from '#core/time/clock-words'
import { type MomentStyle, momentWords } from '#core/time/moments'
import type { Instant } from '#core/units'
import type { ClockChoices } from '#services/cameras/learn-clock'
import {
  ActionForm,
  SubmitButton,
} from '../../../../../_components/action-form.client'
import { ChoiceGroup, TextField } from '../../../../../_components/field.client'
import { localText } from '../../../../../_local-text'
import { sameMomentAction, shownTimeAction } from '../actions'

/** Two ways to learn from one photo how far its camera's clock is off; all photos of that camera follow. */
export function ClockSection({
  job,
  photo,
  choices,
  style,
  now,
}: {
  readonly job: string
  readonly photo: string
  readonly choices: ClockChoices
  readonly style: MomentStyle
  readonly now: Instant
}) {
  const { cameraName, clock, byItsClock, others } = choices
  return (
    <section aria-labelledby="clock">
      <h2 id="clock" className="text-lead font-bold">
        The camera’s clock
      </h2>
      <p>
        {clock === undefined
          ? `Nobody has checked the clock of ${cameraName} yet.`
          : `The clock of ${cameraName} ${clockWords(clock)}.`}{' '}
        If this photo tells, all its photos are put right.
      </p>
      <details className="mt-2">
        <summary className="link flex min-h-12 cursor-pointer items-center">
          This photo shows a clock
        </summary>
        <ActionForm
          action={shownTimeAction.bind(null, job, photo)}
          label="This photo shows a clock"
          className="flex flex-col gap-3"
        >
          <TextField
            name="shown"
            label="What the clock shows"
            hint="A phone’s clock, or another that is right, in the workshop’s time zone."
            type="datetime-local"
            step={1}
            defaultValue={localText(byItsClock, style.zone)}
          />
          <label className="choice self-start">
            <input type="checkbox" name="seconds" />
            It shows seconds too
          </label>
          <div>
            <SubmitButton quiet>Set the camera’s clock by it</SubmitButton>
          </div>
        </ActionForm>
      </details>
      {others.length > 0 && (
        <details>
          <summary className="link flex min-h-12 cursor-pointer items-center">
            Taken at the same moment as another photo
          </summary>
          <ActionForm
            action={sameMomentAction.bind(null, job, photo)}
            label="Taken at the same moment as another photo"
            className="flex flex-col gap-3"
          >
            <ChoiceGroup
              name="other"
              label="Which one, by another camera?"
              hint="The likeliest come first. Within half a minute counts as the same moment."
            >
              <ul className="grid grid-cols-2 gap-2">
                {others.map(({ id, takenAt }) => {
                  const taken = momentWords(takenAt, now, style)
                  return (
                    <li key={id}>
                      <label className="choice w-full flex-col items-stretch">
                        <img
                          src={`/api/photos/${id}/thumb`}
                          alt=""
                          loading="lazy"
                          className="bg-well aspect-square w-full rounded-(--radius-control) object-cover"
                        />
                        <span className="flex items-center gap-2">
                          <input type="radio" name="other" value={id} />
                          {taken}
                        </span>
                      </label>
                    </li>
                  )
                })}
              </ul>
            </ChoiceGroup>
            <div>
              <SubmitButton quiet>It was the same moment</SubmitButton>
            </div>
          </ActionForm>
        </details>
      )}
    </section>
  )
}
