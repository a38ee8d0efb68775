/**
 * Checked against the examples of W3C WebVTT (Candidate Recommendation, sections 1.1 to 1.9 and 4), written from memory of them, and against
 * webvtt-parser, an independent reader by an editor of the standard.
 */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { WebVTTParser } from 'webvtt-parser'
import { parseWebVtt } from '#core/captions/parse-webvtt'

const texts = (file: string) => parseWebVtt(file)?.map((cue) => cue.text)

describe('the examples of the standard', () => {
  test('a simple caption file (1.1)', () => {
    const cues = parseWebVtt(`WEBVTT

00:11.000 --> 00:13.000
<v Roger Bingham>We are in New York City

00:13.000 --> 00:16.000
<v Roger Bingham>We're actually at the Lucern Hotel, just down the street

00:32.500 --> 00:33.500 align:left size:50%
<v Neil deGrasse Tyson>Didn't we talk about enough in that conversation?
`)
    expect(cues).toHaveLength(3)
    expect(cues?.[0]).toMatchObject({
      start: 11,
      end: 13,
      text: 'We are in New York City',
    })
    expect(cues?.[2]).toMatchObject({
      start: 32.5,
      end: 33.5,
      settings: { align: 'left', size: '50%' },
    })
  })

  test('line breaks stay (1.2)', () => {
    expect(
      texts(`WEBVTT

00:01.000 --> 00:04.000
Never drink liquid nitrogen.

00:05.000 --> 00:09.000
— It will perforate your stomach.
— You could die.
`),
    ).toEqual([
      'Never drink liquid nitrogen.',
      '— It will perforate your stomach.\n— You could die.',
    ])
  })

  test('comments, a title and identifiers (1.3)', () => {
    const cues = parseWebVtt(`WEBVTT - This file has cues.

NOTE This file was written by Jill. I hope
you enjoy reading it. Some things to bear in mind:
- I was lip-reading, so the cues may not
be 100% accurate

14
00:01:14.815 --> 00:01:18.114
- What?
- Where are we now?

NOTE check next cue

15
00:01:18.171 --> 00:01:20.991
- This is big bat country.
`)
    expect(cues?.map(({ id, start }) => [id, start])).toEqual([
      ['14', 74.815],
      ['15', 78.171],
    ])
  })

  test('style sheets and regions are no captions (1.5, 1.6)', () => {
    expect(
      texts(`WEBVTT

STYLE
::cue {
  background-image: linear-gradient(to bottom, dimgray, lightgray);
  color: papayawhip;
}
/* Style blocks cannot use blank lines nor "dash dash greater than" */

NOTE comment blocks can be used between style blocks.

STYLE
::cue(b) {
  color: peachpuff;
}

REGION
id:fred
width:40%
lines:3
regionanchor:0%,100%
viewportanchor:10%,90%
scroll:up

hello
00:00:00.000 --> 00:00:10.000 region:fred align:left
Hello <b>world</b>.

NOTE style blocks cannot appear after the first cue.`),
    ).toEqual(['Hello world.'])
  })

  test('ruby, classes, languages and inline timestamps leave their text (1.4, 4.2)', () => {
    const [cue] =
      parseWebVtt(`WEBVTT

00:00:14.000 --> 00:00:20.000
<c.yellow.bg_blue>Yellow <i.loud>text</i></c> <lang en-GB>colour</lang> <00:00:16.500>later <ruby>漢<rt>kan</rt></ruby> &lt;b&gt; &amp;nbsp;
`) ?? []
    expect(cue?.parts).toEqual([
      { text: 'Yellow text colour ' },
      { at: 16.5, text: 'later 漢kan <b> &nbsp;' },
    ])
  })
})

