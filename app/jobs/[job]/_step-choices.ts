import { countsCoats, nextCoat } from '#core/journal/coats'
import type { Journal } from '#core/journal/journal'
import { methods, stepKinds } from '#core/journal/vocabulary'
import { type Product, amountUnits } from '#core/shelf/product'
import { kindName } from '../../_words'
import type { StepChoices } from './_components/step-fields.client'

/** The choices of a step form for this job. */
export function stepChoices(
  journal: Journal,
  products: readonly Product[],
): StepChoices {
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
    products: products.map(({ id, name }) => ({ id, name })),
    methods,
    units: amountUnits,
    nextCoats: Object.fromEntries(
      stepKinds
        .filter(countsCoats)
        .map((kind) => [
          kind,
          Object.fromEntries(
            surfaces.map((surface) => [
              surface.id,
              nextCoat(journal.steps, surface.id, kind) ?? 1,
            ]),
          ),
        ]),
    ),
  }
}
