import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  measureOf,
  measureText,
  spreadRateMeasure,
  temperatureMeasure,
} from '../../../app/shelf/_label-measures'

function formOf(fields: Readonly<Record<string, string>>): FormData {
  const form = new FormData()
  for (const [name, value] of Object.entries(fields)) form.set(name, value)
  return form
}

describe('the measures of a label', () => {
  test('a form that is sent as it was shown keeps every value to the last digit, whatever the units', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(temperatureMeasure, spreadRateMeasure),
        fc.constantFrom('metric' as const, 'us' as const),
        fc.double({ min: -40, max: 60, noNaN: true }),
        (measure, units, kept) => {
          const form = formOf({
            field: measureText(measure, kept, units),
            'field.was': String(kept),
          })
          // A kept zero has no sign that matters.
          expect(measureOf(form, 'field', measure, units)).toBe(kept + 0)
        },
      ),
    )
  })

  test('what is typed in °F and square feet is kept in °C and square metres', () => {
    const form = formOf({ warm: '77', rate: '400' })
    expect(measureOf(form, 'warm', temperatureMeasure, 'us')).toBeCloseTo(25, 9)
    expect(measureOf(form, 'rate', spreadRateMeasure, 'us')).toBeCloseTo(
      9.81695,
      5,
    )
  })

  test('a changed number counts, an empty one is none, and words are no number', () => {
    const changed = formOf({ field: '50', 'field.was': '25' })
    expect(measureOf(changed, 'field', temperatureMeasure, 'us')).toBeCloseTo(
      10,
      9,
    )
    const emptied = formOf({ field: '', 'field.was': '25' })
    expect(
      measureOf(emptied, 'field', temperatureMeasure, 'us'),
    ).toBeUndefined()
    const words = formOf({ field: 'warm' })
    expect(measureOf(words, 'field', temperatureMeasure, 'us')).toBeNaN()
  })
})
