'use server'

import { revalidatePath } from 'next/cache'
import { typedSquareMetres } from '#core/measures/area'
import { changeAreas } from '#services/materials/areas'
import { surfaceAreasTyped } from '#services/materials/schema'
import type { FormState } from '../../../_components/action-form.client'
import { numberOf, textOf } from '../../../_form-state'
import { requireLocalRequest } from '../../../_session'

/** Keeps the areas of surfaces as they were typed; an empty field goes by the size of the piece again. */
export async function changeAreasAction(
  job: string,
  _previous: FormState,
  form: FormData,
): Promise<FormState> {
  await requireLocalRequest(job)
  const units = textOf(form, 'units') === 'us' ? 'us' : 'metric'
  const fields = [...form.keys()].filter((name) => name.startsWith('area.'))
  const areas = surfaceAreasTyped.safeParse(
    fields.map((name) => {
      const area = numberOf(form, name)
      return {
        surface: name.slice('area.'.length),
        squareMetres:
          area === undefined ? null : typedSquareMetres(area, units),
      }
    }),
  )
  if (!areas.success) {
    const wrong = areas.error.issues.map((issue) => issue.path[0])
    return {
      outcome: 'refused',
      errors: Object.fromEntries(
        fields
          .filter((_, index) => wrong.includes(index))
          .map((name) => [name, 'Give the area as a number, such as 1.25.']),
      ),
    }
  }
  const changed = await changeAreas(job, areas.data)
  if (!changed.ok) {
    return { outcome: 'refused', message: changed.refusal.detail }
  }
  revalidatePath(`/jobs/${job}`, 'layout')
  return { outcome: 'saved', message: 'Sizes saved.' }
}
