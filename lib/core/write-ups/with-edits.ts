import { plainText } from '#core/write-ups/plain-text'
import type {
  EditState,
  Fact,
  Paragraph,
  Sentence,
  SentenceEdit,
} from '#core/write-ups/write-up'

/** The key of the owner's own words that stand for themselves. */
export const ownWordsKey = 'own'
/** The key of the title. */
export const titleKey = 'title'

// After what it is, before what can be looked up; common practice, no source.
const ownImportance = 65

/**
 * Paragraphs with the owner's words in place of the sentences that were edited.
 *
 * An edit is never lost: where what it was made on has changed it stays and says so, and where its sentence
 * is gone it is given back by itself. Sentences that are fixed stand as they are.
 */
export function withEdits(
  paragraphs: readonly Paragraph[],
  edits: readonly SentenceEdit[],
): {
  readonly paragraphs: readonly Paragraph[]
  readonly removed: readonly Sentence[]
  readonly looseEdits: readonly SentenceEdit[]
} {
  const keys = new Set(
    paragraphs.flatMap(({ sentences }) =>
      sentences.flatMap(({ key, fixed }) => (fixed ? [] : key)),
    ),
  )
  const removed: Sentence[] = []
  const edited = paragraphs.map((paragraph) => ({
    ...paragraph,
    sentences: paragraph.sentences.flatMap((sentence) => {
      const edit = edits.find(({ key }) => key === sentence.key)
      if (edit === undefined || sentence.fixed) return [sentence]
      const text = plainText(edit.words)
      const changed = { ...sentence, edit: editState(edit, sentence) }
      if (text !== '') return [inOwnWords(changed, text)]
      removed.push(changed)
      return []
    }),
  }))
  const own = plainText(
    edits.find(({ key }) => key === ownWordsKey)?.words ?? '',
  )
  const ownParagraph: readonly Paragraph[] =
    own === ''
      ? []
      : [
          {
            layout: 'prose',
            sentences: [
              {
                key: ownWordsKey,
                text: own,
                facts: [],
                importance: ownImportance,
              },
            ],
          },
        ]
  const [first, ...rest] = edited
  return {
    paragraphs: first ? [first, ...ownParagraph, ...rest] : ownParagraph,
    removed,
    looseEdits: edits.filter(
      ({ key }) => key !== ownWordsKey && key !== titleKey && !keys.has(key),
    ),
  }
}

/** The owner's words are never told in fewer. */
function inOwnWords(
  { key, facts, importance, edit }: Sentence,
  text: string,
): Sentence {
  return { key, text, facts, importance, ...(edit && { edit }) }
}

/** How an edit stands to what would be written now. */
export function editState(
  { madeOn }: SentenceEdit,
  now: Pick<Sentence, 'text' | 'facts'>,
): EditState {
  const formerFacts = madeOn.facts.filter(
    (former) => !now.facts.some((fact) => sameFact(fact, former)),
  )
  return {
    offered: now.text,
    changed:
      now.text !== madeOn.text ||
      formerFacts.length > 0 ||
      now.facts.length !== madeOn.facts.length,
    formerFacts,
    formerText: madeOn.text,
  }
}

function sameFact(one: Fact, other: Fact): boolean {
  return (
    one.about.kind === other.about.kind &&
    one.about.id === other.about.id &&
    one.fact === other.fact &&
    one.value === other.value
  )
}
