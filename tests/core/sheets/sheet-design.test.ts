import { expect, test } from 'vitest'
import {
  sheetColours,
  sheetDesigns,
  sheetGrounds,
} from '#core/sheets/sheet-design'

/** Relative luminance, WCAG 2.2 section "relative luminance": sRGB made linear, weighted. */
function luminance(colour: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5]
    .map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255)
    .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4))
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}

/** Contrast ratio, WCAG 2.2: (lighter + 0.05) / (darker + 0.05). */
function contrast(one: string, other: string): number {
  const [dark = 0, light = 0] = [luminance(one), luminance(other)].toSorted(
    (a, b) => a - b,
  )
  return (light + 0.05) / (dark + 0.05)
}

test('the measure is right: black on white is 21 to 1', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6)
})

// WCAG 2.2, success criterion 1.4.6 (AAA): at least 7 to 1.
test.each(
  sheetDesigns.flatMap((design) =>
    sheetGrounds.flatMap((ground) =>
      [true, false].map((printed) => [design, ground, printed] as const),
    ),
  ),
)(
  'words of %s on %s ground can be read in glare',
  (design, ground, printed) => {
    const colours = sheetColours({ design, ground }, printed)
    for (const ink of [colours.ink, colours.softInk]) {
      expect(contrast(ink, colours.ground)).toBeGreaterThanOrEqual(7)
    }
  },
)
