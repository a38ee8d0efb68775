import { expect, test } from 'vitest'
import { freeSlug, slugOf } from '#core/portfolio/piece-slug'

test.each([
  ['Oak sideboard in deep teal', 'oak-sideboard-in-deep-teal'],
  ['  Grandma’s  box, 1930s! ', 'grandmas-box-1930s'],
  ['Étagère Łódź', 'etagere-odz'],
  ['../../etc/passwd', 'etc-passwd'],
  ['箱', ''],
])('%s stands in an address as %s', (title, slug) => {
  expect(slugOf(title)).toBe(slug)
})

test('an address that is taken, kept or empty is given another', () => {
  expect(freeSlug('Bench', 'piece', new Set())).toBe('bench')
  expect(freeSlug('Bench', 'piece', new Set(['bench', 'bench-2']))).toBe(
    'bench-3',
  )
  expect(freeSlug('Preview', 'piece', new Set())).toBe('preview-2')
  expect(freeSlug('箱', 'piece', new Set())).toBe('piece')
})
