import type { Journal } from '#core/journal/journal'
import type { StepHours } from '#core/money/job-books'
import type { WorkHours } from '#core/money/work-hours'
import {
  ActionForm,
  SubmitButton,
} from '../../../../_components/action-form.client'
import { TextField } from '../../../../_components/field.client'
import { stepName, surfacesWords } from '../../../../_words'
import { correctHoursAction } from '../actions'

/** The minutes of every step: what its photos tell stands in the field until another number is typed. */
export function HoursForm({
  journal,
  hours,
  corrections,
}: {
  readonly journal: Journal
  readonly hours: WorkHours
  readonly corrections: readonly StepHours[]
}) {
  const firstOfSession = new Map(
    hours.sessions.map((session) => [session.stepIds[0], session]),
  )
  return (
    <ActionForm
      action={correctHoursAction.bind(null, journal.job.id)}
      label="Hours by step"
      className="flex flex-col gap-3"
    >
      <ol className="flex flex-col gap-3">
        {hours.steps.map((work, index) => {
          const step = journal.steps.find(({ id }) => id === work.stepId)
          if (step === undefined) return null
          const typed = corrections.find(({ stepId }) => stepId === step.id)
          const session = firstOfSession.get(step.id)
          return (
            <li key={step.id} className="card min-w-0 p-4 wrap-anywhere">
              <input type="hidden" name="step" value={step.id} />
              <div className="grid items-end gap-3 sm:grid-cols-[1fr_9rem]">
                <p>
                  <span className="font-semibold">
                    {stepName(step.kind, step.surfaces[0]?.coat)}
                  </span>{' '}
                  <span className="text-ink-soft">
                    {surfacesWords(
                      journal.pieces,
                      step.surfaces.map((on) => on.surfaceId),
                    )}
                  </span>
                  <span className="text-ink-soft text-small block">
                    {basisWords(work.basis, work.isLong)}
                  </span>
                </p>
                <TextField
                  name={`${index}.workMinutes`}
                  label="Hands-on"
                  unit="min"
                  inputMode="numeric"
                  autoComplete="off"
                  placeholder={
                    work.minutes === null ? '' : String(work.minutes)
                  }
                  defaultValue={text(typed?.workMinutes)}
                />
              </div>
              {session !== undefined && (
                <details className="mt-2">
                  <summary className="link flex min-h-12 cursor-pointer items-center">
                    Set-up {session.setUpMinutes} min, clean-up{' '}
                    {session.cleanUpMinutes} min, shared by{' '}
                    {session.pieces + session.otherPieces}{' '}
                    {session.pieces + session.otherPieces === 1
                      ? 'piece'
                      : 'pieces'}
                  </summary>
                  <div className="field-row mt-2">
                    <TextField
                      name={`${index}.setUpMinutes`}
                      label="Set-up"
                      unit="min"
                      inputMode="numeric"
                      placeholder={String(session.setUpMinutes)}
                      defaultValue={text(typed?.setUpMinutes)}
                    />
                    <TextField
                      name={`${index}.cleanUpMinutes`}
                      label="Clean-up"
                      unit="min"
                      inputMode="numeric"
                      placeholder={String(session.cleanUpMinutes)}
                      defaultValue={text(typed?.cleanUpMinutes)}
                    />
                    <TextField
                      name={`${index}.otherPieces`}
                      label="Pieces of other jobs"
                      inputMode="numeric"
                      placeholder="0"
                      defaultValue={
                        typed === undefined || typed.otherPieces === 0
                          ? ''
                          : String(typed.otherPieces)
                      }
                    />
                  </div>
                </details>
              )}
            </li>
          )
        })}
      </ol>
      <div>
        <SubmitButton>Save the hours</SubmitButton>
      </div>
    </ActionForm>
  )
}

function basisWords(
  basis: WorkHours['steps'][number]['basis'],
  isLong: boolean,
): string {
  switch (basis) {
    case 'corrected':
      return 'as you typed it'
    case 'span':
      return isLong
        ? 'from first to last photo, longer than a stretch of work: take the waits out'
        : 'from first to last photo or typed time'
    case 'unknown':
      return 'no time yet: one photo is a moment, not a stretch'
  }
}

function text(minutes: number | undefined): string {
  return minutes === undefined ? '' : String(minutes)
}
