'use server'

import { revalidatePath } from 'next/cache'
import { temperatureWords, typedCelsius } from '#core/measures/temperature'
import { addAir } from '#services/air/air'
import { newAirReading } from '#services/air/schema'
import { now } from '#services/clock'
import type { FormState } from '../_components/action-form.client'
import { numberOf, refusedFields, textOf } from '../_form-state'
import { requireLocalRequest } from '../_session'

/** Keeps one reading of the air, taken now, in the units that the workshop reads. */
export async function addAirAction(
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest()
  // Those that the form was shown in: the workshop's may have changed since.
  const units = textOf(form, 'units') === 'us' ? 'us' : 'metric'
  const temperature = numberOf(form, 'temperature')
  const reading = newAirReading.safeParse({
    at: new Date(now()).toISOString(),
    celsius:
      temperature === undefined ? undefined : typedCelsius(temperature, units),
    humidity: numberOf(form, 'humidity'),
  })
  if (!reading.success) {
    const { celsius, ...errors } = refusedFields(reading.error).errors ?? {}
    return {
      outcome: 'refused',
      message: 'The reading needs another look.',
      errors: {
        ...(celsius === undefined
          ? {}
          : {
              temperature: `Give the temperature as a number from ${temperatureWords(-40, units)} to ${temperatureWords(60, units)}.`,
            }),
        ...errors,
      },
    }
  }
  await addAir([reading.data])
  revalidatePath('/', 'layout')
  return { outcome: 'saved', message: 'Air logged.' }
}

/** Shows the air anew everywhere, once a logger's file has been kept. */
export async function refreshAirAction(): Promise<void> {
  await requireLocalRequest()
  revalidatePath('/', 'layout')
}
