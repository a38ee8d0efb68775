import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { sourceHash } from '../../lib/commands/source-hash'

let root = ''

beforeEach(() => {
  root = mkdtempSync(path.join(tmpdir(), 'coatbook-sources-'))
  write('app/page.tsx', 'one')
  write('lib/core/units.ts', 'two')
  write('package.json', '{}')
})

afterEach(() => {
  rmSync(root, { recursive: true, force: true })
})

function write(file: string, contents: string): void {
  const full = path.join(root, file)
  mkdirSync(path.dirname(full), { recursive: true })
  writeFileSync(full, contents)
}

test('a build is made anew when a source changes, comes or is renamed', () => {
  const hashes = [sourceHash(root)]
  write('app/page.tsx', 'three')
  hashes.push(sourceHash(root))
  write('public/icon.svg', 'four')
  hashes.push(sourceHash(root))
  rmSync(path.join(root, 'app/page.tsx'))
  write('app/layout.tsx', 'three')
  hashes.push(sourceHash(root))
  expect(new Set(hashes).size).toBe(4)
})

test('a build stands while only what it is not made from changes', () => {
  const before = sourceHash(root)
  write('README.md', 'words')
  write('tests/core/units.test.ts', 'words')
  write('lib/services/database/generated/client.ts', 'made')
  write('data/journal.db', 'rows')
  expect(sourceHash(root)).toBe(before)
})
