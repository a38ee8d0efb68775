import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Journal } from '#core/journal/journal'
import { withEdits } from '#core/write-ups/with-edits'
import { writeListing } from '#core/write-ups/write-listing'
import { writeVideoDescription } from '#core/write-ups/write-video-description'
import type { SentenceEdit, WriteUp } from '#core/write-ups/write-up'
import { anyJournal } from './any-journal.ts'
import { alderYard, local, paintedBookcase, sideboardAndBench } from './jobs.ts'

const now = local('2026-03-20T12:00')

function listing(journal: Journal, edits: readonly SentenceEdit[] = []) {
  return writeListing({ journal, settings: alderYard, now, edits })
}

function sentenceOf(writeUp: WriteUp, key: string) {
  const found = writeUp.paragraphs
    .flatMap(({ sentences }) => sentences)
    .find((one) => one.key === key)
  if (found === undefined) throw new Error(`no sentence ${key}`)
  return found
}

function edit(writeUp: WriteUp, key: string, words: string): SentenceEdit {
  const { text, facts } = sentenceOf(writeUp, key)
  return { key, words, madeOn: { text, facts } }
}

const grown: Journal = {
  ...paintedBookcase,
  pieces: paintedBookcase.pieces.map((piece) => ({
    ...piece,
    heightMillimetres: 900,
  })),
}
const size = 'size bookcase'
const before = listing(paintedBookcase)
const ownSize = edit(before, size, 'It fits below a window sill of 90 cm.')

test("the owner's words stand in the sentence's place and are not marked while its facts stand", () => {
  const { text, paragraphs, removed } = listing(paintedBookcase, [ownSize])
  expect(text).toContain('\n\nIt fits below a window sill of 90 cm.\nMaterial')
  expect(text).not.toContain('82.6')
  expect(
    paragraphs
      .flatMap(({ sentences }) => sentences)
      .filter(({ edit: state }) => state?.changed),
  ).toEqual([])
  expect(removed).toEqual([])
})

test('when the journal changes they stay, marked, with the new wording beside them', () => {
  const edited = sentenceOf(listing(grown, [ownSize]), size)
  expect(edited.text).toBe('It fits below a window sill of 90 cm.')
  expect(edited.edit).toEqual({
    offered:
      'Size: 91.4 x 45.7 x 90 cm (36 x 18 x 35 1/2 in), width x depth x height, at the widest.',
    changed: true,
    formerFacts: [
      {
        about: { kind: 'piece', id: 'bookcase' },
        fact: 'height',
        value: '826 mm',
      },
    ],
    formerText:
      'Size: 91.4 x 45.7 x 82.6 cm (36 x 18 x 32 1/2 in), width x depth x height, at the widest.',
  })
})

test('a change elsewhere in the journal marks nothing', () => {
  const cheaper: Journal = {
    ...paintedBookcase,
    job: { ...paintedBookcase.job, askingPriceMinor: 9900 },
  }
  expect(sentenceOf(listing(cheaper, [ownSize]), size).edit?.changed).toBe(
    false,
  )
})

test('a sentence taken out stays out, and one whose facts are gone is given back by itself', () => {
  const out = edit(before, 'care use', '')
  const written = listing(paintedBookcase, [out])
  expect(written.text).not.toContain('coasters')
  expect(written.removed.map(({ key }) => key)).toEqual(['care use'])
  const bare: Journal = {
    ...paintedBookcase,
    pieces: paintedBookcase.pieces.map(({ id, name, kind, surfaces }) => ({
      id,
      name,
      kind,
      surfaces,
    })),
  }
  expect(listing(bare, [ownSize]).looseEdits).toEqual([ownSize])
})

test('cautions and the disclosure of a paid link stand as they are', () => {
  const caution = edit(listing(sideboardAndBench), 'lead', '')
  expect(listing(sideboardAndBench, [caution]).text).toContain('lead test')
  const paid: Journal = {
    ...sideboardAndBench,
    products: sideboardAndBench.products.map((one) => ({
      ...one,
      paidLink: true,
    })),
  }
  const video = writeVideoDescription({ journal: paid, settings: alderYard })
  for (const key of ['disclosure', 'material teal']) {
    expect(
      writeVideoDescription({
        journal: paid,
        settings: alderYard,
        edits: [edit(video, key, '')],
      }).text,
    ).toBe(video.text)
  }
})

test("the owner's own words and title have their places, and limits hold with them", () => {
  const edits: readonly SentenceEdit[] = [
    {
      key: 'own',
      words: 'Made for a   narrow hall.',
      madeOn: { text: '', facts: [] },
    },
    {
      key: 'title',
      words: 'Small white bookcase for a hall',
      madeOn: { text: before.title, facts: [] },
    },
  ]
  const { title, text } = listing(paintedBookcase, edits)
  expect(title).toBe('Small white bookcase for a hall')
  expect(text).toContain('soft white.\n\nMade for a narrow hall.\n\nSize')
  for (const limit of [0, 10, 100, 400, 700]) {
    expect(
      writeListing({
        journal: paintedBookcase,
        settings: alderYard,
        now,
        edits,
        limit,
      }).text.length,
    ).toBeLessThanOrEqual(limit)
  }
})

test('keys of sentences are their own, in any journal', () => {
  fc.assert(
    fc.property(anyJournal, (journal) => {
      for (const { paragraphs } of [
        listing(journal),
        writeVideoDescription({ journal, settings: alderYard }),
      ]) {
        const keys = paragraphs.flatMap(({ sentences }) =>
          sentences.map(({ key }) => key),
        )
        expect(new Set(keys).size).toBe(keys.length)
      }
    }),
  )
})

test('no edit is ever lost: each stands, is taken out, is loose, or meets a sentence that is fixed', () => {
  fc.assert(
    fc.property(anyJournal, anyJournal, fc.string(), (one, other, words) => {
      const edits = listing(one)
        .paragraphs.flatMap(({ sentences }) => sentences)
        .map(({ key, text, facts }) => ({
          key,
          words,
          madeOn: { text, facts },
        }))
      const { paragraphs } = listing(other)
      const edited = withEdits(paragraphs, edits)
      const met = new Set([
        ...edited.paragraphs.flatMap(({ sentences }) =>
          sentences.flatMap(({ key, edit: state, fixed }) =>
            state || fixed ? key : [],
          ),
        ),
        ...edited.removed.map(({ key }) => key),
        ...edited.looseEdits.map(({ key }) => key),
      ])
      for (const { key } of edits) expect(met).toContain(key)
    }),
  )
})
