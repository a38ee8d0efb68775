import { describe, expect, test } from 'vitest'
import { filmOfStep } from '#core/film/film-of-step'
import { surfaceAreas } from '#core/film/surface-area'
import type { Piece, Step } from '#core/journal/journal'
import { readTimeline } from '#core/timeline/read-timeline'
import { found, toldJob } from '../finish/told-work'

// One square metre of top, and a label that says ten square metres a litre: 100 ml is one ordinary coat.
const table: Piece = {
  id: 'sideboard',
  name: 'table',
  kind: 'table',
  widthMillimetres: 1000,
  depthMillimetres: 1000,
  surfaces: [{ id: 'top', name: 'top' }],
}
const label = {
  label: { spreadSquareMetresPerLitre: 10, recoatMinutes: 60 },
}
const step = (more: Partial<Step> = {}) => ({
  kind: 'coat' as const,
  method: 'brush' as const,
  amount: { value: 200, unit: 'ml' as const },
  surfaces: [{ surfaceId: 'top' }],
  ...more,
})

describe('the film of a step', () => {
  test('twice the amount of the label is twice its film, less what stays in the brush', () => {
    // 0.2 l x 0.95 x 10 / 1 m² = 1.9
    expect(filmOfStep(step(), label, surfaceAreas([table]))?.ratio).toBeCloseTo(
      1.9,
      9,
    )
  })

  test('is shared by the surfaces of the step', () => {
    const two = {
      ...table,
      surfaces: [...table.surfaces, { id: 'lid', name: 'lid' }],
    }
    const both = step({
      surfaces: [{ surfaceId: 'top' }, { surfaceId: 'lid' }],
    })
    expect(filmOfStep(both, label, surfaceAreas([two]))?.ratio).toBeCloseTo(
      0.95,
      9,
    )
  })

  test('does not depend on the thinner', () => {
    expect(
      filmOfStep(step({ thinningPercent: 50 }), label, surfaceAreas([table])),
    ).toEqual(filmOfStep(step(), label, surfaceAreas([table])))
  })

  test.each([
    ['the amount', step({ amount: { value: 1, unit: 'can' } }), label],
    ['the spread rate', step(), { label: {} }],
    ['what is wiped off again', step({ method: 'wipe' }), label],
    ['what soaks in', step({ kind: 'stain' }), label],
    ['the area', step({ surfaces: [{ surfaceId: 'legs' }] }), label],
  ])('is not guessed without %s', (_, one, product) => {
    expect(filmOfStep(one, product, surfaceAreas([table]))).toBeUndefined()
  })
})

describe('a heavy coat', () => {
  const job = (millilitres: number) => {
    const journal = toldJob(
      [
        { at: 0, kind: 'clean' },
        { at: 1, kind: 'scuff' },
        {
          at: 3,
          kind: 'coat',
          with: 'enamel',
          method: 'brush',
          amount: { value: millilitres, unit: 'ml' },
        },
        { at: 5, kind: 'coat', with: 'enamel' },
      ],
      { surfaces: ['top'], piece: table },
    )
    return {
      ...journal,
      products: journal.products.map((product) => ({
        ...product,
        label: { ...product.label, spreadSquareMetresPerLitre: 10 },
      })),
    }
  }
  const required = (millilitres: number) =>
    readTimeline(job(millilitres)).lanes[0]?.checks[0]

  test('waits longer, and its reason says with what numbers', () => {
    // 1.9 to the power of 1.5 = 2.619; 60 min x 2.619 = 157.1 min, no readings of the air.
    const check = required(200)
    expect(check?.required).toBeCloseTo(157.1, 1)
    expect(check?.verdict).toBe('too-soon')
    expect(check?.reason).toContain(
      'The coat is 1.9 times as thick as the label’s (200 ml on 1.00 m², 95 % of it on the wood), which takes 2.6 times as long.',
    )
  })

  test.each([20, 100, 110])(
    'is none with %d ml: the label’s time stands and is never shortened',
    (millilitres) => {
      expect(required(millilitres)?.required).toBe(60)
      expect(required(millilitres)?.reason).not.toContain('thick')
    },
  )

  test('of more than twice the label’s film is found by the rules', () => {
    expect(found(job(200), 'film-not-too-thick')).toEqual([])
    expect(found(job(250), 'film-not-too-thick')).toMatchObject([
      { stepId: 'step 2', strength: 'should', reason: /2\.4 times/ },
    ])
  })
})
