import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Journal, WorkshopSettings } from '#core/journal/journal'
import { listMaterials } from '#core/materials/list-materials'
import { materialsText } from '#core/materials/materials-text'
import { instant } from '#core/units'
import { lengthInBytes } from '#core/write-ups/fit-to-limit'
import { plainText } from '#core/write-ups/plain-text'
import type { WriteUp } from '#core/write-ups/write-up'
import { writeCaption } from '#core/write-ups/write-caption'
import { writeCareCard } from '#core/write-ups/write-care-card'
import { writeListing } from '#core/write-ups/write-listing'
import { writeReport } from '#core/write-ups/write-report'
import { writeVideoDescription } from '#core/write-ups/write-video-description'
import { anyJournal, wordsOf } from './any-journal.ts'

const anySettings: fc.Arbitrary<WorkshopSettings> = fc.record({
  name: fc.constant('Alder Yard'),
  zone: fc.constantFrom('Europe/London', 'America/New_York', 'Pacific/Chatham'),
  currency: fc.constantFrom('GBP', 'USD', 'JPY'),
  units: fc.constantFrom('metric', 'us'),
})
const anyNow = fc
  .integer({ min: 1_770_000_000_000, max: 1_800_000_000_000 })
  .map(instant)

function law(
  check: (written: {
    readonly journal: Journal
    readonly settings: WorkshopSettings
    readonly listing: WriteUp
    readonly video: WriteUp
    readonly others: readonly WriteUp[]
  }) => void,
) {
  fc.assert(
    fc.property(anyJournal, anySettings, anyNow, (journal, settings, now) => {
      check({
        journal,
        settings,
        listing: writeListing({ journal, settings, now }),
        video: writeVideoDescription({ journal, settings }),
        others: [
          writeCaption({ journal }),
          writeCareCard({ journal, settings, now }),
          writeReport({ journal, settings, now }),
        ],
      })
    }),
    { numRuns: 300 },
  )
}

