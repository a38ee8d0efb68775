import { createRequire } from 'node:module'
import path from 'node:path'

const require = createRequire(import.meta.url)

/** The script of a command-line tool among the dependencies, to be run with this Node; nothing is ever fetched for it. */
export function installedTool(packageName: string, tool = packageName): string {
  const manifestPath = require.resolve(`${packageName}/package.json`)
  const manifest: unknown = require(manifestPath)
  const script = binOf(manifest, tool)
  if (script === undefined) {
    throw new Error(
      `The package ${packageName} has no command "${tool}". Run npm ci again.`,
    )
  }
  return path.join(path.dirname(manifestPath), script)
}

function binOf(manifest: unknown, tool: string): string | undefined {
  if (typeof manifest !== 'object' || manifest === null) return undefined
  const bin: unknown = Reflect.get(manifest, 'bin')
  if (typeof bin === 'string') return bin
  if (typeof bin !== 'object' || bin === null) return undefined
  const script: unknown = Reflect.get(bin, tool)
  return typeof script === 'string' ? script : undefined
}
