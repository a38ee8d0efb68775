/**
 * SubRip has no standard: the usual shape is checked against `@plussub/srt-vtt-parser`, an independent reader; the many
 * others are common practice, no source.
 */
import { parse } from '@plussub/srt-vtt-parser'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { parseSubRip } from '#core/captions/parse-subrip'

const told = (file: string) =>
  parseSubRip(file).map(({ start, end, text }) => [start, end, text])

describe('the shapes of SubRip', () => {
  test.each([
    [
      'the usual one',
      '1\n00:01:02,003 --> 00:01:04,500\nFirst line\nsecond line\n\n2\n00:01:05,000 --> 00:01:06,000\nNext\n',
      [
        [62.003, 64.5, 'First line\nsecond line'],
        [65, 66, 'Next'],
      ],
    ],
    [
      'a byte order mark and line ends of two signs',
      '\uFEFF1\r\n00:00:01,000 --> 00:00:02,000\r\na\r\n\r\n',
      [[1, 2, 'a']],
    ],
    [
      'full stops, few digits, no hours',
      '1\n0:1:2.5 --> 0:1:4\na\n\n2\n01:05,25 --> 01:06,100\nb',
      [
        [62.5, 64, 'a'],
        [65.25, 66.1, 'b'],
      ],
    ],
    [
      'colons before the thousandths, no space around the arrow',
      '00:00:01:500-->00:00:02:000\na',
      [[1.5, 2, 'a']],
    ],
    [
      'numbers missing or repeated, no empty line between',
      '00:00:01,000 --> 00:00:02,000\na\n1\n00:00:03,000 --> 00:00:04,000\nb\n1\n00:00:05,000 --> 00:00:06,000\nc',
      [
        [1, 2, 'a'],
        [3, 4, 'b'],
        [5, 6, 'c'],
      ],
    ],
    [
      'an empty line inside a text',
      '1\n00:00:01,000 --> 00:00:02,000\na\n\nb\n\n2\n00:00:03,000 --> 00:00:04,000\nc',
      [
        [1, 2, 'a\nb'],
        [3, 4, 'c'],
      ],
    ],
    [
      'coordinates, tags, positions in braces, line breaks in signs',
      '1\n00:00:01,000 --> 00:00:02,000  X1:053 X2:303 Y1:438 Y2:453\n{\\an8}<i>a</i> <font color="#ff0000">b</font>\\Nc',
      [[1, 2, 'a b\nc']],
    ],
    [
      'a grit by itself is text, not a number',
      '1\n00:00:01,000 --> 00:00:02,000\n220\n\n2\n00:00:03,000 --> 00:00:04,000\nc',
      [
        [1, 2, '220'],
        [3, 4, 'c'],
      ],
    ],
    [
      'an angle bracket that opens no tag',
      '1\n00:00:01,000 --> 00:00:02,000\nI <3 pine & oak',
      [[1, 2, 'I <3 pine & oak']],
    ],
    ['no captions at all', 'Dear buyer,\n\nthe chest is 90 cm wide.', []],
  ])('%s', (_, file, expected) => {
    expect(told(file)).toEqual(expected)
  })
})

test('an independent reader finds the same in the usual shape', () => {
  const two = (value: number, width = 2) => String(value).padStart(width, '0')
  const stamp = (at: number) =>
    `${two(Math.floor(at / 3_600_000))}:${two(Math.floor(at / 60_000) % 60)}:${two(Math.floor(at / 1000) % 60)},${two(at % 1000, 3)}`
  const words = fc
    .array(fc.constantFrom('sand', 'it', 'back', 'primer,', 'P220', 'dry.'), {
      minLength: 1,
      maxLength: 7,
    })
    .map((all) => all.join(' '))
  fc.assert(
    fc.property(
      fc.array(
        fc.record({
          start: fc.integer({ min: 0, max: 99 * 3_600_000 }),
          length: fc.integer({ min: 1, max: 9000 }),
          lines: fc.array(words, { minLength: 1, maxLength: 2 }),
        }),
        { minLength: 1, maxLength: 10 },
      ),
      (cues) => {
        const file = cues
          .map(
            ({ start, length, lines }, index) =>
              `${index + 1}\n${stamp(start)} --> ${stamp(start + length)}\n${lines.join('\n')}\n`,
          )
          .join('\n')
        expect(
          parseSubRip(file).map(({ id, start, end, text }) => [
            id,
            Math.round(start * 1000),
            Math.round(end * 1000),
            text,
          ]),
        ).toEqual(
          parse(file).entries.map(({ id, from, to, text }) => [
            id,
            from,
            to,
            text,
          ]),
        )
      },
    ),
  )
})
