import type { Chapter } from '#core/captions/chapter'

/** What captions would make otherwise in chapters that the owner set. */
export type ChapterChange =
  | { readonly kind: 'moved'; readonly from: Chapter; readonly to: Chapter }
  | { readonly kind: 'new'; readonly to: Chapter }
  | { readonly kind: 'unheard'; readonly from: Chapter }

/**
 * What the captions would change in chapters that were set: those whose step they hear at another time, those that are
 * not among them, and those whose step they do not hear. A chapter that is no step's own is known by its title. Titles
 * are the owner's, and no change.
 *
 * @returns in order of time
 */
export function chapterChanges(
  set: readonly Chapter[],
  heard: readonly Chapter[],
): readonly ChapterChange[] {
  if (heard.length === 0) return []
  const found = heard.flatMap((to): readonly ChapterChange[] => {
    const from = set.find((one) => isSame(one, to))
    if (from === undefined) return [{ kind: 'new', to }]
    return from.seconds === to.seconds ? [] : [{ kind: 'moved', from, to }]
  })
  const unheard = set
    .filter((from) => !heard.some((to) => isSame(from, to)))
    .map((from) => ({ kind: 'unheard', from }) as const)
  return [...found, ...unheard].toSorted(
    (one, other) => secondsOf(one) - secondsOf(other),
  )
}

/** Chapters with one of the changes made: titles stay as the owner gave them. Whether they are sound is to be asked. */
export function withChange(
  set: readonly Chapter[],
  change: ChapterChange,
): readonly Chapter[] {
  const changed =
    change.kind === 'new'
      ? [...set, { ...change.to, confidence: 1 }]
      : set.flatMap((one) =>
          !isSame(one, change.from)
            ? [one]
            : change.kind === 'moved'
              ? [{ ...one, seconds: change.to.seconds }]
              : [],
        )
  return changed.toSorted((one, other) => one.seconds - other.seconds)
}

/** What tells a change from the others: its kind, and the step or title that it is about. */
export function changeKey(change: ChapterChange): string {
  const { stepId, title } = change.kind === 'unheard' ? change.from : change.to
  return `${change.kind} ${stepId ?? title}`
}

function isSame(one: Chapter, other: Chapter): boolean {
  return one.stepId === undefined && other.stepId === undefined
    ? one.title === other.title
    : one.stepId === other.stepId
}

function secondsOf(change: ChapterChange): number {
  return change.kind === 'unheard' ? change.from.seconds : change.to.seconds
}
