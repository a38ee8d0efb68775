import type { Journal } from '#core/journal/journal'
import { assembleWriteUp } from '#core/write-ups/assemble-write-up'
import { english } from '#core/write-ups/english'
import { lengthInUnits } from '#core/write-ups/fit-to-limit'
import {
  shorterSummaries,
  summarySentence,
} from '#core/write-ups/journal-sentences'
import { tagSentences } from '#core/write-ups/keywords'
import type { Language } from '#core/write-ups/language'
import { missingAboutPieces } from '#core/write-ups/missing-facts'
import { surfaceWork } from '#core/write-ups/surface-work'
import { workSentence } from '#core/write-ups/work-sentence'
import type { SentenceEdit, WriteUp } from '#core/write-ups/write-up'
import { usualWriteUpSettings } from '#core/write-ups/write-up-settings'

const importance = { summary: 80, work: 50, tags: 10 } as const

/**
 * A short caption for a photo that is shown to others: what it is, what was done, and tags.
 *
 * @param tags the workshop's own, without their sign; the others come from the journal, five in all
 * @param limit UTF-16 units; tags go first, one at a time, and what it is goes in fewer words before it goes
 */
export function writeCaption({
  journal,
  tags = [],
  edits = [],
  limit = usualWriteUpSettings.limits.caption,
  language = english,
}: {
  readonly journal: Journal
  readonly tags?: readonly string[]
  readonly edits?: readonly SentenceEdit[]
  readonly limit?: number
  readonly language?: Language
}): WriteUp {
  const works = surfaceWork(journal)
  return assembleWriteUp({
    titles: [],
    paragraphs: [
      {
        layout: 'prose',
        sentences: [
          ...(journal.pieces.length === 0
            ? []
            : [
                {
                  ...summarySentence(
                    journal,
                    works,
                    language,
                    importance.summary,
                  ),
                  // Before it is left out, and after all else is.
                  shorter: shorterSummaries(journal, works, language, [
                    importance.work + 1,
                    importance.work + 2,
                  ]),
                },
              ]),
          ...workSentence(journal, works, language, importance.work),
        ],
      },
      {
        layout: 'prose',
        sentences: tagSentences(
          journal,
          works,
          tags,
          language,
          importance.tags,
        ),
      },
    ],
    missing: missingAboutPieces(journal, works, language).filter(({ fact }) =>
      ['material', 'colour', 'work'].includes(fact),
    ),
    edits,
    limit,
    titleLimit: 0,
    size: lengthInUnits,
    titleInText: false,
  })
}
