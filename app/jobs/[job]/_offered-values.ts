import type { StepValues } from './_components/step-fields.client'

type Query = Readonly<Record<string, string | string[] | undefined>>

const longestNote = 200

/**
 * The values of a step form with what was said in a video put where nothing stands yet; a note is added to. Nothing is
 * saved by it.
 *
 * @returns also when it was said, to show beside the form; undefined where nothing is offered
 */
export function offeredValues(
  values: StepValues,
  query: Query,
): { readonly values: StepValues; readonly said?: string } {
  const text = (name: string, pattern: RegExp) => {
    const value = query[name]
    return typeof value === 'string' && pattern.test(value) ? value : ''
  }
  const said = text('said', /^\d{1,3}(?::\d\d){1,2}$/)
  if (said === '') return { values }
  const note = text('note', /^[^\n]+$/).slice(0, longestNote)
  return {
    said,
    values: {
      ...values,
      grit: values.grit || text('grit', /^\d{1,4}$/),
      thinningPercent:
        values.thinningPercent ||
        text('thinningPercent', /^\d{1,3}(?:\.\d+)?$/),
      note: [values.note, note].filter((part) => part !== '').join(' '),
    },
  }
}
