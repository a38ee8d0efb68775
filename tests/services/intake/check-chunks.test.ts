import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { hasPngEnd, isRiffWhole } from '#services/intake/check-chunks'
import { makePhoto } from '../../support/make-photo'

let file = ''
beforeAll(() => {
  file = path.join(mkdtempSync(path.join(tmpdir(), 'coatbook-chunks-')), 'a')
})
afterAll(() => {
  rmSync(path.dirname(file), { recursive: true, force: true })
})

test.each([
  ['png', hasPngEnd],
  ['webp', isRiffWhole],
] as const)('a %s is whole until its end is missing', async (kind, isWhole) => {
  const bytes = await makePhoto({}, kind)
  writeFileSync(file, bytes)
  expect(await isWhole(file)).toBe(true)
  writeFileSync(file, Buffer.concat([bytes, Buffer.alloc(100, 1)]))
  expect(await isWhole(file)).toBe(true)
  // A PNG whose last chunk has begun has all its picture.
  for (const share of [0, 0.1, 0.5, 0.8]) {
    writeFileSync(file, bytes.subarray(0, Math.floor(bytes.length * share)))
    expect(await isWhole(file)).toBe(false)
  }
})
