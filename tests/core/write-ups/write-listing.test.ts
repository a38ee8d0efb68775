import { expect, test } from 'vitest'
import type { Journal } from '#core/journal/journal'
import { exactly } from '#core/time/span'
import { readTimeline } from '#core/timeline/read-timeline'
import type { Timeline } from '#core/timeline/timeline'
import { minutes } from '#core/units'
import { writeListing } from '#core/write-ups/write-listing'
import { goldenJobs } from './golden-jobs.ts'
import {
  alderYard,
  journal,
  local,
  paintedBookcase,
  photo,
  piece,
  product,
  sideboardAndBench,
  step,
} from './jobs.ts'

const longAfter = local('2027-06-01T12:00')

function listing(job: Journal, now = longAfter) {
  return writeListing({ journal: job, settings: alderYard, now })
}

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
  expect(text).not.toMatch(/\bred\b|painted/)
})

test('what is sold is offered to nobody: no price, nowhere to collect it, and neither is asked for', () => {
  const { job } = sideboardAndBench
  const soldAt = local('2026-11-20T12:00')
  const offered = { ...job, askingPriceMinor: 48_500, collection: 'By van' }
  const { text } = listing({
    ...sideboardAndBench,
    job: { ...offered, soldAt },
  })
  expect(text).toMatch(/^Sold\.$/m)
  expect(text).not.toMatch(/Price|£|van/)
  const bare = { id: job.id, title: job.title, createdAt: job.createdAt }
  const asked = (about: Journal['job']) =>
    listing({ ...sideboardAndBench, job: about }).missing.map(
      ({ fact }) => fact,
    )
  expect(asked(bare)).toEqual(
    expect.arrayContaining(['askingPriceMinor', 'collection']),
  )
  expect(asked({ ...bare, soldAt })).not.toContain('askingPriceMinor')
  expect(asked({ ...bare, soldAt })).not.toContain('collection')
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
  expect(missing.map(({ question }) => question)).toContain(
    'A coat on the body went on too soon: is the finish sound? The listing does not say so.',
  )
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
    'Cured by 6 April 2026: the label of the waterborne enamel gives 30 days to full cure, and the air in the workshop made it longer.',
  )
  expect(at('2026-03-10T10:00')).toContain(
    'Cured by 1 April 2026: the label of the waterborne enamel gives 30 days to full cure.',
  )
})

test('the air is said to make the cure later only where the day that is written is later', () => {
  const { text } = writeListing({
    journal: paintedBookcase,
    timeline: tooSoon('2026-04-01T11:05'),
    settings: alderYard,
    now: local('2026-03-20T12:00'),
  })
  expect(text).toContain(
    'Cured by 1 April 2026: the label of the waterborne enamel gives 30 days to full cure. Until then',
  )
})

test('a cure that is later because a photo without a time of its own came later is not laid on the air', () => {
  // The start was typed, 2 March at 10:00; nobody knows how long before its arrival the photo was taken.
  const withPhotoOf = (arrived: string): Journal => ({
    ...paintedBookcase,
    steps: paintedBookcase.steps.map((one) =>
      one.id === 'c2' ? { ...one, photoIds: ['wet'] } : one,
    ),
    photos: [
      photo('wet', 'progress', ['bookcase-body'], {
        stepId: 'c2',
        taken: exactly(local(arrived)),
        basis: 'arrival',
      }),
    ],
    air: [{ at: local('2026-03-02T09:00'), celsius: 14, humidity: 72 }],
  })
  const at = (arrived: string) => {
    const job = withPhotoOf(arrived)
    return writeListing({
      journal: job,
      timeline: readTimeline(job),
      settings: alderYard,
      now: local('2026-03-20T12:00'),
    }).text
  }
  expect(at('2026-03-02T10:05')).toContain(
    'Last coat: 2 March 2026. Cured by 1 April 2026: the label of the waterborne enamel gives 30 days to full cure. Until then',
  )
  expect(at('2026-03-05T10:05')).toContain(
    'Last coat: 2 March 2026. Cured by 4 April 2026: the label of the waterborne enamel gives 30 days to full cure, counted from the latest day that photos of that coat leave open. Until then',
  )
})

