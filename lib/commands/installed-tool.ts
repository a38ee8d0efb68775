import { readFileSync } from 'node:fs'
import path from 'node:path'

/**
 * The script of a command-line tool among the dependencies, to be run with this Node; nothing is ever fetched for it.
 *
 * @throws Error when it is not installed
 */
export function installedTool(packageName: string, tool = packageName): string {
  const folder = path.join(process.cwd(), 'node_modules', packageName)
  const manifest: unknown = JSON.parse(
    readFileSync(path.join(folder, 'package.json'), 'utf8'),
  )
  const script = binOf(manifest, tool)
  if (script === undefined) {
    throw new Error(
      `The package ${packageName} has no command "${tool}". Run npm ci again.`,
    )
  }
  return path.join(folder, script)
}

function binOf(manifest: unknown, tool: string): string | undefined {
  if (typeof manifest !== 'object' || manifest === null) return undefined
  const bin: unknown = Reflect.get(manifest, 'bin')
  if (typeof bin === 'string') return bin
  if (typeof bin !== 'object' || bin === null) return undefined
  const script: unknown = Reflect.get(bin, tool)
  return typeof script === 'string' ? script : undefined
}
