import { describe, expect, test } from 'vitest'
import { parseWebVtt } from '#core/captions/parse-webvtt'
import { parseSubRip } from '#core/captions/parse-subrip'
import { numberAt } from '#core/captions/spoken-numbers'
import { spokenWords } from '#core/captions/spoken-words'
import { stem } from '#core/captions/stem'

const said = (file: string) =>
  spokenWords(parseWebVtt(file) ?? parseSubRip(file)).map(({ text }) => text)

describe('captions that roll say each word once', () => {
  test('where a cue shows the line before it again', () => {
    const file = `WEBVTT

00:00.000 --> 00:02.000
 
so<00:00.500><c> we</c><00:01.000><c> sand</c>

00:02.000 --> 00:02.010
so we sand
 

00:02.010 --> 00:04.000
so we sand
the<00:02.500><c> top</c><00:03.000><c> and</c>

00:04.000 --> 00:04.010
the top and
 

00:04.010 --> 00:06.000
the top and
the<00:04.500><c> legs</c>`
    expect(said(file).join(' ')).toBe('so we sand the top and the legs')
    expect(spokenWords(parseWebVtt(file) ?? []).map(({ at }) => at)).toEqual([
      0, 0.5, 1, 2.01, 2.5, 3, 4.01, 4.5,
    ])
  })

  test('where a cue grows word by word', () => {
    expect(
      said(
        '1\n00:00:00,000 --> 00:00:01,000\nso today\n\n2\n00:00:01,000 --> 00:00:02,000\nso today we are\n\n3\n00:00:02,000 --> 00:00:03,000\nso today we are priming',
      ).join(' '),
    ).toBe('so today we are priming')
  })

  test('where cues overlap and nothing is shown again', () => {
    expect(
      said(
        '1\n00:00:00,000 --> 00:00:04,000\nso today we\n\n2\n00:00:02,000 --> 00:00:06,000\nare priming',
      ).join(' '),
    ).toBe('so today we are priming')
  })

  test('but what is said again later is said twice', () => {
    expect(
      said(
        '1\n00:00:00,000 --> 00:00:01,000\nSanding.\n\n2\n00:00:20,000 --> 00:00:21,000\nSanding.',
      ),
    ).toEqual(['sanding', 'sanding'])
  })
})

test('sounds, songs and speakers are not said', () => {
  expect(
    said(
      '1\n00:00:00,000 --> 00:00:04,000\n[Music] >> Now, (laughs) ♪ ♪\nANN: the 2nd coat: 50/50, 10% & ½!',
    ),
  ).toEqual([
    'now',
    'the',
    'second',
    'coat',
    '50',
    '50',
    '10',
    'percent',
    'half',
  ])
})

test('words come in order of time and share the time of their cue', () => {
  const words = spokenWords(
    parseSubRip('1\n00:00:10,000 --> 00:00:12,000\none two three four'),
  )
  expect(words[0]?.at).toBe(10)
  expect(words.at(-1)?.end).toBeCloseTo(12)
  expect(words.every((word, i) => word.at >= (words[i - 1]?.end ?? 0))).toBe(
    true,
  )
})

/** Common practice, no source: how grits and lengths of time are said. */
test.each([
  ['220', 220],
  ['p180', 180],
  ['two twenty', 220],
  ['one fifty', 150],
  ['a hundred and eighty', 180],
  ['one hundred twenty', 120],
  ['four hundred', 400],
  ['twenty five', 25],
  ['ten', 10],
  ['a', undefined],
  ['sanding', undefined],
])('%s is %s', (text, value) => {
  expect(numberAt(text.split(' '), 0)?.value).toBe(value)
})

test('a line that rolls on after a silence is said once', () => {
  const lines = (start: number, ...shown: string[]) => ({
    start,
    end: start + 3,
    settings: {},
    text: shown.join('\n'),
    parts: [{ text: shown.join('\n') }],
  })
  const words = spokenWords([
    lines(0, 'so that is the first coat done'),
    lines(20, 'so that is the first coat done', 'and now the second'),
  ])
  expect(words.map(({ text }) => text).join(' ')).toBe(
    'so that is the first coat done and now the second',
  )
})

test.each([
  ['priming', 'primed', 'prime'],
  ['stripping', 'strips', 'strip'],
  ['sanding', 'sanded', 'sand'],
  ['applied', 'applying', 'apply'],
  ['brushes', 'brushing', 'brush'],
  ['glued', 'gluing', 'glue'],
  ['scraping', 'scrapes', 'scrape'],
  ['took', 'taken', 'take'],
  ['got', 'getting', 'get'],
  ['went', 'gone', 'go'],
  ['gave', 'giving', 'give'],
])('%s, %s and %s are one word', (one, other, third) => {
  expect(new Set([one, other, third].map(stem)).size).toBe(1)
})

test.each([
  ['primer', 'prime'],
  ['coat', 'coating'].reverse() as [string, string],
])('%s keeps its meaning beside %s', (one, other) => {
  expect(stem(one) === stem(other)).toBe(one === 'coating')
})