test('a label that gives no cure is asked about, and no date is made up', () => {
  const { text, missing } = listing({
    ...paintedBookcase,
    products: paintedBookcase.products.map((one) => ({ ...one, label: {} })),
  })
  expect(text).toContain('The time to full cure is not noted here')
  expect(text).not.toContain('April')
  expect(missing.map(({ question }) => question)).toContain(
    'How many days to full cure does the label of "waterborne enamel, soft white" give?',
  )
})

test('one label that gives no cure is named, and what the others give is told', () => {
  const { text } = writeListing({
    journal: {
      ...sideboardAndBench,
      products: sideboardAndBench.products.map((one) =>
        one.chemistry === 'aerosol' ? { ...one, label: {} } : one,
      ),
    },
    settings: alderYard,
    now: longAfter,
  })
  expect(text).toContain('Except for the aerosol enamel, cured since ')
  expect(text).toContain(
    'For the aerosol enamel no time to full cure is noted: handle gently what it is on.',
  )
  expect(text).toContain('Once cured, clean with a soft damp cloth')
})

test('an age that is noted is not said to be unknown because another is', () => {
  const { text } = listing({
    ...sideboardAndBench,
    pieces: sideboardAndBench.pieces.map((one) =>
      one.kind === 'sideboard' ? { ...one, age: 'about 1965' } : one,
    ),
  })
  expect(text).toContain(
    'no lead test is noted, nor the age of the bench. Finishes from before 1978',
  )
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
  expect(short.leftOut[0]?.text).toContain('Keywords')
  expect(short.leftOut[1]?.text).toContain('coasters')
})

test.each(Object.entries(goldenJobs))(
  'with little room for the listing of %s there is a title, the cautions and the price',
  (_, { job, now, settings = alderYard }) => {
    const all = { journal: job, now, settings }
    const keys = writeListing(all).paragraphs.flatMap((one) =>
      one.sentences.map(({ key }) => key),
    )
    for (let limit = 80; limit <= 600; limit += 13) {
      const { title, text } = writeListing({ ...all, limit })
      expect(text.length).toBeLessThanOrEqual(limit)
      expect(title).not.toBe('')
      expect(title).not.toMatch(/\b(of|and|with|for|a|an|the)$/i)
      expect(text.startsWith(title)).toBe(true)
      if (keys.includes('lead')) expect(text).toMatch(/lead\b.*\btest/is)
      if (keys.includes('tip-over')) expect(text).toMatch(/tip over.*wall/is)
      if (limit >= 120 && keys.includes('price')) {
        expect(text).toContain('Price: ')
      }
    }
  },
)

test("the owner's own words for a flaw are never told in fewer, and those of the others still are", () => {
  const job = goldenJobs['flaws']
  if (job === undefined) throw new Error('no such job')
  const all = { journal: job.job, now: job.now, settings: alderYard }
  const flaws = writeListing(all)
    .paragraphs.flatMap((one) => one.sentences)
    .filter(({ key }) => key.startsWith('flaw '))
  const [first] = flaws
  if (first === undefined) throw new Error('no flaw')
  const { text } = writeListing({
    ...all,
    limit: 230,
    edits: [
      {
        key: first.key,
        words: 'Two knots show a little.',
        madeOn: { text: first.text, facts: first.facts },
      },
    ],
  })
  expect(text).toContain('Two knots show a little.')
  expect(text).toContain('Four flaws to know of: please ask.')
})

test('three lengths, each with all that the shorter one says', () => {
  const texts = (['short', 'medium', 'full'] as const).map((length) =>
    writeListing({
      journal: sideboardAndBench,
      settings: alderYard,
      now: local('2026-10-28T09:00'),
      length,
    }).paragraphs.flatMap(({ sentences }) => sentences.map(({ text }) => text)),
  )
  const [short = [], medium = [], full = []] = texts
  expect(short.length).toBeLessThan(medium.length)
  expect(medium.length).toBeLessThan(full.length)
  expect(medium).toEqual(expect.arrayContaining([...short]))
  expect(full).toEqual(expect.arrayContaining([...medium]))
  // Flaws, cautions and the cure are in the shortest.
  expect(short.join(' ')).toMatch(/water mark.*Cured by.*lead.*tip over/)
  expect(short.join(' ')).not.toContain('scuffed, primed')
})

