import {
  firstThatFits,
  fitToLimit,
  paragraphsText,
} from '#core/write-ups/fit-to-limit'
import { plainText } from '#core/write-ups/plain-text'
import { editState, titleKey, withEdits } from '#core/write-ups/with-edits'
import type {
  MissingFact,
  Paragraph,
  SentenceEdit,
  WriteUp,
} from '#core/write-ups/write-up'

/**
 * A write-up of these paragraphs: with the owner's edits in their places, and within its limits.
 *
 * @param titles the best first; the first that fits is taken, and the owner's own before them
 * @param limit in what `size` counts; the title counts where it is part of the text
 */
export function assembleWriteUp({
  titles,
  paragraphs,
  missing,
  edits,
  limit,
  titleLimit,
  size,
  titleInText,
}: {
  readonly titles: readonly string[]
  readonly paragraphs: readonly Paragraph[]
  readonly missing: readonly MissingFact[]
  readonly edits: readonly SentenceEdit[]
  readonly limit: number
  readonly titleLimit: number
  readonly size: (text: string) => number
  readonly titleInText: boolean
}): WriteUp {
  const longestTitle = titleInText ? Math.min(titleLimit, limit) : titleLimit
  const offered = firstThatFits(titles, longestTitle)
  const titleEdit = edits.find(({ key }) => key === titleKey)
  const ownTitle = plainText(titleEdit?.words ?? '')
  const title =
    ownTitle === '' ? offered : firstThatFits([ownTitle], longestTitle)
  const head = titleInText && title !== '' ? `${title}\n\n` : ''
  const edited = withEdits(paragraphs, edits)
  const fitted = fitToLimit(edited.paragraphs, limit - size(head), size)
  const body = paragraphsText(fitted.paragraphs)
  return {
    title,
    ...(titleEdit &&
      ownTitle !== '' && {
        titleEdit: editState(titleEdit, { text: offered, facts: [] }),
      }),
    ...fitted,
    missing,
    removed: edited.removed,
    looseEdits: edited.looseEdits,
    text: body === '' ? head.trimEnd() : head + body,
  }
}
