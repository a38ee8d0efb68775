import { expect, test } from 'vitest'
import type { Journal } from '#core/journal/journal'
import type { Timeline } from '#core/timeline/timeline'
import { minutes } from '#core/units'
import { writeListing } from '#core/write-ups/write-listing'
import {
  alderYard,
  bareFacts,
  journal,
  local,
  paintedBookcase,
  piece,
  product,
  sideboardAndBench,
  step,
} from './jobs.ts'

const longAfter = local('2027-06-01T12:00')

function listing(job: Journal, now = longAfter) {
  return writeListing({ journal: job, settings: alderYard, now })
}

// Order, cure pattern and the sizes 36 x 18 x 32 1/2 in = 91.4 x 45.7 x 82.6 cm and
// 2026-03-02 + 30 days = 2026-04-01 are the trade's worked examples: common practice, no source.
test('a painted bookcase with all its facts reads as a buyer needs it', () => {
  const { text, missing } = listing(paintedBookcase)
  expect(text).toBe(`Pine bookcase, soft white, 91.4 cm wide

A pine bookcase, painted soft white.

Size: 91.4 x 45.7 x 82.6 cm (36 x 18 x 32 1/2 in), width x depth x height, at the widest.
Material: pine.

What was done
Body and shelves: cleaned, scuffed with P180, then painted with two brushed coats of waterborne enamel in soft white, sanded between coats with P320.

Condition: small dents on the left side, filled and painted over.

Last coat: 2 March 2026. By the label of the waterborne enamel, the 30 days to full cure ended on 1 April 2026. To clean, use a soft damp cloth and mild soap and dry at once; no ammonia, bleach, abrasives or silicone polish. Use coasters and felt pads, and keep out of direct sun and away from heaters.

Noted during the work: "lead swab on the back edge: no colour change". A swab test is only a screen; a laboratory test decides.

Price: £120.50.
Collection: Ground floor, any weekday.`)
  expect(missing).toEqual([])
})

test('a painted body and a stained top of two pieces, not yet cured, are told apart', () => {
  const { title, text, missing } = listing(
    sideboardAndBench,
    local('2026-10-28T09:00'),
  )
  expect(title).toBe(
    'Sideboard and bench, deep teal and dark walnut, sideboard 152 cm wide',
  )
  expect(text).toBe(`${title}

An oak veneer sideboard and an oak bench, painted deep teal, with the top of the sideboard stained dark walnut and clear-coated, and the hardware of the sideboard finished in brass.

Sideboard: 152 x 46 x 83 cm (59 3/4 x 18 x 32 3/4 in), width x depth x height, at the widest.
Bench: 110 x 35 x 45 cm (43 1/4 x 13 3/4 x 17 3/4 in), width x depth x height, at the widest.
Material of the sideboard: oak veneer.
Material of the bench: oak.

What was done
Sideboard (body) and bench (body): cleaned, scuffed with P180, primed with two sprayed coats of waterborne primer (grey), then painted with two sprayed coats of waterborne enamel in deep teal.
Sideboard (top): cleaned, stripped, sanded from P120 to P150, conditioned with one wiped-on coat of wood conditioner, stained with one wiped-on coat of oil stain in dark walnut, then clear-coated with two brushed coats of waterborne clear (satin).
Sideboard (hardware): primed with one sprayed coat of aerosol metal primer, then finished with one sprayed coat of aerosol enamel in brass.
Sideboard (drawers): lined with drawer paper (leaf pattern).

Condition of the sideboard: a faint water mark on the left of the top, under the clear coat.
Condition of the bench: one foot has an old repair.

Last coat: 25 October 2026. By the label of the waterborne enamel, full cure takes 30 days, to 23 November 2026; until then handle gently, and do not wash the finish, cover it or set hot or heavy things on it. After full cure, clean with a soft damp cloth and mild soap and dry at once; no ammonia, bleach, abrasives or silicone polish. Use coasters and felt pads, and keep out of direct sun and away from heaters.

The old surface was scuffed, stripped and sanded; its age is not noted, and neither is a lead test. Finishes from before 1978 (US) or 1992 (UK) may contain lead: have what is left tested before you sand, scrape or strip it, and before a child uses the furniture. Furniture with drawers or doors can tip over: fix the sideboard to the wall with an anchor, and keep heavy things low.

Price: £450.
Collection: from the workshop by arrangement; two people and a van are needed.`)
  expect(missing.map(({ question }) => question)).toEqual([
    'Was the old finish tested for lead? Note the test and its result on the step.',
  ])
})

