import { accessSync, constants, existsSync } from 'node:fs'
import path from 'node:path'
import { chromium } from '@playwright/test'

const names = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'chrome',
]
const elsewhere = [
  '/usr/lib/chromium/chromium',
  '/snap/bin/chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
]

/**
 * The program of a Chromium for the browser tests: the one that CHROME_PATH names, one that is installed, or one that
 * Playwright has fetched before; undefined when there is none. Fetches nothing.
 */
export function findBrowser(): string | undefined {
  const named = process.env['CHROME_PATH']
  if (named !== undefined && isProgram(named)) return named
  const folders = (process.env['PATH'] ?? '').split(path.delimiter)
  return [
    ...names.flatMap((name) =>
      folders.map((folder) => path.join(folder, name)),
    ),
    ...elsewhere,
    chromium.executablePath(),
  ].find(isProgram)
}

function isProgram(file: string): boolean {
  if (!existsSync(file)) return false
  try {
    accessSync(file, constants.X_OK)
    return true
  } catch {
    return false
  }
}
