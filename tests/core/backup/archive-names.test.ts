import { expect, test } from 'vitest'
import {
  isArchiveName,
  originalIn,
  originalName,
} from '#core/backup/archive-names'

const sha256 = 'ab'.repeat(32)

test('an original is called by its hash, and known by its name', () => {
  const name = originalName(sha256, 'image/jpeg')
  expect(name).toBe(`originals/ab/${sha256}.jpg`)
  expect(originalIn(name)).toBe(sha256)
  expect(isArchiveName(name)).toBe(true)
  expect(originalIn(originalName(sha256, 'image/x-unheard-of'))).toBe(sha256)
})

test.each([
  '../journal.json',
  '/etc/passwd',
  'C:\\journal.json',
  `originals/../${sha256}.jpg`,
  `originals/cd/${sha256}.jpg`,
  `originals/ab/${sha256}.jpg/../../x`,
  `originals\\ab\\${sha256}.jpg`,
  `originals/ab/${sha256}.jpg\n`,
  `originals/ab/${sha256}.html5`,
  `originals/ab/${sha256}`,
  'journal.json ',
  'other.txt',
  '',
])('no backup has %j', (name) => {
  expect(isArchiveName(name)).toBe(false)
})
