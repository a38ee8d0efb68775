import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { DryCheck } from '#core/drying/dry-check'
import { planGapDrawing } from '#core/timeline/plan-gap-drawing'
import { addMinutes, instant, minutes } from '#core/units'

const start = instant(Date.UTC(2026, 9, 24, 9, 25))

function check(
  waited: number,
  required: number,
  label: { readonly min: number; readonly max?: number },
): DryCheck {
  return {
    from: 'one',
    to: 'two',
    purpose: 'recoat',
    elapsed: { low: minutes(waited), high: minutes(waited) },
    label: {
      min: minutes(label.min),
      ...(label.max === undefined ? {} : { max: minutes(label.max) }),
    },
    required: minutes(required),
    verdict: 'in-window',
    reason: '',
    advice: '',
  }
}

describe('the drawing of a gap', () => {
  test('that was too short is to scale: 38 of 81 minutes end before the mark of dryness', () => {
    const drawing = planGapDrawing(check(38, 81, { min: 60 }), start, [])
    expect(drawing?.folded).toBeUndefined()
    expect((drawing?.waited ?? 0) / (drawing?.required ?? 1)).toBeCloseTo(
      38 / 81,
      10,
    )
    expect((drawing?.labelMin ?? 0) / (drawing?.required ?? 1)).toBeCloseTo(
      60 / 81,
      10,
    )
  })

  test('that lasted a night is folded, with the label’s times still apart', () => {
    const drawing = planGapDrawing(
      check(22 * 60, 77, { min: 60, max: 7 * 1440 }),
      start,
      [],
    )
    expect(drawing?.folded).toBeDefined()
    expect(drawing?.labelMin).toBeGreaterThan(0.3)
    expect(drawing?.required).toBeGreaterThan(drawing?.labelMin ?? 1)
    expect(drawing?.waited).toBeLessThan(drawing?.labelMax ?? 0)
  })

  test('is none where the later step may have come first', () => {
    expect(planGapDrawing(check(-5, 60, { min: 60 }), start, [])).toBe(
      undefined,
    )
  })

  test('draws only the air of the gap, with the lowest and highest that there was', () => {
    const air = [-30, 0, 30, 60, 90, 120].map((minute) => ({
      at: addMinutes(start, minute),
      celsius: minute === 60 ? 24 : 18,
      humidity: minute < 0 ? 90 : 50,
    }))
    const drawing = planGapDrawing(check(90, 60, { min: 60 }), start, air)
    expect(drawing?.temperature).toMatchObject({ lowest: 18, highest: 24 })
    expect(drawing?.humidity).toMatchObject({ lowest: 50, highest: 50 })
    expect(drawing?.temperature?.points).toHaveLength(4)
  })

  test('keeps time in order and inside its edges, folded or not', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 100_000, noNaN: true }),
        fc.double({ min: 0, max: 10_000, noNaN: true }),
        fc.double({ min: 1, max: 10_000, noNaN: true }),
        fc.double({ min: 0, max: 100_000, noNaN: true }),
        (waited, more, min, window) => {
          const required = min + more
          const max = required + window
          const drawing = planGapDrawing(
            check(waited, required, { min, max }),
            start,
            [],
          )
          const marks = [
            [0, 0],
            [min, drawing?.labelMin ?? NaN],
            [required, drawing?.required ?? NaN],
            [waited, drawing?.waited ?? NaN],
            [max, drawing?.labelMax ?? NaN],
          ] as const
          for (const [time, place] of marks) {
            expect(place).toBeGreaterThanOrEqual(0)
            expect(place).toBeLessThanOrEqual(1)
            for (const [later, laterPlace] of marks) {
              if (later > time) {
                expect(laterPlace).toBeGreaterThanOrEqual(place - 1e-9)
              }
            }
          }
        },
      ),
    )
  })
})
