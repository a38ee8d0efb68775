import { describe, expect, test } from 'vitest'
import { judgeDraftStep } from '#core/finish/judge-draft-step'
import type { DraftStep } from '#core/finish/with-draft'
import { addMinutes } from '#core/units'
import { kinds, morning, toldJob } from './told-work'

const rulesOf = (
  journal: Parameters<typeof judgeDraftStep>[0],
  draft: DraftStep,
) => judgeDraftStep(journal, draft).map((finding) => finding.rule)
const body = [{ surfaceId: 'body' }]

describe('a step that is being written down', () => {
  test('is held against the rules before it is kept', () => {
    const journal = toldJob([{ at: 0, kind: 'clean' }])
    expect(
      rulesOf(journal, {
        kind: 'prime',
        surfaces: body,
        product: kinds.primer,
      }),
    ).toEqual(['dull-before-coat'])
  })

  test('hears only what is about itself', () => {
    const journal = toldJob([{ at: 0, kind: 'scuff' }])
    expect(
      rulesOf(journal, {
        kind: 'prime',
        surfaces: body,
        product: kinds.primer,
      }),
    ).toEqual([])
  })

  test('comes after everything else while it has no time', () => {
    const journal = toldJob([
      { at: 0, kind: 'clean' },
      { at: 1, kind: 'scuff' },
      { at: 2, kind: 'wax', with: 'wax' },
    ])
    expect(
      rulesOf(journal, { kind: 'coat', surfaces: body, product: kinds.enamel }),
    ).toEqual(['no-coat-over-wax'])
  })

  test('takes its place by its time once it has one', () => {
    const journal = toldJob([
      { at: 0, kind: 'clean' },
      { at: 1, kind: 'scuff' },
      { at: 9, kind: 'wax', with: 'wax' },
    ])
    expect(
      rulesOf(journal, {
        kind: 'coat',
        surfaces: body,
        product: kinds.enamel,
        startedAt: addMinutes(morning, 120),
      }),
    ).toEqual([])
  })

  test('has its wait judged where it is told to be now, and not otherwise', () => {
    const journal = toldJob([
      { at: 0, kind: 'strip', note: 'Rinsed.' },
      { at: 30, kind: 'sand', grit: 150 },
      { at: 32, kind: 'stain', with: 'stain', note: 'Rags in water.' },
    ])
    const draft: DraftStep = {
      kind: 'seal',
      surfaces: body,
      product: kinds.clear,
    }
    expect(rulesOf(journal, draft)).toEqual([])
    expect(
      rulesOf(journal, { ...draft, startedAt: addMinutes(morning, 40 * 60) }),
    ).toEqual(['stain-dry-before-clear'])
  })

  test('replaces the step that it changes', () => {
    const journal = toldJob([
      { at: 0, kind: 'clean' },
      { at: 1, kind: 'scuff' },
      { at: 3, kind: 'coat', with: 'enamel', thinningPercent: 20 },
    ])
    const kept = journal.steps.find((step) => step.kind === 'coat')
    const draft: DraftStep = {
      id: kept?.id ?? '',
      kind: 'coat',
      surfaces: body,
      product: kinds.enamel,
      thinningPercent: 5,
    }
    expect(rulesOf(journal, draft)).toEqual([])
    expect(rulesOf(journal, { ...draft, thinningPercent: 20 })).toEqual([
      'thin-within-label',
    ])
  })

  test('may use a product that the job has not used yet', () => {
    const journal = {
      ...toldJob([
        { at: 0, kind: 'clean' },
        { at: 1, kind: 'scuff' },
        { at: 3, kind: 'coat', with: 'oilPaint', note: 'Rags outdoors.' },
      ]),
    }
    const products = journal.products.filter(
      (one) => one.id === kinds.oilPaint.id,
    )
    expect(
      rulesOf(
        { ...journal, products },
        { kind: 'seal', surfaces: body, product: kinds.lacquer },
      ),
    ).toContain('no-strong-solvent-over-weak')
  })
})