test.each([
  ['a date under a drawer', 'Age: 1950s, going by a date under a drawer.'],
  ['by its maker’s stamp', 'Age: 1950s, by its maker’s stamp.'],
  [
    'The family it came from bought it new.',
    'Age: 1950s (the family it came from bought it new).',
  ],
  ['bought with the bench', 'Age: 1950s (bought with the bench).'],
])('an age that is known by "%s" reads well', (ageKnownBy, sentence) => {
  const { pieces } = sideboardAndBench
  const { text } = listing({
    ...sideboardAndBench,
    pieces: pieces.map((one) => ({ ...one, age: '1950s', ageKnownBy })),
  })
  expect(text).toContain(sentence)
})

test('a question that is answered makes a fuller listing and is not asked again', () => {
  const { pieces } = sideboardAndBench
  const answered = listing({
    ...sideboardAndBench,
    pieces: pieces.map((one) => ({
      ...one,
      age: '1950s',
      ageKnownBy: 'a date under a drawer',
      liner: 'permanent' as const,
    })),
  })
  expect(answered.text).toContain('Age: 1950s, going by a date under a drawer.')
  expect(answered.text).toContain('Drawer lining: fixed for good.')
  expect(answered.missing.map(({ fact }) => fact)).not.toContain('age')
  expect(listing(sideboardAndBench).missing.map(({ fact }) => fact)).toContain(
    'age',
  )
})

test('a piece that is surely newer than lead paint is not suspected of it', () => {
  const aged = (age: string) =>
    listing({
      ...sideboardAndBench,
      pieces: sideboardAndBench.pieces.map((one) => ({ ...one, age })),
    }).text
  expect(aged('2015')).not.toContain('lead')
  expect(aged('about 2005')).toContain('may contain lead')
  expect(aged('1960s style')).toContain('may contain lead')
})

// What a buyer would read as a promise about the bureau must be true of it.
test('what only some pieces have is not said of the others', () => {
  const chairs = [1, 2, 3].map((number) =>
    piece(`chair${number}`, 'chair', ['frame', 'seat'], {
      name: `Chair ${number}`,
      widthMillimetres: 440,
    }),
  )
  const on = (surface: string) =>
    chairs.map(({ id }) => `${id}-${surface}:1`).join(' ')
  const job = journal(
    'Chairs and bureau',
    [
      ...chairs,
      piece('bureau', 'bureau', ['body', 'fall front'], {
        name: 'Bureau',
        material: "'oak' veneer",
      }),
    ],
    [
      step('a', 'coat', on('frame'), '2026-05-01T10:00', {
        productId: 'white',
        thinningPercent: 10,
      }),
      step('b', 'seal', on('seat'), '2026-05-02T10:00', { productId: 'oil' }),
      step(
        'c',
        'stain',
        'bureau-body:1 bureau-fall-front:1',
        '2026-05-03T10:00',
        { productId: 'stain' },
      ),
    ],
    [
      product('white', 'limewash paint, bone white', 'paint', 'other'),
      product('oil', 'hard wax oil, matt', 'clear coat', 'oil-alkyd'),
      product('stain', 'oil stain, walnut', 'stain', 'oil-stain'),
    ],
    { askingPriceMinor: 0, collection: 'Free to whoever fetches them' },
  )
  const { text } = listing(job)
  expect(text)
    .toContain(`Three chairs and bureau, bone white and walnut, each chair 44 cm wide

Three chairs and a bureau, with the frames of Chairs 1 to 3 painted bone white, the seats of Chairs 1 to 3 clear-coated in matt, and the body and fall front of the bureau stained walnut.`)
  expect(text).toContain(
    'Price: free.\nCollection: free to whoever fetches them.',
  )
  expect(text).toContain(
    'Keywords: chair, bureau, painted chair, stained bureau, bone white chair, walnut bureau.',
  )
  const chairsAlone = listing({ ...job, steps: job.steps.slice(0, 2) })
  expect(chairsAlone.text).toMatch(/^Three chairs and bureau, each chair 44 cm/)
})
