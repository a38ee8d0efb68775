import { expect, test } from 'vitest'
import type { Step } from '#core/journal/journal'
import { englishChapters } from '#core/write-ups/english-chapters'
import {
  betweenSteps,
  coatInSentence,
  duringStep,
  stepInSentence,
} from '#core/write-ups/english-steps'
import { surfaceWork } from '#core/write-ups/surface-work'
import { toldStep } from '#core/write-ups/told-step'
import { journal, piece, product, step } from './jobs.ts'

type Done = readonly [kind: Step['kind'], coat?: number, product?: string]

/** What was done to one surface, and the words of its steps by their place. */
function told(...done: readonly Done[]) {
  const steps = done.map(([kind, coat, productId], index) =>
    step(
      String(index),
      kind,
      coat === undefined ? 'table-top' : `table-top:${coat}`,
      `2026-06-01T${String(index + 8).padStart(2, '0')}:00`,
      productId === undefined ? {} : { productId },
    ),
  )
  const [work] = surfaceWork(
    journal('Table', [piece('table', 'table', ['top'])], steps, [
      product('primer', 'Primer', 'primer', 'other'),
      product('paint', 'Enamel', 'paint', 'other'),
      product('stain', 'Stain', 'stain', 'other'),
      product('sealer', 'Sanding sealer', 'other', 'other'),
      product('clear', 'Varnish', 'clear coat', 'other'),
      product('brass', 'Brass spray', 'hardware finish', 'aerosol'),
    ]),
  )
  return steps.map((one) => toldStep(one, work))
}

const between = (...done: readonly Done[]) => {
  const steps = told(...done)
  return steps.slice(1).map((to, index) => {
    const from = steps[index]
    return from === undefined ? '' : betweenSteps(from, to)
  })
}

test('a wait is told by what it lay between, as one says it', () => {
  expect(
    between(
      ['strip'],
      ['sand'],
      ['prime', 1, 'primer'],
      ['prime', 2, 'primer'],
      ['coat', 1, 'paint'],
      ['coat', 2, 'paint'],
      ['coat', 3, 'paint'],
    ),
  ).toEqual([
    'from stripping to sanding',
    'from sanding to the first coat of primer',
    'from the first coat of primer to the second',
    'from the second coat of primer to the first coat of paint',
    'from the first coat of paint to the second',
    'from the second coat of paint to the third',
  ])
})

test('where there is but one coat nobody counts', () => {
  expect(
    between(
      ['clean'],
      ['repair'],
      ['stain', 1, 'stain'],
      ['seal', 1, 'clear'],
      ['seal', 2, 'clear'],
    ),
  ).toEqual([
    'from cleaning to the repair',
    'from the repair to the stain',
    'from the stain to the first clear coat',
    'from the first clear coat to the second',
  ])
})

test('a coat is counted among those for the same, whatever else has numbers of its kind', () => {
  expect(
    between(['seal', 1, 'sealer'], ['seal', 2, 'clear'], ['seal', 3, 'clear']),
  ).toEqual([
    'from the sealer to the first clear coat',
    'from the first clear coat to the second',
  ])
  // Taking hardware off has a number too, and is no coat.
  expect(
    between(
      ['hardware', 1],
      ['hardware', 2, 'primer'],
      ['hardware', 3, 'brass'],
      ['hardware', 4, 'brass'],
    ).slice(1),
  ).toEqual([
    'from the primer to the first coat of finish',
    'from the first coat of finish to the second',
  ])
})

test('a number that the owner gave is kept where coats before it are not written down', () => {
  expect(
    between(['coat', 3, 'paint'], ['scuff'], ['coat', 4, 'paint']),
  ).toEqual([
    'from the third coat of paint to scuffing',
    'from scuffing to the fourth coat of paint',
  ])
})

test('what a photo was taken during', () => {
  expect(
    told(
      ['sand'],
      ['prime', 1, 'primer'],
      ['coat', 1, 'paint'],
      ['coat', 2, 'paint'],
      ['seal', 1, 'clear'],
      ['hardware'],
    ).map(duringStep),
  ).toEqual([
    'sanding',
    'priming',
    'the first coat of paint',
    'the second coat of paint',
    'clear coating',
    'work on the hardware',
  ])
})

// Of knobs and doors a restorer says that they are refitted; what is assembled is the piece. Common practice, no source.
test.each([
  ['knobs', 'refitting'],
  ['top doors', 'refitting'],
  ['top', 'assembly'],
  // No knob: a surface that happens to be spelt alike.
  ['knobbly legs', 'assembly'],
])('putting together %s is called %s', (surface, words) => {
  const done = step('0', 'assemble', 'table-part', '2026-06-01T08:00')
  const [work] = surfaceWork(
    journal(
      'Table',
      [
        {
          ...piece('table', 'table', []),
          surfaces: [{ id: 'table-part', name: surface }],
        },
      ],
      [done],
      [],
    ),
  )
  const told = toldStep(done, work)
  expect(stepInSentence(told)).toBe(words)
  expect(duringStep(told)).toBe(words)
  expect(betweenSteps({ kind: 'sand' }, told)).toBe(`from sanding to ${words}`)
})

test('so are chapters', () => {
  const title = (...places: readonly string[]) =>
    englishChapters.step({ kind: 'assemble', coats: 0, places })
  expect(title('knobs')).toBe('Refitting the knobs')
  expect(title('top')).toBe('Putting the top together')
  expect(title()).toBe('Putting it together')
})

test('a coat by its kind and number alone', () => {
  expect(coatInSentence('prime', 2)).toBe('the second coat of primer')
  expect(coatInSentence('coat', 12)).toBe('the 12th coat of paint')
  expect(coatInSentence('seal', 1)).toBe('the first clear coat')
  expect(coatInSentence('wax')).toBe('the wax')
})
