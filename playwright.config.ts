import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { defineConfig, devices } from '@playwright/test'
import { findBrowser } from './lib/commands/find-browser'
import { freePort } from './lib/commands/loopback'

// The configuration is read again in every worker; all of them must speak of one server.
const port = (process.env['COATBOOK_BROWSER_TEST_PORT'] ??= String(
  await freePort(),
))
const folder = (process.env['COATBOOK_BROWSER_TEST_DATA'] ??= mkdtempSync(
  path.join(tmpdir(), 'coatbook-browser-'),
))
const browser = findBrowser()

export default defineConfig({
  testDir: 'tests/browser',
  outputDir: 'test-results',
  forbidOnly: process.env['CI'] !== undefined,
  workers: 1,
  timeout: 60_000,
  use: {
    ...devices['Desktop Chrome'],
    baseURL: `http://localhost:${port}`,
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
  webServer: {
    command: 'npm start',
    url: `http://localhost:${port}/api/health`,
    timeout: 180_000,
    reuseExistingServer: false,
    gracefulShutdown: { signal: 'SIGTERM', timeout: 10_000 },
    env: {
      PORT: port,
      COATBOOK_DATA: folder,
      COATBOOK_DEMO: 'off',
      COATBOOK_ZONE: 'Europe/London',
    },
  },
})
