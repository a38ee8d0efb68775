import { describe, expect, test } from 'vitest'
import { mentions } from '#core/finish/mentions'

const rinsed = /rinsed|rinse/

describe('what a note says', () => {
  test.each([
    'Scraped off with a plastic scraper, then rinsed.',
    'RINSED twice',
    'No bubbles left. Rinsed.',
  ])('is taken at its word: %s', (note) => {
    expect(mentions(note, rinsed)).toBe(true)
  })

  test.each([
    'Not rinsed yet',
    'never rinsed',
    'Still to rinse',
    'Needs to be rinsed',
    'should rinse tomorrow',
    'unrinsed',
    'scraped',
    '',
  ])('is not turned around: %s', (note) => {
    expect(mentions(note, rinsed)).toBe(false)
  })

  test('nothing says nothing', () => {
    expect(mentions(undefined, rinsed)).toBe(false)
  })

  test('one denial does not hush another sentence', () => {
    expect(mentions('Not rinsed at noon. Rinsed at one.', rinsed)).toBe(true)
  })
})
