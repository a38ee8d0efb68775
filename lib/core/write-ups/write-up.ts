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
  readonly text: string
  readonly facts: readonly Fact[]
  /** How badly it would be missed: when the text is too long, the lowest go first. */
  readonly importance: number
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
  readonly paragraphs: readonly Paragraph[]
  readonly missing: readonly MissingFact[]
  /** Sentences left out whole, the first to go first, because of the limit. */
  readonly leftOut: readonly Sentence[]
  /** All of it as plain text, within the limit. */
  readonly text: string
}
