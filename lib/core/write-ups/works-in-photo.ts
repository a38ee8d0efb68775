import type { Journal, Photo } from '#core/journal/journal'
import { plainText } from '#core/write-ups/plain-text'
import type { SeenInPhoto } from '#core/write-ups/seen-in-photo'
import {
  type Layer,
  type SurfaceWork,
  surfaceWork,
} from '#core/write-ups/surface-work'

/**
 * The work on what a photo shows, with its layers as a picture tells them: without their sheen, for there is room for one
 * sentence; and with the lining, where the photo looks inside or at nothing but surfaces that were named.
 */
export function worksInPhoto(
  journal: Journal,
  { pieces }: Pick<SeenInPhoto, 'pieces'>,
  view: Photo['view'],
): readonly SurfaceWork[] {
  const isNear = view === undefined || /^(inside|interior)$/i.test(view.trim())
  return surfaceWork({ ...journal, pieces }).map((work) => ({
    ...work,
    layers: [
      ...work.layers.map(({ kind, colour, finishedWith }) => ({
        kind,
        ...(colour !== undefined && { colour }),
        ...(finishedWith !== undefined && { finishedWith }),
      })),
      ...(isNear ? liningOf(work) : []),
    ],
  }))
}

function liningOf({ operations }: SurfaceWork): readonly Layer[] {
  const lining = operations.findLast(
    (one) => one.type === 'other' && one.kind === 'liner',
  )
  if (lining?.type !== 'other') return []
  const name = plainText(lining.product?.name ?? '')
  return [{ kind: 'lined', ...(name !== '' && { finishedWith: name }) }]
}
