import type { Alignment } from '#core/captions/align-steps'
import { shortestChapter } from '#core/captions/chapter-length'
import {
  type Chapter,
  fewestChapters,
  longestChapterTitle,
} from '#core/captions/chapter'
import type { Journal, Step } from '#core/journal/journal'
import { plainText } from '#core/write-ups/plain-text'
import { english } from '#core/write-ups/english'
import { firstThatFits } from '#core/write-ups/fit-to-limit'
import type { Language } from '#core/write-ups/language'

/**
 * The chapters of a video, from where its steps begin: an introduction where the first step does not begin at once, the
 * steps, and the ending. They begin at 0:00 and each lasts at least ten seconds.
 *
 * @param duration of the video in seconds, or the end of its last caption
 * @returns none where there would be fewer than three
 */
export function planChapters({
  alignment,
  duration,
  journal,
  language = english,
}: {
  readonly alignment: Alignment
  readonly duration: number
  readonly journal: Pick<Journal, 'pieces' | 'steps'>
  readonly language?: Language
}): readonly Chapter[] {
  const { starts, ending } = alignment
  const told = starts.map(({ step }) => step)
  const parts: Chapter[] = starts.map(({ step, at, confidence }) => ({
    seconds: Math.floor(at),
    title: chapterTitle(step, told, journal, language),
    stepId: step.id,
    confidence,
  }))
  if (ending !== undefined) {
    parts.push({
      seconds: Math.floor(ending.at),
      title: language.chapters.ending,
      confidence: ending.confidence,
    })
  }
  const chapters: Chapter[] = []
  for (const part of parts.toSorted((a, b) => a.seconds - b.seconds)) {
    const before = chapters.at(-1)
    if (duration - part.seconds < shortestChapter) break
    if (before === undefined) {
      if (part.seconds >= shortestChapter) {
        chapters.push({
          seconds: 0,
          title: language.chapters.introduction,
          confidence: 1,
        })
        chapters.push(part)
      } else chapters.push({ ...part, seconds: 0 })
    } else if (part.seconds - before.seconds >= shortestChapter) {
      chapters.push(part)
    }
  }
  return chapters.length < fewestChapters ? [] : chapters
}

/** What a step's chapter is called; its place is named where it is one surface of several, or where another is alike. */
function chapterTitle(
  step: Step,
  told: readonly Step[],
  { pieces, steps }: Pick<Journal, 'pieces' | 'steps'>,
  { chapters }: Language,
): string {
  const coat = coatOf(step)
  const alike = told.filter(
    (one) => one.kind === step.kind && coatOf(one) === coat,
  )
  const on = new Set(step.surfaces.map(({ surfaceId }) => surfaceId))
  const places = pieces
    .map((piece) => ({
      name: plainText(piece.name),
      all: piece.surfaces.length,
      own: piece.surfaces
        .filter(({ id }) => on.has(id))
        .map(({ name }) => plainText(name)),
    }))
    .filter(({ own }) => own.length > 0)
  const [place] = places
  const isOnePart =
    places.length === 1 &&
    place !== undefined &&
    place.own.length === 1 &&
    place.all > 1
  const isNamed = alike.length > 1 || (isOnePart && pieces.length === 1)
  const coats = Math.max(
    0,
    ...steps
      .filter(({ kind }) => kind === step.kind)
      .map((one) => coatOf(one) ?? 0),
  )
  const words = (named: readonly string[]) =>
    chapters.step({
      kind: step.kind,
      ...(coat !== undefined && { coat }),
      coats,
      places: named,
    })
  const names = !isNamed
    ? []
    : pieces.length > 1
      ? places.map(({ name }) => name)
      : (place?.own ?? [])
  return firstThatFits([words(names), words([])], longestChapterTitle)
}

function coatOf(step: Step): number | undefined {
  return step.surfaces.find((on) => on.coat !== undefined)?.coat
}
