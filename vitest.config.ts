import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

export default defineConfig({
  resolve: {
    // `server-only` throws outside a bundler; tests stand on the server's side of that line.
    alias: {
      'server-only': fileURLToPath(
        new URL('tests/support/empty.ts', import.meta.url),
      ),
    },
  },
  test: {
    // A test that passes only in the zone of its author is no test.
    env: { TZ: process.env['TZ'] ?? 'America/St_Johns' },
    globalSetup: ['tests/support/global-setup.ts'],
    setupFiles: ['tests/support/no-stray-output.ts'],
    include: [
      'tests/{core,reference,services,app,api,commands,architecture,faults,privacy}/**/*.test.ts',
    ],
    // These end what hangs, also on a machine that is slow or busy; they measure nothing.
    testTimeout: 300_000,
    hookTimeout: 300_000,
    expect: { poll: { timeout: 60_000 } },
    maxWorkers: 2,
  },
})
