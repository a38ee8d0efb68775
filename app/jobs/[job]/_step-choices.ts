import { countsCoats, nextCoat } from '#core/journal/coats'
import type { Journal, Step } from '#core/journal/journal'
import { methods, stepKinds } from '#core/journal/vocabulary'
import { stepsInOrder } from '#core/materials/steps-in-order'
import { type Product, amountUnits } from '#core/shelf/product'
import { suitsStep } from '#core/shelf/suits-step'
import { kindName } from '../../_words'
import type { KeptCoats, StepChoices } from './_components/step-fields.client'

/**
 * The choices of a step form for this job.
 *
 * @param changed the step that the form changes, when it is no new one
 */
export function stepChoices(
  journal: Journal,
  products: readonly Product[],
  changed?: Step,
): StepChoices {
  const others = journal.steps.filter((step) => step.id !== changed?.id)
  const surfaces = journal.pieces.flatMap((piece) => piece.surfaces)
  return {
    kinds: stepKinds.map((kind) => ({
      kind,
      name: kindName(kind),
      counted: countsCoats(kind),
    })),
    pieces: journal.pieces.map((piece) => ({
      id: piece.id,
      name: piece.name,
      surfaces: piece.surfaces,
    })),
    products: products.map(({ id, name, category }) => ({
      id,
      name,
      suits: stepKinds.filter((kind) => suitsStep(category, kind)),
    })),
    methods,
    units: amountUnits,
    nextCoats: Object.fromEntries(
      stepKinds.filter(countsCoats).map((kind) => [
        kind,
        Object.fromEntries(
          surfaces.map((surface) => [
            surface.id,
            // A step that is being changed keeps its number where its kind stays.
            (changed?.kind === kind
              ? changed.surfaces.find((on) => on.surfaceId === surface.id)?.coat
              : undefined) ??
              nextCoat(others, surface.id, kind) ??
              1,
          ]),
        ),
      ]),
    ),
    ...(changed !== undefined && { kept: keptCoats(journal, changed) }),
  }
}

/** The coats of a step that is changed, with the numbers that they would have in the order of the work. */
function keptCoats(journal: Journal, { id, kind, surfaces }: Step): KeptCoats {
  const order = stepsInOrder(journal).map(({ step }) => step)
  const before = order.slice(
    0,
    order.findIndex((step) => step.id === id),
  )
  return {
    kind,
    counted: Object.fromEntries(
      surfaces.flatMap(({ surfaceId, coat }) => {
        const counted = nextCoat(before, surfaceId, kind)
        return coat === undefined || counted === undefined
          ? []
          : [[surfaceId, counted]]
      }),
    ),
  }
}