test('what is not written down is asked for and left unsaid', () => {
  const { text, missing } = listing(bareFacts)
  expect(text).toBe(`Chest of drawers

A chest of drawers, with the body painted.

What was done
Body: repaired, then painted with one coat of chalky paint.

The time to full cure is not noted here: handle gently, and ask before you wash the finish or set hot or heavy things on it. After full cure, clean with a soft damp cloth and mild soap and dry at once; no ammonia, bleach, abrasives or silicone polish. Use coasters and felt pads, and keep out of direct sun and away from heaters.

Furniture with drawers or doors can tip over: fix the chest of drawers to the wall with an anchor, and keep heavy things low.`)
  expect(missing.map(({ question }) => question)).toEqual([
    'How wide is the chest of drawers?',
    'How deep is the chest of drawers?',
    'How tall is the chest of drawers?',
    'What is the chest of drawers made of, as far as you can tell?',
    'Which marks, repairs or smells must a buyer of the chest of drawers know about? If there are none, say so.',
    'What colour is "chalky paint"? Write it after a comma in the product\'s name.',
    'When did the last coat go on?',
    'Is the job finished? The listing tells only what is written down so far.',
    'What do you ask for it?',
    'Where and how can a buyer collect it?',
  ])
})

// Two dining chairs, US units and zone; the last coat ends at 23:30 in New York, which is the next day in London.
const twoChairs = journal(
  'Dining chairs',
  [
    piece('a', 'dining chair', ['frame', 'seat'], {
      name: 'Chair one',
      widthMillimetres: 457,
      heightMillimetres: 914,
      material: 'maybe beech',
      flaws: 'none',
    }),
    piece('b', 'dining chair', ['frame', 'seat'], { name: 'Chair two' }),
  ],
  [
    step('c1', 'coat', 'a-frame:1 b-frame:1', '2026-07-01T10:00', {
      productId: 'clear',
      method: 'brush',
    }),
    step('c2', 'coat', 'a-frame:2', undefined, {
      productId: 'clear',
      method: 'brush',
      startedAt: local('2026-07-03T23:30', 'America/New_York'),
    }),
  ],
  [
    product('clear', 'oil varnish, gloss', 'clear coat', 'oil-alkyd', {
      cureDays: 7,
    }),
  ],
  { askingPriceMinor: 8000 },
)

test('two chairs that share a kind go by their names, and no bare seat is called varnished', () => {
  const { text, missing } = writeListing({
    journal: twoChairs,
    settings: {
      name: 'Alder Yard',
      zone: 'America/New_York',
      currency: 'USD',
      units: 'us',
    },
    now: local('2026-07-05T12:00'),
  })
  expect(text).toBe(`Two dining chairs, Chair one 18 in wide

Two dining chairs, with the frame of Chair one and the frame of Chair two clear-coated.

Chair one: 18 in (45.7 cm) wide, 36 in (91.4 cm) high.
Material of Chair one: maybe beech.

What was done
Chair one (frame): clear-coated with two brushed coats of oil varnish (gloss).
Chair two (frame): clear-coated with one brushed coat of oil varnish (gloss).

Condition of Chair one: no marks, repairs or smells noted.

Last coat: July 3, 2026. By the label of the oil varnish, full cure takes 7 days, to July 10, 2026; until then handle gently, and do not wash the finish, cover it or set hot or heavy things on it. After full cure, clean with a soft damp cloth and mild soap and dry at once; no ammonia, bleach, abrasives or silicone polish. Use coasters and felt pads, and keep out of direct sun and away from heaters.

Price: $80.`)
  expect(missing.map(({ question }) => question)).toContain(
    'How tall is Chair two?',
  )
  expect(missing.map(({ question }) => question)).not.toContain(
    'How tall is Chair one?',
  )
})

