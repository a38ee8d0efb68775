import { describe, expect, test } from 'vitest'
import { readCaptions } from '#core/captions/read-captions'
import { clockText } from '#core/captions/timestamp'

describe('a caption file', () => {
  test.each([
    ['WEBVTT\n\n00:01.000 --> 00:02.000\na', 'webvtt'],
    ['1\n00:00:01,000 --> 00:00:02,000\na', 'subrip'],
    ['00:01.000 --> 00:02.000\na', 'subrip'],
  ])('%j is told by its content', (file, format) => {
    const read = readCaptions(file)
    expect(read.ok && read.value.format).toBe(format)
    expect(read.ok && read.value.cues.map((cue) => cue.text)).toEqual(['a'])
  })

  test.each([
    ['', 'no caption file'],
    ['{"a": 1}', 'no caption file'],
    ['Once upon a time --> the end', 'no caption file'],
    ['WEBVTT', 'no captions with text'],
    ['WEBVTT\n\n00:01.000 --> 00:02.000\n<b></b>', 'no captions with text'],
  ])('%j is refused with its reason', (file, reason) => {
    const read = readCaptions(file)
    expect(!read.ok && read.refusal.detail).toContain(reason)
  })
})

/** Source of the pairs: common practice for chapters, checked with a pencil. */
test.each([
  [0, '0:00'],
  [5.9, '0:05'],
  [61, '1:01'],
  [599, '9:59'],
  [3600, '1:00:00'],
  [3661, '1:01:01'],
])('%d seconds are written %s', (seconds, text) => {
  expect(clockText(seconds)).toBe(text)
})

test('no moment is before the start', () => {
  expect(() => clockText(-1)).toThrow(RangeError)
})
