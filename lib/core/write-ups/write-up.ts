/** What is written from a journal. */
export const writeUpNames = [
  'listing',
  'video',
  'caption',
  'care',
  'report',
  'photos',
] as const
export type WriteUpName = (typeof writeUpNames)[number]

/** What a fact is about. */
export type Subject = {
  readonly kind: 'workshop' | 'job' | 'piece' | 'step' | 'product' | 'photo'
  readonly id: string
}

/** Something the journal says, that a sentence rests on: `height` of a piece is `813 mm`. */
export type Fact = {
  readonly about: Subject
  readonly fact: string
  readonly value: string
}

/** One sentence or line, with all it rests on. Lines of common advice rest on nothing in the journal. */
export type Sentence = {
  /** What it tells, the same however the journal changes: `size piece-1`. */
  readonly key: string
  readonly text: string
  readonly facts: readonly Fact[]
  /** How badly it would be missed: when the text is too long, the lowest go first. */
  readonly importance: number
  /** Stands as it is: a disclosure or a caution that protects people. */
  readonly fixed?: true
  /** The same in fewer words, for a text with little room: the most words first. */
  readonly shorter?: readonly ShorterWording[]
  /** Sentences of one name are told in fewer words all at once; those that come to the same words are told once. */
  readonly together?: string
  /** There where the owner put it in other words, which are its text then. */
  readonly edit?: EditState
}

/** A sentence in fewer words. */
export type ShorterWording = {
  readonly text: string
  /** How badly the words that it lacks would be missed, as the importance of a sentence. */
  readonly worth: number
}

/** How an edit stands to the journal of today. */
export type EditState = {
  /** What would stand there without it. */
  readonly offered: string
  /** Whether what it was made on has changed since. */
  readonly changed: boolean
  /** The facts of then that are no longer so. */
  readonly formerFacts: readonly Fact[]
  /** The journal's wording when the owner's was written. */
  readonly formerText: string
}

/** The owner's own words for a sentence, and what they were made on. */
export type SentenceEdit = {
  /** The key of the sentence; `title` for the title, `own` for words that stand for themselves. */
  readonly key: string
  /** Empty: the sentence is to be left out. */
  readonly words: string
  readonly madeOn: { readonly text: string; readonly facts: readonly Fact[] }
}

/** Sentences that belong together, as running text or one to a line. */
export type Paragraph = {
  readonly heading?: string
  readonly layout: 'prose' | 'lines'
  readonly sentences: readonly Sentence[]
}

/** A fact that the text would be better for, and the question to ask the owner. */
export type MissingFact = {
  readonly about: Subject
  readonly fact: string
  readonly question: string
}

/** Text made from the journal. */
export type WriteUp = {
  readonly title: string
  /** There where the owner changed the title. */
  readonly titleEdit?: EditState
  readonly paragraphs: readonly Paragraph[]
  readonly missing: readonly MissingFact[]
  /** Sentences left out whole, the first to go first, because of the limit. */
  readonly leftOut: readonly Sentence[]
  /** Sentences that the owner took out. */
  readonly removed: readonly Sentence[]
  /** Edits of sentences that are no longer there. */
  readonly looseEdits: readonly SentenceEdit[]
  /** All of it as plain text, within the limit. */
  readonly text: string
}
