/** Another language is a file: in one that says nothing but dots, no word of English is left in any text. */
import { expect, test } from 'vitest'
import type { Journal } from '#core/journal/journal'
import { finishesText } from '#core/materials/finishes-text'
import { listFinishes } from '#core/materials/list-finishes'
import { listMaterials } from '#core/materials/list-materials'
import { materialsText } from '#core/materials/materials-text'
import { describePair } from '#core/write-ups/describe-pair'
import { describePhoto } from '#core/write-ups/describe-photo'
import { english } from '#core/write-ups/english'
import type { Language } from '#core/write-ups/language'
import { listingJsonLd } from '#core/write-ups/listing-json-ld'
import type { WriteUp } from '#core/write-ups/write-up'
import { writeCaption } from '#core/write-ups/write-caption'
import { writeCareCard } from '#core/write-ups/write-care-card'
import { writeListing } from '#core/write-ups/write-listing'
import { writeReport } from '#core/write-ups/write-report'
import { writeVideoDescription } from '#core/write-ups/write-video-description'
import { goldenJobs } from './golden-jobs.ts'
import { alderYard } from './jobs.ts'

/** The same catalogue with a dot for everything that it says. */
function dotted(words: unknown): unknown {
  if (typeof words === 'string') return words === '' ? '' : '·'
  if (Array.isArray(words)) return words.map(dotted)
  if (isSaying(words))
    return (...facts: readonly unknown[]) => dotted(words(...facts))
  if (typeof words === 'object' && words !== null)
    return Object.fromEntries(
      Object.entries(words).map(([name, value]) => [name, dotted(value)]),
    )
  return words
}
function isSaying(
  words: unknown,
): words is (...facts: readonly unknown[]) => unknown {
  return typeof words === 'function'
}

/** In a set each piece has its own name. */
function pieceNames({ pieces }: Journal): readonly string[] {
  return pieces.flatMap(({ name, kind }) => [name, kind])
}

const dots = dotted(english) as Language

/** Chapters that an owner set and typed; the rest of a description is the catalogue's. */
const chapters = ['·', '· ·', '· · ·'].map((title, index) => ({
  seconds: index * 60,
  title,
  confidence: 1,
}))

function textsOf({ title, text, missing }: WriteUp): readonly string[] {
  return [title, text, ...missing.map(({ question }) => question)]
}

test.each(Object.entries(goldenJobs))(
  '%s',
  (_, { job, now, settings = alderYard }) => {
    // The title is the owner's.
    const journal = { ...job, job: { ...job.job, title: '·' } }
    const listing = writeListing({ journal, now, settings, language: dots })
    const list = listMaterials(journal)
    const [first, ...rest] = journal.photos
    const last = rest.at(-1)
    const texts = [
      listing,
      writeVideoDescription({ journal, settings, chapters, language: dots }),
      writeCaption({ journal, language: dots }),
      writeCareCard({
        journal,
        now,
        settings,
        pageAddress: 'https://example.org/',
        language: dots,
      }),
      writeReport({ journal, now, settings, language: dots }),
    ].flatMap(textsOf)
    texts.push(
      // A link is the owner's.
      ...(['owner', 'viewer'] as const).map((reader) =>
        materialsText(list, settings, reader, [], dots).replace(
          /^ *https?:\S+$/gm,
          '',
        ),
      ),
      finishesText(journal.job.title, listFinishes(journal), settings, dots),
      ...journal.photos.map((photo) => describePhoto(journal, photo, dots)),
      ...(first === undefined || last === undefined
        ? []
        : [
            describePair({
              journal,
              before: first,
              after: last,
              language: dots,
            }),
          ]),
    )
    for (const text of texts) expect(text).not.toMatch(/\p{L}/u)
    const linked = JSON.stringify(
      listingJsonLd({
        journal,
        settings,
        listing,
        photoAddress: () => '',
        language: dots,
      }),
    )
    const owners = new Set(pieceNames(journal))
    JSON.parse(linked, (key, words: unknown) => {
      if (
        ['name', 'description', 'keywords', 'caption'].includes(key) &&
        typeof words === 'string' &&
        !owners.has(words)
      )
        expect(words).not.toMatch(/\p{L}/u)
      return words
    })
  },
)
