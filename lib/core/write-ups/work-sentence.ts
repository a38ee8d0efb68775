import type { Journal } from '#core/journal/journal'
import { stepsInOrder } from '#core/materials/steps-in-order'
import { workFacts } from '#core/write-ups/journal-sentences'
import type { Language } from '#core/write-ups/language'
import type { Operation, SurfaceWork } from '#core/write-ups/surface-work'
import type { Sentence } from '#core/write-ups/write-up'

/** The kinds of work on a job in one sentence, in the order in which each was first done; none where nothing was. */
export function workSentence(
  journal: Journal,
  works: readonly SurfaceWork[],
  language: Language,
  importance: number,
): readonly Sentence[] {
  const order = stepsInOrder(journal).map(({ step }) => step.id)
  const placeOf = ({ stepIds }: Operation) => order.indexOf(stepIds[0] ?? '')
  const done = works
    .flatMap(({ operations, surface }) =>
      operations.map((operation) => ({ operation, on: surface.name })),
    )
    .toSorted((a, b) => placeOf(a.operation) - placeOf(b.operation))
  const text = language.video.work(done)
  return text === undefined
    ? []
    : [{ key: 'work', text, facts: workFacts(works), importance }]
}
