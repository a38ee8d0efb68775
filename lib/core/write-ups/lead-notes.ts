import type { Journal } from '#core/journal/journal'

const aboutLead = /\blead\b/i
const aTest = /\b(test\w*|swab\w*|xrf|laborator\w*|lab)\b/i
const aResult =
  /\b(negative|positive|clear|none|found|detected|nothing|passed|result\w*|ppm|mg|no (lead|colou?r|change|reaction|trace))\b/i
const notDone =
  /\b(untested|(no|not|never|without|needs?|should|must|forgot|before|todo|to) (\w+ ){0,3}(test\w*|swab\w*))\b|\?/i

/** What the owner wrote about lead while working. */
export type LeadNotes = {
  readonly notes: readonly { readonly stepId: string; readonly text: string }[]
  /** Whether one of them, or what a buyer is told, gives the result of a test. In doubt it does not. */
  readonly tested: boolean
  /** Whether a swab kit was used, which is a screen and no laboratory test. */
  readonly bySwab: boolean
}

/** The notes of a job that speak of a test for lead. */
export function leadNotes(journal: Journal): LeadNotes {
  const notes = journal.steps.flatMap(({ id, note }) =>
    note !== undefined && aboutLead.test(note) && aTest.test(note)
      ? [{ stepId: id, text: note }]
      : [],
  )
  const told = journal.pieces.flatMap(({ flaws }) => flaws ?? [])
  return {
    notes,
    bySwab: notes.some(({ text }) => /\b(swab\w*|kits?)\b/i.test(text)),
    tested: [...notes.map(({ text }) => text), ...told].some(
      (text) =>
        aboutLead.test(text) &&
        aTest.test(text) &&
        aResult.test(text) &&
        !notDone.test(text),
    ),
  }
}
