'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { z } from 'zod'
import { temperatureWords } from '#core/measures/temperature'
import type { Units } from '#core/measures/units-of-measure'
import { now } from '#services/clock'
import { addProduct, changeProduct } from '#services/shelf/products'
import { newProduct } from '#services/shelf/schema'
import { readWorkshop } from '#services/workshop/workshop'
import type { FormState } from '../_components/action-form.client'
import { moneyOf, numberOf, refusedFields, textOf } from '../_form-state'
import { requireLocalRequest } from '../_session'
import { undoWorkshopChangeAction } from '../_undo-change'
import {
  measureOf,
  spreadRateMeasure,
  temperatureMeasure,
} from './_label-measures'

/** Puts a product on the shelf and goes back to it. */
export async function addProductAction(
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest()
  const product = await readForm(form)
  if (!product.success) return refusedProduct(product.error, unitsOf(form))
  await addProduct(product.data, now())
  revalidatePath('/', 'layout')
  redirect('/shelf')
}

/** Changes a product. */
export async function changeProductAction(
  id: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(id)
  const product = await readForm(form)
  if (!product.success) return refusedProduct(product.error, unitsOf(form))
  const changed = await changeProduct(id, product.data, now())
  if (!changed.ok) {
    return { outcome: 'refused', message: changed.refusal.detail }
  }
  revalidatePath('/', 'layout')
  return { outcome: 'saved', message: 'Product saved.' }
}

/** Undoes a change of a product and goes back to the shelf: the form of the product holds what is undone. */
export async function undoProductChangeAction(
  change: string,
): Promise<FormState> {
  await requireLocalRequest(change)
  const undone = await undoWorkshopChangeAction(change)
  return undone.outcome === 'saved' ? redirect('/shelf') : undone
}

const minutesIn: Readonly<Record<string, number>> = {
  min: 1,
  h: 60,
  days: 1440,
}

async function readForm(
  form: FormData,
): Promise<z.ZodSafeParseResult<z.output<typeof newProduct>>> {
  const { currency } = await readWorkshop()
  const minutes = (name: string) => {
    const value = numberOf(form, name)
    const unit = minutesIn[textOf(form, `${name}.unit`) ?? 'min'] ?? 1
    return value === undefined ? undefined : value * unit
  }
  const recoatMinutes = minutes('label.recoatMinutes')
  const recoatByMinutes = minutes('label.recoatByMinutes')
  const againMinutes = minutes('label.againMinutes')
  const windows = windowsOf(form)
  const units = unitsOf(form)
  const celsius = measureOf(
    form,
    'label.reference.celsius',
    temperatureMeasure,
    units,
  )
  const humidity = numberOf(form, 'label.reference.humidity')
  const solidsPercent = numberOf(form, 'label.solidsPercent')
  const amount = numberOf(form, 'pack.amount')
  const price = moneyOf(form, 'pack.price', currency)
  return newProduct.safeParse({
    name: form.get('name'),
    category: form.get('category'),
    chemistry: form.get('chemistry'),
    label: {
      touchMinutes: minutes('label.touchMinutes'),
      ...(windows !== undefined
        ? { recoatWindows: windows }
        : againMinutes === undefined
          ? { recoatMinutes, recoatByMinutes }
          : {
              // Two windows with a dead zone between them.
              recoatWindows: [
                { fromMinutes: recoatMinutes, toMinutes: recoatByMinutes },
                { fromMinutes: againMinutes },
              ],
            }),
      sandMinutes: minutes('label.sandMinutes'),
      handleMinutes: minutes('label.handleMinutes'),
      cureDays: numberOf(form, 'label.cureDays'),
      reference:
        celsius === undefined && humidity === undefined
          ? undefined
          : { celsius, humidity },
      minCelsius: measureOf(
        form,
        'label.minCelsius',
        temperatureMeasure,
        units,
      ),
      maxHumidity: numberOf(form, 'label.maxHumidity'),
      spreadSquareMetresPerLitre: measureOf(
        form,
        'label.spreadSquareMetresPerLitre',
        spreadRateMeasure,
        units,
      ),
      solidsByVolume:
        solidsPercent === undefined ? undefined : solidsPercent / 100,
      maxThinningPercent: numberOf(form, 'label.maxThinningPercent'),
      densityKilogramsPerLitre: numberOf(
        form,
        'label.densityKilogramsPerLitre',
      ),
    },
    pack:
      amount === undefined && price === undefined
        ? undefined
        : {
            amount,
            unit: form.get('pack.unit'),
            price,
          },
    packsBought: numberOf(form, 'packsBought'),
    link: textOf(form, 'link'),
    paidLink: form.get('paidLink') === 'yes',
  })
}

/** The units that the form was shown in: the workshop's may have changed since. */
function unitsOf(form: FormData): Units {
  return textOf(form, 'units') === 'us' ? 'us' : 'metric'
}

/** Windows that the form has no fields for come back as they went out; the schema checks them like all else. */
function windowsOf(form: FormData): unknown {
  const text = textOf(form, 'label.windows')
  if (text === undefined) return undefined
  try {
    return JSON.parse(text)
  } catch {
    return text
  }
}

const fieldOf: Readonly<Record<string, string>> = {
  'label.solidsByVolume': 'label.solidsPercent',
  'label.recoatWindows.0.fromMinutes': 'label.recoatMinutes',
  'label.recoatWindows.0.toMinutes': 'label.recoatByMinutes',
  'label.recoatWindows.1.fromMinutes': 'label.againMinutes',
}
const messageOf: Readonly<Record<string, string>> = {
  chemistry: 'Choose how it dries: every wait is reckoned from it.',
  'label.recoatWindows.0.fromMinutes':
    'Say when the first window opens: 0 where the label allows it at once.',
  'label.solidsByVolume': 'Volume solids are more than 0 and at most 100 %.',
  'pack.price': 'Give the price of a pack as a number, such as 24.50.',
}

/** What is wrong, by the fields of the form where they differ from those of the schema. */
function refusedProduct(error: z.ZodError, units: Units): FormState {
  const celsius = (least: number) =>
    `Give a temperature from ${temperatureWords(least, units)} to ${temperatureWords(60, units)}.`
  const messages: Readonly<Record<string, string>> = {
    ...messageOf,
    'label.reference.celsius': celsius(-10),
    'label.minCelsius': celsius(-40),
  }
  const state = refusedFields(error)
  const errors: Record<string, string> = {}
  for (const [name, message] of Object.entries(state.errors ?? {})) {
    errors[fieldOf[name] ?? name] = messages[name] ?? message
  }
  return { ...state, errors }
}
