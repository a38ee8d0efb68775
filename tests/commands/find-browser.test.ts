import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { findBrowser } from '../../lib/commands/find-browser'

let folder = ''

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'coatbook-programs-'))
})

afterEach(() => {
  vi.unstubAllEnvs()
  rmSync(folder, { recursive: true, force: true })
})

test('the browser that is named comes before one that is installed', () => {
  writeFileSync(path.join(folder, 'chromium'), '', { mode: 0o755 })
  writeFileSync(path.join(folder, 'mine'), '', { mode: 0o755 })
  vi.stubEnv('PATH', folder)
  vi.stubEnv('CHROME_PATH', path.join(folder, 'mine'))
  expect(findBrowser()).toBe(path.join(folder, 'mine'))
  vi.stubEnv('CHROME_PATH', path.join(folder, 'gone'))
  expect(findBrowser()).toBe(path.join(folder, 'chromium'))
})

test('a file that is no program is no browser', () => {
  writeFileSync(path.join(folder, 'chromium'), '', { mode: 0o644 })
  vi.stubEnv('PATH', folder)
  vi.stubEnv('CHROME_PATH', path.join(folder, 'chromium'))
  expect(findBrowser()).not.toBe(path.join(folder, 'chromium'))
})