describe('what a file may do', () => {
  test.each([
    ['nothing after the word', 'WEBVTT', []],
    ['a byte order mark', '\uFEFFWEBVTT\n\n00:00.000 --> 00:01.000\na', ['a']],
    [
      'line ends of three kinds',
      'WEBVTT\r\n\r\n00:00.000 --> 00:01.000\r\na\r\rb\n00:02.000 --> 00:03.000\nc',
      ['a', 'c'],
    ],
    [
      'a header of several lines',
      'WEBVTT\nKind: captions\nLanguage: en\n\n00:00.000 --> 00:01.000\na',
      ['a'],
    ],
    [
      'a cue right under the header',
      'WEBVTT\n00:00.000 --> 00:01.000\na',
      ['a'],
    ],
    [
      'timings inside a text begin a new cue',
      'WEBVTT\n\n00:00.000 --> 00:01.000\na\n00:02.000 --> 00:03.000\nb',
      ['a', 'b'],
    ],
    [
      'hours of one digit and of three',
      'WEBVTT\n\n1:00:00.000 --> 1:00:01.000\na\n\n100:00:00.000 --> 100:00:01.000\nb',
      ['a', 'b'],
    ],
    [
      'a comma before the thousandths is no time',
      'WEBVTT\n\n00:00,000 --> 00:01,000\na\n\n00:02.000 --> 00:03.000\nb',
      ['b'],
    ],
    [
      'two digits of thousandths are no time',
      'WEBVTT\n\n00:00.00 --> 00:01.00\na',
      [],
    ],
    ['sixty seconds are no time', 'WEBVTT\n\n00:60.000 --> 01:61.000\na', []],
    ['no space around the arrow', 'WEBVTT\n\n00:00.000-->00:01.000\na', ['a']],
    [
      'a tag that is never closed takes the rest',
      'WEBVTT\n\n00:00.000 --> 00:01.000\na <b',
      ['a '],
    ],
    [
      'references by number, and unknown ones as they stand',
      'WEBVTT\n\n00:00.000 --> 00:01.000\n&#65;&#x42; &wat; & &#0;',
      ['AB &wat; & \ufffd'],
    ],
    [
      // HTML, section 13.2.5.73: the oldest names need no semicolon.
      'an old reference without its semicolon',
      'WEBVTT\n\n00:00.000 --> 00:01.000\nsand &amp prime',
      ['sand & prime'],
    ],
  ])('%s', (_, file, expected) => {
    expect(texts(file)).toEqual(expected)
  })

  test.each([
    '',
    'WEBVTTX',
    'webvtt',
    ' WEBVTT',
    '1\n00:00:01,000 --> 00:00:02,000\na',
  ])('%j does not begin as WebVTT', (file) => {
    expect(parseWebVtt(file)).toBeUndefined()
  })
})

describe('an independent reader', () => {
  const time = fc
    .integer({ min: 0, max: 400 * 3600 * 1000 })
    .map((thousandths) => {
      const two = (value: number, width = 2) =>
        String(value).padStart(width, '0')
      const hours = Math.floor(thousandths / 3_600_000)
      const rest = `${two(Math.floor(thousandths / 60_000) % 60)}:${two(Math.floor(thousandths / 1000) % 60)}.${two(thousandths % 1000, 3)}`
      return { seconds: thousandths / 1000, text: `${two(hours)}:${rest}` }
    })
  const line = fc
    .array(
      fc.constantFrom(
        'sand',
        'it',
        '<b>back</b>',
        '<i.quiet>now</i>',
        '<v Ann>primer</v>',
        '&amp;',
        '&lt;',
        '&frac12;',
        '&deg; &rsquo;',
        '&unknown;',
        '5%',
        '<c>coat</c>',
        '<lang en>colour</lang>',
        'P220,',
      ),
      { minLength: 1, maxLength: 6 },
    )
    .map((words) => words.join(' '))
  const cue = fc.record({
    id: fc.option(fc.constantFrom('1', 'intro', 'cue 7')),
    start: time,
    end: time,
    settings: fc.constantFrom('', ' align:start', ' line:90% size:50%'),
    lines: fc.array(line, { minLength: 1, maxLength: 3 }),
  })

  test('finds the same cues with the same times and text', () => {
    const entities: Record<string, unknown> = JSON.parse(
      readFileSync(
        createRequire(import.meta.url).resolve(
          'webvtt-parser/html-entities.json',
        ),
        'utf8',
      ),
    ) as Record<string, unknown>
    const other = new WebVTTParser(entities)
    fc.assert(
      fc.property(
        fc.array(cue, { maxLength: 8 }),
        fc.constantFrom('\n', '\r\n', '\r'),
        fc.constantFrom('', ' some title', '\nKind: captions'),
        (cues, end, header) => {
          const file = [
            `WEBVTT${header}`,
            'NOTE nothing',
            ...cues.map(
              ({ id, start, end: until, settings, lines }) =>
                `${id === null ? '' : `${id}\n`}${start.text} --> ${until.text}${settings}\n${lines.join('\n')}`,
            ),
          ]
            .join('\n\n')
            .replaceAll('\n', end)
          // They are given in the order of their times.
          const own = (parseWebVtt(file) ?? []).toSorted(
            (a, b) => a.start - b.start || b.end - a.end,
          )
          const theirs = other.parse(file, 'metadata').cues
          expect(
            own.map(({ start, end: until, id }) => [start, until, id ?? '']),
          ).toEqual(
            theirs.map(({ startTime, endTime, id }) => [
              startTime,
              endTime,
              id,
            ]),
          )
          expect(own.map(({ text }) => text)).toEqual(
            other
              .parse(file, 'subtitles/captions/descriptions')
              .cues.map(({ tree }) => treeText(tree)),
          )
        },
      ),
      { numRuns: 200 },
    )
  })
})

type Node = {
  readonly type: string
  readonly value?: string
  readonly children?: readonly Node[]
}

function treeText({ type, value, children }: Node): string {
  if (type === 'text') return value ?? ''
  return (children ?? []).map(treeText).join('')
}
