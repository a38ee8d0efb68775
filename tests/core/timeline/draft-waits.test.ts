import { describe, expect, test } from 'vitest'
import type { DraftStep } from '#core/finish/with-draft'
import { draftWaits } from '#core/timeline/draft-waits'
import { addMinutes } from '#core/units'
import { kinds, morning, toldJob } from '../finish/told-work'

/** Enamel on the body in the morning; its label asks for 60 min. */
const journal = toldJob([
  { at: 0, kind: 'scuff' },
  { at: 1, kind: 'coat', with: 'enamel' },
])
const coated = addMinutes(morning, 60)

const nextCoat = (minutesLater: number): DraftStep => ({
  kind: 'coat',
  surfaces: [{ surfaceId: 'body' }],
  product: kinds.enamel,
  startedAt: addMinutes(coated, minutesLater),
})

describe('before the next coat goes on', () => {
  test('a wet surface is named, with the moment that it may be coated', () => {
    expect(draftWaits(journal, nextCoat(20))).toMatchObject([
      {
        surface: { id: 'body' },
        verdict: 'too-soon',
        readyAt: { latest: addMinutes(coated, 60) },
      },
    ])
  })

  test('a dry surface is not', () => {
    expect(draftWaits(journal, nextCoat(60))).toEqual([])
  })

  test('another surface is not', () => {
    expect(
      draftWaits(journal, {
        ...nextCoat(20),
        surfaces: [{ surfaceId: 'top' }],
      }),
    ).toEqual([])
  })

  test('a window that has passed is named', () => {
    const closing = {
      ...journal,
      products: journal.products.map((product) =>
        product.id === kinds.enamel.id
          ? { ...product, label: { ...product.label, recoatByMinutes: 240 } }
          : product,
      ),
    }
    const enamel = closing.products.find(({ id }) => id === kinds.enamel.id)
    expect(
      draftWaits(closing, {
        ...nextCoat(300),
        ...(enamel !== undefined && { product: enamel }),
      }),
    ).toMatchObject([{ verdict: 'past-window' }])
  })

  test('a surface between two windows is told from one that is merely wet', () => {
    const enamel = {
      ...kinds.enamel,
      label: {
        recoatWindows: [
          { fromMinutes: 10, toMinutes: 60 },
          { fromMinutes: 1440 },
        ],
      },
    }
    const spray = {
      ...journal,
      products: journal.products.map((product) =>
        product.id === enamel.id ? enamel : product,
      ),
    }
    const waits = (minutesLater: number) =>
      draftWaits(spray, { ...nextCoat(minutesLater), product: enamel })
    expect(waits(5)).toMatchObject([{ verdict: 'too-soon', isBetween: false }])
    expect(waits(600)).toMatchObject([{ verdict: 'too-soon', isBetween: true }])
  })

  test('a step that is changed is not held against itself', () => {
    const coat = journal.steps.find(({ kind }) => kind === 'coat')
    if (coat === undefined) throw new Error('no coat')
    expect(draftWaits(journal, { ...nextCoat(5), id: coat.id })).toEqual([])
  })
})
