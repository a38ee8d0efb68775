import { z } from 'zod'
import type { Fact, Sentence, WriteUp } from '#core/write-ups/write-up'

const subject = z.object({
  kind: z.enum(['workshop', 'job', 'piece', 'step', 'product', 'photo']),
  id: z.string(),
})

const facts = z.array(
  z.object({ about: subject, fact: z.string(), value: z.string() }),
)

const sentence = z.object({
  key: z
    .string()
    .meta({ description: 'The same however the journal changes.' }),
  text: z.string(),
  facts: facts.meta({ description: 'All that it rests on in the journal.' }),
  edit: z
    .object({
      offered: z
        .string()
        .meta({ description: 'What would stand there without the edit.' }),
      changed: z.boolean().meta({
        description: 'Whether what it was made on has changed since.',
      }),
      formerFacts: facts,
    })
    .nullable()
    .meta({ description: 'Where the owner put it in other words.' }),
})

/** A text made from the journal with the facts behind each sentence, as the interface gives it. */
export const writeUpAnswer = z
  .object({
    title: z.string(),
    paragraphs: z.array(
      z.object({
        heading: z.string().nullable(),
        layout: z.enum(['prose', 'lines']),
        sentences: z.array(sentence),
      }),
    ),
    missing: z
      .array(
        z.object({ about: subject, fact: z.string(), question: z.string() }),
      )
      .meta({ description: 'What the text would be better for.' }),
    leftOut: z
      .array(sentence)
      .meta({ description: 'Sentences that did not fit the limit.' }),
    removed: z
      .array(sentence)
      .meta({ description: 'Sentences that the owner took out.' }),
    text: z.string().meta({ description: 'All of it as plain text.' }),
  })
  .meta({ id: 'WriteUp' })

/** A write-up in the form of {@link writeUpAnswer}. */
export function writeUpToAnswer(
  writeUp: WriteUp,
): z.input<typeof writeUpAnswer> {
  return {
    title: writeUp.title,
    paragraphs: writeUp.paragraphs.map((paragraph) => ({
      heading: paragraph.heading ?? null,
      layout: paragraph.layout,
      sentences: paragraph.sentences.map(sentenceToAnswer),
    })),
    missing: writeUp.missing.map(({ about, fact, question }) => ({
      about,
      fact,
      question,
    })),
    leftOut: writeUp.leftOut.map(sentenceToAnswer),
    removed: writeUp.removed.map(sentenceToAnswer),
    text: writeUp.text,
  }
}

function sentenceToAnswer(one: Sentence): z.input<typeof sentence> {
  return {
    key: one.key,
    text: one.text,
    facts: factsToAnswer(one.facts),
    edit:
      one.edit === undefined
        ? null
        : {
            offered: one.edit.offered,
            changed: one.edit.changed,
            formerFacts: factsToAnswer(one.edit.formerFacts),
          },
  }
}

function factsToAnswer(told: readonly Fact[]): z.input<typeof facts> {
  return told.map(({ about, fact, value }) => ({ about, fact, value }))
}
