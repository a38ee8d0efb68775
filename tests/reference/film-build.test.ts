/*
 * Film build by definition: one litre at 1 µm covers 1000 m², one US gallon (231 in³) at 1 mil covers 231 / 0.001 / 144 =
 * 1604.1667 ft². Exact factors of units: NIST SP 811, appendix B.8 (US gallon 3.785411784 l, fluid ounce 29.5735295625 ml,
 * inch 25.4 mm, square foot 0.09290304 m²). The examples are worked by hand in US units, as the sheets state them, and the
 * core, which knows metric units alone, must come to the same. Transfer shares of 0.65 (low-pressure spray) are the
 * yardstick of California's air districts, quoted second-hand; 0.95 (brush) and 0.30 (conventional spray) are common
 * practice, no source.
 */
import { describe, expect, test } from 'vitest'
import {
  dryFilmMicrometres,
  filmRatio,
  litresNeeded,
  spreadAtDryFilm,
  wetFilmMicrometres,
} from '#core/film/film-build'
import { surfaceArea } from '#core/film/surface-area'

const micrometresPerMil = 25.4
const litresPerGallon = 3.785411784
const litresPerFluidOunce = 0.0295735295625
const squareMetresPerSquareFoot = 0.09290304
const squareFeetPerGallon = litresPerGallon / squareMetresPerSquareFoot

const spread = spreadAtDryFilm(0.38, 1.5 * micrometresPerMil)

describe('film build', () => {
  test('F1: 38 % solids at 1.5 mil dry: 1604.1667 x 0.38 / 1.5 = 406.39 ft² a gallon', () => {
    expect(spread * squareFeetPerGallon).toBeCloseTo(406.39, 2)
  })

  test('F2: the wet film for that: 1.5 / 0.38 = 3.947 mil', () => {
    expect(
      wetFilmMicrometres(1.5 * micrometresPerMil, 0.38) / micrometresPerMil,
    ).toBeCloseTo(3.947, 3)
  })

  test('F3: thinned by 10 parts on 100: 1.5 / (0.38 / 1.10) = 4.342 mil', () => {
    expect(
      wetFilmMicrometres(1.5 * micrometresPerMil, 0.38, 10) / micrometresPerMil,
    ).toBeCloseTo(4.342, 3)
  })

  test('F4: 40 % solids at 40 µm dry: 10 m² a litre, 100 µm wet', () => {
    expect(spreadAtDryFilm(0.4, 40)).toBeCloseTo(10, 9)
    expect(wetFilmMicrometres(40, 0.4)).toBeCloseTo(100, 9)
  })

  // 36 x 18 + 2 x 18 x 32 + 36 x 32 = 648 + 1152 + 1152 = 2952 in² = 20.5 ft² = 1.9045 m².
  const chest = {
    id: 'chest',
    name: 'chest',
    kind: 'chest of drawers',
    widthMillimetres: 36 * 25.4,
    depthMillimetres: 18 * 25.4,
    heightMillimetres: 32 * 25.4,
    surfaces: [{ id: 'body', name: 'body' }],
  }
  const area = surfaceArea(chest, { name: 'body' }) ?? NaN

  test('F5: a chest of 36 x 18 x 32 in, top, sides and front: 20.5 ft², 1.9045 m²', () => {
    expect(area).toBeCloseTo(1.9045, 4)
    expect(area / squareMetresPerSquareFoot).toBeCloseTo(20.5, 9)
  })

  // 41 / (406.39 x 0.65) = 0.15521 gal = 19.87 fl oz; 41 / (406.39 x 0.95) x 128 = 13.59; 41 / (406.39 x 0.30) x 128 = 43.05.
  test.each([
    ['F6: low-pressure spray', 0.65, 19.87],
    ['F7: brush', 0.95, 13.59],
    ['F8: conventional spray', 0.3, 43.05],
  ])('%s: two coats on it at that spread', (_, transfer, ounces) => {
    expect(
      litresNeeded(area, 2, spread, transfer) / litresPerFluidOunce,
    ).toBeCloseTo(ounces, 2)
  })

  test('F6 in litres: 0.5875', () => {
    expect(litresNeeded(area, 2, spread, 0.65)).toBeCloseTo(0.5875, 4)
  })

  test('F9: with a tenth lost, a quart of 32 fl oz is enough for F6 and not for F8', () => {
    const ounces = (transfer: number) =>
      (1.1 * litresNeeded(area, 2, spread, transfer)) / litresPerFluidOunce
    expect(ounces(0.65)).toBeCloseTo(21.85, 1)
    expect(ounces(0.65)).toBeLessThan(32)
    expect(ounces(0.3)).toBeGreaterThan(32)
  })

  test('F10: half a litre in two coats: 1000 x 0.5 x 0.38 x 0.65 / 1.9045 / 2 = 32.4 µm each', () => {
    expect(dryFilmMicrometres(0.5, 0.38, 0.65, area) / 2).toBeCloseTo(32.4, 1)
    expect(
      dryFilmMicrometres(0.5, 0.38, 0.65, area) / 2 / micrometresPerMil,
    ).toBeCloseTo(1.28, 2)
  })

  test('a published sheet: 26 % solids at 1.25 mil is 333.7 ft² a gallon, 33 % at 1 mil is 529.4', () => {
    // The sheet of a waterborne enamel, maker not named; 1604.1667 x 0.26 / 1.25 and x 0.33 / 1.
    expect(
      spreadAtDryFilm(0.26, 1.25 * micrometresPerMil) * squareFeetPerGallon,
    ).toBeCloseTo(333.7, 1)
    expect(
      spreadAtDryFilm(0.33, micrometresPerMil) * squareFeetPerGallon,
    ).toBeCloseTo(529.4, 1)
  })

  test('a box of one metre has six faces of one square metre', () => {
    const box = {
      ...chest,
      kind: 'box',
      widthMillimetres: 1000,
      depthMillimetres: 1000,
      heightMillimetres: 1000,
    }
    expect(surfaceArea(box, { name: 'all' })).toBe(6)
  })

  test('a litre on ten square metres of a label that says ten is one ordinary coat', () => {
    expect(filmRatio(1, 1, 10, 10)).toBe(1)
  })
})
