import type { Step } from '#core/journal/journal'
import type { StepKind } from '#core/journal/vocabulary'
import { type MaterialPurpose, purposeOf } from '#core/materials/purpose'
import { isRefit } from '#core/write-ups/english-words'
import type { SurfaceWork } from '#core/write-ups/surface-work'

/** A step as a text speaks of it. */
export type ToldStep = {
  readonly kind: StepKind
  /** What its coat is for; absent where it laid none that is still there. */
  readonly purpose?: MaterialPurpose
  /** Which coat of those for the same purpose on the surface it is, from 1; absent where nobody numbered it. */
  readonly coat?: number
  /** The highest of those. */
  readonly coats?: number
  /** What is put together is no more than parts of a piece, such as its knobs: they are refitted. */
  readonly isRefit?: true
}

type Laid = {
  readonly id: string
  readonly kind: StepKind
  readonly purpose: MaterialPurpose
  readonly number: number
}

/**
 * A step with its place among the coats of a surface.
 *
 * Coats are numbered by their kind, and spoken of by what they are for: of a coat of sealer and two of varnish, numbered one
 * to three, the last is the second of varnish.
 */
export function toldStep(
  { id, kind }: Pick<Step, 'id' | 'kind'>,
  work: SurfaceWork | undefined,
): ToldStep {
  if (work === undefined) return { kind }
  if (isRefit(kind, [work.surface.name])) return { kind, isRefit: true }
  const purpose = purposeIn(work, id, kind)
  if (purpose === undefined) return { kind }
  const laid = laidOn(work)
  const alike = laid.filter(
    (one) => one.kind === kind && one.purpose === purpose,
  )
  const own = alike.find((one) => one.id === id)
  if (own === undefined) return { kind, purpose }
  const place = ({ number }: Laid) =>
    number -
    new Set(
      laid
        .filter(
          (one) =>
            one.kind === kind && one.purpose !== purpose && one.number < number,
        )
        .map((one) => one.number),
    ).size
  return {
    kind,
    purpose,
    coat: place(own),
    coats: Math.max(...alike.map(place)),
  }
}

function purposeIn(
  { operations }: SurfaceWork,
  id: string,
  kind: StepKind,
): MaterialPurpose | undefined {
  // A coating also holds the sanding between its coats.
  const coating = operations.find(
    (one) =>
      one.type === 'coating' && one.kind === kind && one.stepIds.includes(id),
  )
  return coating?.type === 'coating'
    ? purposeOf(kind, coating.product?.category)
    : undefined
}

function laidOn(work: SurfaceWork): readonly Laid[] {
  const { coats, surface } = work
  // Taking hardware off is no coat, so coats of hardware are counted here.
  const hardware = coats.filter(({ step }) => step.kind === 'hardware')
  return coats.flatMap(({ step }): readonly Laid[] => {
    const { id, kind } = step
    const purpose = purposeIn(work, id, kind)
    const number =
      kind === 'hardware'
        ? hardware.findIndex((one) => one.step.id === id) + 1
        : step.surfaces.find((on) => on.surfaceId === surface.id)?.coat
    return purpose === undefined || number === undefined
      ? []
      : [{ id, kind, purpose, number }]
  })
}
