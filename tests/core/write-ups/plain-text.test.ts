import { expect, test } from 'vitest'
import { plainText } from '#core/write-ups/plain-text'

test.each([
  ['  two  spaces ', 'two spaces'],
  ['line\r\nbreak\tand tab', 'line break and tab'],
  ['<b>bold</b>', 'b bold /b'],
  ['turned \u202Eround', 'turned round'],
  ['a chair 🪑 and 👩‍🔧', 'a chair 🪑 and 👩‍🔧'],
])('%j becomes %j', (typed, plain) => {
  expect(plainText(typed)).toBe(plain)
})
