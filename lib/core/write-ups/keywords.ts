import type { Journal, Piece } from '#core/journal/journal'
import { appearanceOf, mainColours } from '#core/write-ups/appearance'
import { fact } from '#core/write-ups/journal-sentences'
import type { Language } from '#core/write-ups/language'
import { plainText } from '#core/write-ups/plain-text'
import type { SurfaceWork } from '#core/write-ups/surface-work'
import type { Sentence } from '#core/write-ups/write-up'

// Common practice, no source: as many as most places take, each no longer than the longest of them allow.
const most = 13
const longest = 30

/** Words that a buyer would search for, out of the journal alone: none twice, the most telling first. */
export function keywordsOf(
  { pieces }: Journal,
  works: readonly SurfaceWork[],
  language: Language,
): readonly string[] {
  if (pieces.length === 0) return []
  const ownColours = (piece: Piece) =>
    mainColours(works.filter((work) => work.piece.id === piece.id))
  const found = language
    .keywords({
      colours: mainColours(works),
      // Each by what is on it: a bench beside a stained sideboard is no stained bench.
      pieces: pieces.map((piece) => {
        const { main, others } = appearanceOf(
          works.filter((work) => work.piece.id === piece.id),
          [piece],
        )
        return {
          piece,
          colours: ownColours(piece),
          layers: [...(main ?? []), ...others.flatMap(({ layers }) => layers)],
        }
      }),
    })
    .map((keyword) =>
      plainText(keyword.replace(/[^\p{L}\p{N}' -]+/gu, ' ')).toLowerCase(),
    )
  return [...new Set(found)]
    .filter((keyword) => /\p{L}/u.test(keyword) && keyword.length <= longest)
    .slice(0, most)
}

// Common practice, no source.
const mostTags = 5

/** The tags of a job, each by itself, so that they go one at a time when there is no room. */
export function tagSentences(
  journal: Journal,
  works: readonly SurfaceWork[],
  own: readonly string[],
  language: Language,
  importance: number,
): readonly Sentence[] {
  return tagsOf(keywordsOf(journal, works, language), own).map((tag) => ({
    key: `tag ${tag}`,
    text: tag,
    facts: journal.pieces.map(({ id, kind }) =>
      fact('piece', id, 'kind', kind),
    ),
    importance,
  }))
}

/** Keywords and the workshop's own tags as tags: `#oakbench`. The workshop's come last and are never crowded out. */
export function tagsOf(
  keywords: readonly string[],
  own: readonly string[],
): readonly string[] {
  const tag = (words: string) =>
    `#${words.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, '')}`
  const ownTags = own.map(tag).filter((one) => one.length > 1)
  const found = keywords.map(tag).filter((one) => !ownTags.includes(one))
  return [
    ...new Set([
      ...[...new Set(found)].slice(0, Math.max(0, mostTags - ownTags.length)),
      ...ownTags,
    ]),
  ]
}
