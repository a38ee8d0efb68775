import { describe, expect, test } from 'vitest'
import { mendMisheard } from '#core/captions/mend-misheard'
import { spokenWords } from '#core/captions/spoken-words'

function said(text: string) {
  return spokenWords([
    { start: 0, end: 12, settings: {}, text, parts: [{ text }] },
  ])
}

function mended(text: string, names: readonly string[] = []) {
  return mendMisheard(said(text), names)
    .map((word) => word.text)
    .join(' ')
}

describe('what machines make of the words of the trade', () => {
  test.each([
    ['a coat of shell lack', 'a coat of shellac'],
    ['i use de glosser on it', 'i use deglosser on it'],
    ['then the first top code', 'then the first top coat'],
    ['another code of paint', 'another coat of paint'],
    ['sanded with one twenty great', 'sanded with one twenty grit'],
    ['the draw fronts', 'the drawer fronts'],
    ['take the nobs off', 'take the knobs off'],
    ['an under coater', 'an undercoater'],
    ['this is poly urethane', 'this is polyurethane'],
    ['d waxed', 'dewaxed'],
  ])('%s', (heard, meant) => {
    expect(mended(heard)).toBe(meant)
  })

  test('names of products are listened for too', () => {
    expect(mended('in chest nut', ['Gel stain, chestnut'])).toBe('in chestnut')
    expect(mended('in chest nut')).toBe('in chest nut')
  })
})

test.each([
  'this is a great day for it',
  'the code to the gate',
  'they sat in the corner with a cup of tea',
  'we draw a line here',
  'it would die of thirst',
  'i put it to one side and then the other',
  'the shell of a snail lacks nothing',
])('talk of other things is left as it is: %s', (heard) => {
  expect(mended(heard)).toBe(heard)
})

test('joined words last from the first of them to the last', () => {
  const words = said('some shell lack')
  const [, shellac] = mendMisheard(words)
  expect(shellac?.at).toBe(words[1]?.at)
  expect(shellac?.end).toBe(words[2]?.end)
})
