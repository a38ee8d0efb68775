import { existsSync } from 'node:fs'
import { findBrowser } from './find-browser'
import { run } from './run'

/**
 * A Chromium for the browser tests. Where there is none, a machine that runs Debian as root gets its package.
 *
 * @returns its program, or undefined when there is none and it has been said what to do
 */
export async function browserOrInstall(): Promise<string | undefined> {
  const found = findBrowser()
  if (found !== undefined) return found
  if (existsSync('/etc/debian_version') && process.getuid?.() === 0) {
    console.log('No browser was found; installing the package chromium.')
    const environment = {
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    }
    const listed = await run('apt-get', ['update'], environment)
    if (listed === 0) {
      await run(
        'apt-get',
        ['install', '-y', '--no-install-recommends', 'chromium'],
        environment,
      )
    }
  }
  const installed = findBrowser()
  if (installed === undefined) {
    console.error(
      'The browser tests need Chromium or Chrome. Install one, or set CHROME_PATH to its program, or run: npx playwright install chromium',
    )
  }
  return installed
}
