import type { Air } from '#core/air/air'
import { degreeSign, shownDegrees } from '#core/measures/temperature'
import type { Units } from '#core/measures/units-of-measure'
import { ActionForm, SubmitButton } from '../_components/action-form.client'
import { TextField } from '../_components/field.client'
import { addAirAction, refreshAirAction } from './actions'
import { LoggerFile } from './logger-file.client'

/** The air of now in two numbers, large enough for a dusty thumb, or all that a logger wrote down. */
export function AirForm({
  units,
  last,
}: {
  readonly units: Units
  /** The latest reading: what the gauge is likely to say still. */
  readonly last: Air | undefined
}) {
  return (
    <>
      <ActionForm
        action={addAirAction}
        className="@container flex flex-col gap-4"
        label="Air now"
      >
        <input type="hidden" name="units" value={units} />
        <div className="@min-[18rem]:[&_input]:text-title field-row [&_input]:min-h-16">
          <TextField
            name="temperature"
            label="Temperature"
            unit={degreeSign(units)}
            inputMode="decimal"
            autoComplete="off"
            {...(last !== undefined && {
              placeholder: tenths(shownDegrees(last.celsius, units)),
            })}
          />
          <TextField
            name="humidity"
            label="Humidity"
            unit="%"
            inputMode="decimal"
            autoComplete="off"
            {...(last !== undefined && { placeholder: tenths(last.humidity) })}
          />
        </div>
        <div>
          <SubmitButton>Log the air now</SubmitButton>
        </div>
      </ActionForm>
      <p className="mt-2 font-bold">From a logger</p>
      <p className="text-ink-soft mb-3 max-w-prose">
        A CSV file with a time, a temperature and a humidity on each line.
      </p>
      <LoggerFile onKept={refreshAirAction} />
    </>
  )
}

function tenths(value: number): string {
  return String(Math.round(value * 10) / 10 + 0)
}