test('no text has doubled spaces, blank ends of lines, markup or a gap where a word should be', () => {
  law(({ journal, settings, listing, video, others }) => {
    const words = wordsOf(journal)
    for (const text of [
      listing.text,
      video.text,
      ...others.map(({ text }) => text),
      ...listing.missing.map(({ question }) => question),
    ]) {
      expect(text).not.toMatch(/ {2}| $|^ | \n|\n |\n{3}/)
      expect(text).not.toMatch(/[<>\t\r]/)
      if (!/undefined|null|NaN|object/.test(words)) {
        expect(text).not.toMatch(/undefined|null|NaN|\[object/)
      }
    }
    const list = materialsText(listMaterials(journal), settings)
    expect(list).not.toMatch(/\S {2}|undefined|NaN| \n/)
  })
})

test('the article before a noun is the one that is spoken', () => {
  law(({ listing: { text } }) => {
    expect(text).not.toMatch(
      /\ba (oak|ash|elm|armchair|ottoman|L-shaped|8-drawer|hour)/i,
    )
    expect(text).not.toMatch(/\ban (used|one|chest|line|pine)/i)
  })
})

// Claims that only the owner may make: the trade's list, common practice, no source.
test("nothing is praised and no safety claimed but in the owner's own words", () => {
  law(({ listing, video, others }) => {
    const texts = [listing, video, ...others].map(({ text }) => text)
    expect(texts.join('\n')).not.toMatch(
      /like new|antique|vintage|solid wood|non-toxic|lead-free|food-safe|child-safe|beautiful|stunning|unique|perfect|gorgeous|must-have/i,
    )
  })
})

test('every fact behind a sentence is one that the journal has', () => {
  law(({ journal, listing, video, others }) => {
    const ids = new Set([
      'workshop',
      journal.job.id,
      ...journal.pieces.map(({ id }) => id),
      ...journal.steps.map(({ id }) => id),
      ...journal.products.map(({ id }) => id),
    ])
    for (const { paragraphs } of [listing, video, ...others]) {
      for (const sentence of paragraphs.flatMap((one) => one.sentences)) {
        for (const { about, value } of sentence.facts) {
          expect(ids).toContain(about.id)
          expect(value).not.toBe('undefined')
        }
      }
    }
  })
})

/** The numbers a listing may show, worked out here in another way than there. */
function numbersOf(
  journal: Journal,
  { zone, currency }: WorkshopSettings,
): ReadonlySet<string> {
  const numbers = (text: string) => text.match(/\d+/g) ?? []
  const lengths = journal.pieces
    .flatMap((piece) => [
      piece.widthMillimetres,
      piece.depthMillimetres,
      piece.heightMillimetres,
    ])
    .filter((one) => one !== undefined)
  const starts = journal.steps.flatMap(({ startedAt }) => startedAt ?? [])
  const days = journal.products.flatMap(({ label }) => label.cureDays ?? [])
  const dates = starts.flatMap((start) =>
    [0, ...days].map((count) =>
      new Intl.DateTimeFormat('en', {
        timeZone: zone,
        dateStyle: 'long',
      }).format(start + count * 86_400_000),
    ),
  )
  const price = journal.job.askingPriceMinor ?? 0
  return new Set([
    '1978',
    '1992',
    ...['1', '2', '3', '4'],
    ...numbers(plainText(wordsOf(journal))),
    ...lengths.flatMap((mm) => [
      ...numbers((mm / 10).toFixed(1)),
      String(Math.floor(Math.round((mm / 25.4) * 4) / 4)),
    ]),
    ...dates.flatMap(numbers),
    ...days.map(String),
    ...journal.steps.flatMap(({ grit }) => (grit ? [String(grit)] : [])),
    ...numbers(
      new Intl.NumberFormat('en', {
        minimumFractionDigits: currency === 'JPY' ? 0 : 2,
      }).format(currency === 'JPY' ? price : price / 100),
    ),
  ])
}

test('no number stands in a listing that the journal does not give', () => {
  law(({ journal, settings, listing }) => {
    const allowed = numbersOf(journal, settings)
    for (const number of listing.text.match(/\d+/g) ?? []) {
      expect(allowed).toContain(number)
    }
  })
})

test('however short the limit, it holds, and only whole sentences go', () => {
  fc.assert(
    fc.property(
      anyJournal,
      anySettings,
      anyNow,
      fc.integer({ min: 0, max: 2500 }),
      fc.integer({ min: 0, max: 100 }),
      (journal, settings, now, limit, titleLimit) => {
        const all = { journal, settings, now }
        const whole = writeListing(all)
        const listing = writeListing({ ...all, limit, titleLimit })
        expect(listing.text.length).toBeLessThanOrEqual(limit)
        expect(listing.title.length).toBeLessThanOrEqual(titleLimit)
        const video = writeVideoDescription({ journal, settings, limit })
        expect(Buffer.byteLength(video.text, 'utf8')).toBeLessThanOrEqual(limit)
        expect(
          writeCaption({ journal, limit }).text.length,
        ).toBeLessThanOrEqual(limit)
        const wholeSentences = whole.paragraphs.flatMap((one) => one.sentences)
        const wordings = new Set(
          wholeSentences.flatMap(({ text, shorter = [] }) => [
            text,
            ...shorter.map((one) => one.text),
          ]),
        )
        const kept = listing.paragraphs.flatMap((one) => one.sentences)
        for (const { text } of kept) {
          expect(wordings).toContain(text)
          expect(text).toMatch(/[.!?…]["')\]”’]*$/)
        }
        expect(kept.length + listing.leftOut.length).toBe(wholeSentences.length)
        const least = Math.min(...kept.map(({ importance }) => importance))
        const together = new Set(kept.map((one) => one.together))
        for (const one of listing.leftOut) {
          // What belongs together is told by one of them.
          if (one.together !== undefined && together.has(one.together)) continue
          expect(one.importance).toBeLessThanOrEqual(least)
        }
      },
    ),
    { numRuns: 300 },
  )
})

/** What each caution must at least say, by the beginning of its key. Common practice, no source. */
const cautions = {
  lead: /\blead\b.*\btest/is,
  'lead-note': /\blead\b/i,
  'tip-over': /tip over.*\bwall\b/is,
} as const

test('with room for 80 to 600 characters every caution that applies stands there, and the words are whole', () => {
  fc.assert(
    fc.property(
      anyJournal,
      anySettings,
      anyNow,
      fc.integer({ min: 80, max: 600 }),
      (journal, settings, now, limit) => {
        const all = { journal, settings, now }
        const { text } = writeListing({ ...all, limit })
        expect(text.length).toBeLessThanOrEqual(limit)
        expect(text).not.toMatch(/ {2}| $|^ | \n|\n |\n{3}/)
        const keys = writeListing(all).paragraphs.flatMap((one) =>
          one.sentences.map(({ key }) => key.split(' ')[0] ?? ''),
        )
        for (const [key, says] of Object.entries(cautions)) {
          if (keys.includes(key)) expect(text).toMatch(says)
        }
        // The price is a few signs, and the last thing to go but for the cautions.
        if (limit >= 160 && keys.includes('price')) {
          expect(text).toMatch(/^Price: /m)
        }
      },
    ),
    { numRuns: 600 },
  )
})

test('bytes are counted as UTF-8 has them', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme' }), (text) => {
      expect(lengthInBytes(text)).toBe(Buffer.byteLength(text, 'utf8'))
    }),
  )
})
