import {
  firstThatFits,
  fitToLimit,
  leastRoom,
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

/** Between a title and what stands under it. */
const apart = '\n\n'

/**
 * A write-up of these paragraphs: with the owner's edits in their places, and within its limits.
 *
 * @param titles the best first; the first that fits is taken, and the owner's own before them
 * @param titleLeavesRoomFor a shorter title is taken where sentences of this importance and above need the room, in their
 *   fewest words; if none is short enough, where those of the next do. For cautions always
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
  titleLeavesRoomFor = [],
}: {
  readonly titles: readonly string[]
  readonly paragraphs: readonly Paragraph[]
  readonly missing: readonly MissingFact[]
  readonly edits: readonly SentenceEdit[]
  readonly limit: number
  readonly titleLimit: number
  readonly size: (text: string) => number
  readonly titleInText: boolean
  readonly titleLeavesRoomFor?: readonly number[]
}): WriteUp {
  const edited = withEdits(paragraphs, edits)
  const roomBeside = (importance: number) => {
    if (!titleInText) return titleLimit
    const wanted = leastRoom(
      edited.paragraphs,
      size,
      (one) => one.fixed === true || one.importance >= importance,
    )
    const room = limit - (wanted === 0 ? 0 : wanted + size(apart))
    return Math.max(0, Math.min(titleLimit, room))
  }
  const offered =
    titleLeavesRoomFor
      .map(roomBeside)
      .flatMap((room) => titles.find((text) => text.length <= room) ?? [])
      .at(0) ?? firstThatFits(titles, roomBeside(Infinity))
  const titleEdit = edits.find(({ key }) => key === titleKey)
  const ownTitle = plainText(titleEdit?.words ?? '')
  const title =
    ownTitle === '' ? offered : firstThatFits([ownTitle], roomBeside(Infinity))
  const head = titleInText && title !== '' ? title + apart : ''
  const fitted = fitToLimit(edited.paragraphs, limit - size(head), size)
  const body = paragraphsText(fitted.paragraphs)
  return {
    title,
    ...(titleEdit &&
      ownTitle !== '' && {
        titleEdit: editState(titleEdit, {
          text: firstThatFits(titles, titleLimit),
          facts: [],
        }),
      }),
    ...fitted,
    missing,
    removed: edited.removed,
    looseEdits: edited.looseEdits,
    text: body === '' ? head.trimEnd() : head + body,
  }
}
