import { describe, expect, it } from 'vitest'
import { stepKinds } from '#core/journal/vocabulary'
import { productCategories } from '#core/shelf/product'
import { driesOn, suitsStep } from '#core/shelf/suits-step'

describe('what suits a step', () => {
  it('offers primer for priming, and no abrasive', () => {
    expect(suitsStep('primer', 'prime')).toBe(true)
    expect(suitsStep('abrasive', 'prime')).toBe(false)
    expect(suitsStep('abrasive', 'scuff')).toBe(true)
  })

  it('has something for every kind of step', () => {
    for (const kind of stepKinds) {
      expect(
        productCategories.some((category) => suitsStep(category, kind)),
        kind,
      ).toBe(true)
    }
  })
})

describe('what dries on', () => {
  it('is what is left on the piece, not what is washed or taken off', () => {
    expect(productCategories.filter((one) => !driesOn(one))).toEqual([
      'stripper',
      'cleaner',
      'abrasive',
      'paper',
    ])
  })
})
