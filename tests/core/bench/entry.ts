import type { BenchEntry } from '#core/bench/bench'
import { at } from '../air/any-air'

/** A surface on the bench; times in minutes from the start of all times. */
export function entry({
  surface,
  piece = 'sideboard',
  step = 'coat',
  product = 'enamel',
  ready,
  by,
  cured,
}: {
  readonly surface: string
  readonly piece?: string
  readonly step?: string
  readonly product?: string | null
  readonly ready?: number
  readonly by?: number
  readonly cured?: number
}): BenchEntry {
  return {
    job: { id: 'job', title: 'An oak sideboard', finished: false },
    piece: { id: piece, name: piece },
    surface: { id: `${piece} ${surface}`, name: surface },
    step: { id: step, kind: 'coat', coat: 1 },
    ...(product !== null && { product: { id: product, name: product } }),
    coatedAt: at(0),
    ...(ready !== undefined && {
      readyAt: { earliest: at(ready), latest: at(ready) },
    }),
    ...(by !== undefined && { recoatBy: at(by) }),
    ...(cured !== undefined && { curedBy: at(cured) }),
    reason: 'Label: 60 min.',
  }
}
