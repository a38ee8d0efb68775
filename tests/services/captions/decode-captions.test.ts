import { describe, expect, test } from 'vitest'
import { decodeCaptions } from '#services/captions/decode-captions'

const text = '1\n00:00:01,000 --> 00:00:02,000\nCafé – “½ oak” €5\n'

/** The bytes of Windows-1252 for the signs above, from its code page (Unicode Consortium, CP1252.TXT). */
const cp1252: Readonly<Record<string, number>> = {
  é: 0xe9,
  '–': 0x96,
  '“': 0x93,
  '”': 0x94,
  '½': 0xbd,
  '€': 0x80,
}
const utf16 = (start: string) => Buffer.from(`${start}${text}`, 'utf16le')

describe('a caption file is read in', () => {
  test.each([
    ['UTF-8', Buffer.from(text)],
    ['UTF-8 with its mark', Buffer.from(`\uFEFF${text}`)],
    ['UTF-16 with its mark, little end first', utf16('\uFEFF')],
    ['UTF-16 with its mark, big end first', utf16('\uFEFF').swap16()],
    ['UTF-16 without, little end first', utf16('')],
    ['UTF-16 without, big end first', utf16('').swap16()],
    [
      'Windows-1252',
      Buffer.from(
        Array.from(text, (sign) => cp1252[sign] ?? sign.charCodeAt(0)),
      ),
    ],
  ])('%s', (_, bytes) => {
    expect(decodeCaptions(bytes)).toBe(text)
  })
})

// WebVTT, section 6.1: replace all U+0000 by U+FFFD.
test('the character behind which nothing would be kept is replaced', () => {
  expect(decodeCaptions(Buffer.from('a coat\0 of primer'))).toBe(
    'a coat\ufffd of primer',
  )
})
