import fc from 'fast-check'
import { expect, test } from 'vitest'
import { gatherMarks, withinView } from '#core/timeline/gather-marks'

const anyMarks = fc
  .array(
    fc.record({
      from: fc.integer({ min: 0, max: 5000 }),
      length: fc.integer({ min: 0, max: 300 }),
    }),
    { maxLength: 60 },
  )
  .map((marks) =>
    marks
      .map(({ from, length }) => ({ from, to: from + length }))
      .toSorted((one, other) => one.from - other.from),
  )
const anyLength = fc.integer({ min: 1, max: 500 })

test('every mark is in exactly one group, in order', () => {
  fc.assert(
    fc.property(anyMarks, anyLength, (marks, least) => {
      const groups = gatherMarks(marks, least)
      expect(groups.flatMap((group) => group.marks)).toEqual(marks)
    }),
  )
})

test('no two groups begin closer than a finger is wide', () => {
  fc.assert(
    fc.property(anyMarks, anyLength, (marks, least) => {
      const starts = gatherMarks(marks, least).map(({ from }) => from)
      starts.slice(1).forEach((from, i) => {
        expect(from - (starts[i] ?? 0)).toBeGreaterThanOrEqual(least)
      })
    }),
  )
})

test('a group reaches over all of its marks', () => {
  fc.assert(
    fc.property(anyMarks, anyLength, (marks, least) => {
      for (const group of gatherMarks(marks, least)) {
        expect(group.from).toBe(Math.min(...group.marks.map((m) => m.from)))
        expect(group.to).toBe(Math.max(...group.marks.map((m) => m.to)))
      }
    }),
  )
})

test('what is in view touches it, and what is not does not', () => {
  fc.assert(
    fc.property(anyMarks, anyLength, (marks, from) => {
      const shown = withinView(marks, from, from + 400)
      for (const mark of marks)
        expect(shown.includes(mark)).toBe(
          !(mark.to < from || mark.from > from + 400),
        )
    }),
  )
})
