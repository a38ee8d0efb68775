'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { z } from 'zod'
import { minorUnitDigits } from '#core/money/minor-unit-digits'
import { now } from '#services/clock'
import {
  addProduct,
  changeProduct,
  readProduct,
} from '#services/shelf/products'
import { newProduct } from '#services/shelf/schema'
import { readWorkshop } from '#services/workshop/workshop'
import type { FormState } from '../_components/action-form.client'
import { numberOf, refusedFields, textOf } from '../_form-state'
import { requireLocalRequest } from '../_session'

/** Puts a product on the shelf and goes back to it. */
export async function addProductAction(
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest()
  const product = await readForm(form)
  if (!product.success) return refusedProduct(product.error)
  await addProduct(product.data, now())
  revalidatePath('/', 'layout')
  redirect('/shelf')
}

/** Changes a product. Recoat windows, which the form does not show, stay as they are. */
export async function changeProductAction(
  id: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest()
  const product = await readForm(form)
  if (!product.success) return refusedProduct(product.error)
  const before = await readProduct(id)
  const windows = before?.label.recoatWindows
  const changed = await changeProduct(id, {
    ...product.data,
    label: {
      ...product.data.label,
      ...(windows === undefined ? {} : { recoatWindows: [...windows] }),
    },
  })
  if (!changed.ok) {
    return { outcome: 'refused', message: changed.refusal.detail }
  }
  revalidatePath('/', 'layout')
  return { outcome: 'saved', message: 'Product saved.' }
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
  const celsius = numberOf(form, 'label.reference.celsius')
  const humidity = numberOf(form, 'label.reference.humidity')
  const solidsPercent = numberOf(form, 'label.solidsPercent')
  const amount = numberOf(form, 'pack.amount')
  const price = numberOf(form, 'pack.price')
  return newProduct.safeParse({
    name: form.get('name'),
    category: form.get('category'),
    chemistry: form.get('chemistry'),
    label: {
      touchMinutes: minutes('label.touchMinutes'),
      recoatMinutes: minutes('label.recoatMinutes'),
      recoatByMinutes: minutes('label.recoatByMinutes'),
      sandMinutes: minutes('label.sandMinutes'),
      handleMinutes: minutes('label.handleMinutes'),
      cureDays: numberOf(form, 'label.cureDays'),
      reference:
        celsius === undefined && humidity === undefined
          ? undefined
          : { celsius, humidity },
      minCelsius: numberOf(form, 'label.minCelsius'),
      maxHumidity: numberOf(form, 'label.maxHumidity'),
      spreadSquareMetresPerLitre: numberOf(
        form,
        'label.spreadSquareMetresPerLitre',
      ),
      solidsByVolume:
        solidsPercent === undefined ? undefined : solidsPercent / 100,
      maxThinningPercent: numberOf(form, 'label.maxThinningPercent'),
    },
    pack:
      amount === undefined && price === undefined
        ? undefined
        : {
            amount,
            unit: form.get('pack.unit'),
            price:
              price === undefined
                ? undefined
                : Math.round(price * 10 ** minorUnitDigits(currency)),
          },
    link: textOf(form, 'link'),
  })
}

/** The fields of the form where they differ from those of the schema. */
function refusedProduct(error: z.ZodError): FormState {
  const state = refusedFields(error)
  const { 'label.solidsByVolume': solids, ...errors } = state.errors ?? {}
  return solids === undefined
    ? state
    : {
        ...state,
        errors: {
          ...errors,
          'label.solidsPercent':
            'Volume solids are more than 0 and at most 100 %.',
        },
      }
}
