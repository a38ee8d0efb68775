import { describe, expect, test } from 'vitest'
import { surfaceArea } from '#core/film/surface-area'

// A sideboard of 1.4 x 0.5 x 0.9 m: plane geometry, worked beside each.
const piece = (kind: string, ...names: readonly string[]) => ({
  id: 'piece',
  name: 'piece',
  kind,
  widthMillimetres: 1400,
  depthMillimetres: 500,
  heightMillimetres: 900,
  surfaces: names.map((name) => ({ id: name, name })),
})
const areaOf = (kind: string, name: string, ...others: readonly string[]) =>
  surfaceArea(piece(kind, name, ...others), { name })

describe('the area of a surface', () => {
  test.each([
    ['body', 2 * 0.5 * 0.9 + 1.4 * 0.9 + 1.4 * 0.5, []],
    ['body', 2 * 0.5 * 0.9 + 1.4 * 0.9, ['top']],
    ['body', 2 * 0.5 * 0.9, ['top', 'doors']],
    ['top', 1.4 * 0.5, ['body']],
    ['doors', 1.4 * 0.9, ['body']],
    ['drawer fronts', 1.4 * 0.9, ['body']],
    ['back', 1.4 * 0.9, ['body']],
  ] as const)('of a sideboard: %s is %d m²', (name, area, others) => {
    expect(areaOf('sideboard', name, ...others)).toBeCloseTo(area, 9)
  })

  test('of a blanket box counts its back', () => {
    expect(areaOf('blanket box', 'body')).toBeCloseTo(
      2 * 0.5 * 0.9 + 2 * 1.4 * 0.9 + 1.4 * 0.5,
      9,
    )
  })

  test('of a table knows only the top', () => {
    expect(areaOf('table', 'top')).toBeCloseTo(0.7, 9)
    expect(areaOf('table', 'body')).toBeUndefined()
  })

  test.each([
    ['two kinds of fronts', 'doors', ['drawer fronts']],
    ['the inside', 'interior', []],
    ['hardware', 'hardware', []],
  ] as const)('is not guessed for %s', (_, name, others) => {
    expect(areaOf('sideboard', name, ...others)).toBeUndefined()
  })

  test('is not guessed without sizes', () => {
    expect(
      surfaceArea(
        { id: 'p', name: 'p', kind: 'sideboard', surfaces: [] },
        { name: 'body' },
      ),
    ).toBeUndefined()
  })
})
