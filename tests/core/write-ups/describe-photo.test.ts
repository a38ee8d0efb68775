import fc from 'fast-check'
import { expect, test } from 'vitest'
import { photoRoles } from '#core/journal/vocabulary'
import { describePhoto } from '#core/write-ups/describe-photo'
import { anyJournal, anyWords } from './any-journal.ts'
import { journal, photo, sideboardAndBench, step } from './jobs.ts'

// WCAG 2.2, success criterion 1.1.1: the text serves the purpose of the picture.
test.each([
  [
    photo('1', 'before', ['sideboard-body', 'sideboard-top'], {
      view: 'front',
    }),
    'Sideboard, front view, before the work.',
  ],
  [
    photo('2', 'progress', ['sideboard-top'], { stepId: 'sand1' }),
    'Top of the sideboard, during sanding.',
  ],
  [
    photo('3', 'after', ['sideboard-body', 'sideboard-top'], {
      view: 'front',
    }),
    'Sideboard, front view, after the work: painted deep teal, with the top stained dark walnut and clear-coated.',
  ],
  [
    photo('4', 'after', ['sideboard-top'], { flaw: 'A faint water mark.' }),
    'Top of the sideboard, a flaw: a faint water mark.',
  ],
  // A view of a part says which surfaces are to be seen, also where nobody named them.
  [
    photo('6', 'after', [], { view: 'top' }),
    'Sideboard, from above, after the work: stained dark walnut and clear-coated.',
  ],
  [
    photo('7', 'after', [], { view: 'hardware' }),
    'Sideboard, hardware, after the work: finished in brass.',
  ],
  [
    photo('8', 'after', [], { view: 'inside' }),
    'Sideboard, inside, after the work: lined with drawer paper (leaf pattern).',
  ],
  // It may show a knob: how the whole looks says nothing of it.
  [photo('9', 'after', []), 'Sideboard and bench, after the work.'],
  [
    photo('10', 'after', [], { view: 'front' }),
    'Sideboard and bench, front view, after the work: painted deep teal for the most part.',
  ],
  [photo('5', 'progress', []), 'Sideboard and bench, during the work.'],
])('a photo says what it is there to show', (one, text) => {
  expect(describePhoto(sideboardAndBench, one)).toBe(text)
})

test('one sentence of at most 125 characters, whatever was typed', () => {
  fc.assert(
    fc.property(
      anyJournal,
      fc.constantFrom(...photoRoles),
      fc.option(anyWords, { nil: undefined }),
      fc.option(anyWords, { nil: undefined }),
      (journal, role, view, flaw) => {
        const surfaces = journal.pieces.flatMap((piece) => piece.surfaces)
        const text = describePhoto(
          journal,
          photo(
            'p',
            role,
            surfaces.slice(0, 2).map(({ id }) => id),
            {
              ...(view !== undefined && { view }),
              ...(flaw !== undefined && { flaw }),
            },
          ),
        )
        expect(text.length).toBeLessThanOrEqual(125)
        expect(text).not.toMatch(/ {2}|undefined|[<>]/)
      },
    ),
  )
})

test('a photo of knobs being put back is of refitting, one with the body of assembly', () => {
  const whole = { id: 'box', name: 'box', kind: 'box' }
  const surfaces = [
    { id: 'knobs', name: 'knobs' },
    { id: 'body', name: 'body' },
  ]
  const words = (...shown: readonly string[]) =>
    describePhoto(
      journal(
        'Box',
        [{ ...whole, surfaces }],
        [step('together', 'assemble', 'knobs body', '2026-06-01T08:00')],
        [],
      ),
      photo('1', 'progress', shown, { stepId: 'together' }),
    )
  expect(words('knobs')).toContain('during refitting')
  expect(words('knobs', 'body')).toContain('during assembly')
})
