import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { defineConfig, devices } from '@playwright/test'
import { findBrowser } from './lib/commands/find-browser'
import { freePort } from './lib/commands/loopback'

// The configuration is read again in every worker; all of them must speak of the same servers.
const folder = (process.env['COATBOOK_BROWSER_TEST_DATA'] ??= mkdtempSync(
  path.join(tmpdir(), 'coatbook-browser-'),
))
const used = await portOf('COATBOOK_BROWSER_TEST_PORT')
// The way from an empty journal needs one that no other test has written in.
const empty = await portOf('COATBOOK_BROWSER_TEST_EMPTY_PORT')
const fromEmpty = '**/first-job.spec.ts'
const browser = findBrowser()

export default defineConfig({
  testDir: 'tests/browser',
  outputDir: 'test-results',
  forbidOnly: process.env['CI'] !== undefined,
  workers: 1,
  // These end what hangs, also on a machine that is slow or busy; they measure nothing.
  timeout: 300_000,
  expect: { timeout: 20_000 },
  use: {
    ...devices['Desktop Chrome'],
    locale: 'en-GB',
    timezoneId: 'Europe/London',
    trace: 'retain-on-failure',
    launchOptions: {
      ...(browser === undefined ? {} : { executablePath: browser }),
      args: [
        // A browser that runs as root cannot have its own sandbox.
        ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
        '--disable-gpu',
        // A camera that shows a moving pattern, for who has leave to see it.
        '--use-fake-device-for-media-stream',
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
      ],
    },
  },
  projects: [
    {
      name: 'from an empty journal',
      testMatch: fromEmpty,
      use: { baseURL: baseOf(empty) },
    },
    {
      name: 'in a journal',
      testIgnore: fromEmpty,
      use: { baseURL: baseOf(used) },
    },
  ],
  webServer: [serverAt(empty, 'empty'), serverAt(used, 'used')],
})

async function portOf(variable: string): Promise<string> {
  return (process.env[variable] ??= String(await freePort()))
}

function baseOf(port: string): string {
  return `http://localhost:${port}`
}

function serverAt(port: string, data: string) {
  return {
    command: 'npm start',
    url: `${baseOf(port)}/api/health`,
    timeout: 180_000,
    reuseExistingServer: false,
    gracefulShutdown: { signal: 'SIGTERM' as const, timeout: 10_000 },
    env: {
      PORT: port,
      COATBOOK_DATA: path.join(folder, data),
      COATBOOK_DEMO: 'off',
      COATBOOK_ZONE: 'Europe/London',
    },
  }
}
