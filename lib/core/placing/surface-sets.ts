import type { Journal } from '#core/journal/journal'
import { type SurfaceSort, surfaceSort } from '#core/placing/step-order'

/** Surfaces that one step may be done to together. */
export type SurfaceSet = {
  /** In the job's order. */
  readonly surfaceIds: readonly string[]
  /** Their positions in that order, from 0. */
  readonly at: readonly number[]
  readonly sort: SurfaceSort
  /** How often such a set is worked on together, beside 1 for a single surface; common practice, no source. */
  readonly weight: number
}

/**
 * The sets of surfaces that a step of this job may be on: each alone, those of one name on several pieces, those that a
 * step was on already, and all of the outside.
 */
export function surfaceSets(
  journal: Pick<Journal, 'pieces' | 'steps'>,
): readonly SurfaceSet[] {
  const surfaces = journal.pieces.flatMap((piece) => piece.surfaces)
  const sorts = new Map(
    surfaces.map((surface) => [surface.id, surfaceSort(surface.name)]),
  )
  const inOrder = (ids: ReadonlySet<string>) =>
    surfaces.map((surface) => surface.id).filter((id) => ids.has(id))
  const sets = new Map<string, SurfaceSet>()
  const add = (ids: readonly string[], weight: number) => {
    const [first] = ids
    if (first === undefined || sets.has(ids.join(' '))) return
    sets.set(ids.join(' '), {
      surfaceIds: ids,
      at: ids.map((id) => surfaces.findIndex((surface) => surface.id === id)),
      sort: sorts.get(first) ?? 'outside',
      weight,
    })
  }
  for (const surface of surfaces) add([surface.id], 1)
  for (const step of journal.steps) {
    add(inOrder(new Set(step.surfaces.map((on) => on.surfaceId))), 1)
  }
  for (const name of new Set(surfaces.map((surface) => surface.name))) {
    const namesakes = surfaces.filter((surface) => surface.name === name)
    add(inOrder(new Set(namesakes.map((surface) => surface.id))), 1.5)
  }
  const outside = surfaces.filter(
    (surface) => sorts.get(surface.id) === 'outside',
  )
  add(inOrder(new Set(outside.map((surface) => surface.id))), 0.5)
  return [...sets.values()]
}
