import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { installedTool } from './installed-tool'
import { run } from './run'
import { sourceHash } from './source-hash'

/**
 * Makes the production build, unless the one there was made from the very same sources.
 *
 * @param root the folder of this package
 * @returns whether there is a build of these sources now; when not, what went wrong has been shown
 */
export async function buildIfChanged(root: string): Promise<boolean> {
  const mark = path.join(root, '.next', 'coatbook-sources')
  const hash = sourceHash(root)
  if (existsSync(mark) && readFileSync(mark, 'utf8') === hash) return true
  console.log('Building Coatbook from its sources, once after each change.')
  const code = await run(process.execPath, [installedTool('next'), 'build'], {
    cwd: root,
    output: 'on-failure',
    env: {
      ...process.env,
      NODE_ENV: 'production',
      NEXT_TELEMETRY_DISABLED: '1',
    },
  })
  if (code !== 0) return false
  writeFileSync(mark, hash)
  return true
}