test('coats that were stripped off again are not told', () => {
  const { text } = listing(
    journal(
      'Stool',
      [piece('stool', 'stool', ['seat'])],
      [
        step('a', 'coat', 'stool-seat:1', '2026-05-01T10:00', {
          productId: 'red',
        }),
        step('b', 'strip', 'stool-seat', '2026-05-02T10:00'),
        step('c', 'wax', 'stool-seat:1', '2026-05-03T10:00', {
          productId: 'wax',
        }),
      ],
      [
        product('red', 'waterborne enamel, barn red', 'paint', 'other'),
        product('wax', 'hard wax', 'wax', 'wax', { cureDays: 2 }),
      ],
    ),
  )
  expect(text).toContain('A stool, waxed.')
  expect(text).not.toMatch(/red|painted/)
})

function tooSoon(curedBy: string): Timeline {
  const on = { id: 'bookcase-body', name: 'body' }
  return {
    lanes: [
      {
        piece: { id: 'bookcase', name: 'Bookcase' },
        surface: on,
        steps: [],
        checks: [
          {
            from: 'c1',
            to: 'c2',
            purpose: 'recoat',
            elapsed: { low: minutes(60), high: minutes(60) },
            label: { min: minutes(240) },
            required: minutes(240),
            verdict: 'too-soon',
            reason: 'Waited 1 h; the label asks for 4 h.',
            advice: '',
          },
        ],
        next: { stepId: 'c2', curedBy: local(curedBy), reason: '' },
      },
    ],
    warnings: [],
  }
}

test('a recoat made too soon is a question to the owner, not news for the buyer', () => {
  const { text, missing } = writeListing({
    journal: paintedBookcase,
    timeline: tooSoon('2026-04-01T10:00'),
    settings: alderYard,
    now: longAfter,
  })
  expect(text).toBe(listing(paintedBookcase).text)
  expect(missing.map(({ question }) => question)).toEqual([
    'A coat on the body went on too soon: is the finish sound? The listing does not say so.',
  ])
})

test('the air can make the cure later than the label, never earlier', () => {
  const at = (curedBy: string) =>
    writeListing({
      journal: paintedBookcase,
      timeline: tooSoon(curedBy),
      settings: alderYard,
      now: local('2026-03-20T12:00'),
    }).text
  expect(at('2026-04-06T10:00')).toContain(
    'By the label of the waterborne enamel, 30 days, and the air in the workshop, full cure is expected on 6 April 2026;',
  )
  expect(at('2026-03-10T10:00')).toContain(
    'By the label of the waterborne enamel, full cure takes 30 days, to 1 April 2026;',
  )
})

test('a label that gives no cure is asked about, and no date is made up', () => {
  const { text, missing } = listing({
    ...paintedBookcase,
    products: paintedBookcase.products.map((one) => ({ ...one, label: {} })),
  })
  expect(text).toContain('The time to full cure is not noted here')
  expect(text).not.toContain('April')
  expect(missing.map(({ question }) => question)).toEqual([
    'How many days to full cure does the label of "waterborne enamel, soft white" give?',
  ])
})

test("a child's bed brings the question of today's safety rules", () => {
  const { missing } = listing(
    journal('Cot', [piece('cot', 'cot', ['frame'])], [], []),
  )
  expect(missing.map(({ question }) => question)).toContain(
    "Have you checked the cot against today's child safety rules and recalls? Some may not be sold at all.",
  )
})

test('a short limit keeps the cautions and the flaws, and drops care and detail first', () => {
  const full = listing(sideboardAndBench, local('2026-10-28T09:00'))
  const short = writeListing({
    journal: sideboardAndBench,
    settings: alderYard,
    now: local('2026-10-28T09:00'),
    limit: 1200,
  })
  expect(full.leftOut).toEqual([])
  expect(short.text.length).toBeLessThanOrEqual(1200)
  expect(short.text).toContain('may contain lead')
  expect(short.text).toContain('tip over')
  expect(short.text).toContain('water mark')
  expect(short.text).not.toContain('coasters')
  expect(short.leftOut[0]?.text).toContain('coasters')
})
