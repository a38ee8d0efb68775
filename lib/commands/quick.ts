import { existsSync, statSync } from 'node:fs'
import path from 'node:path'
import { installedTool } from './installed-tool'
import { run } from './run'

/** The inner loop: form, rules, types and the nearest tests of the files and folders that are named. */
const root = process.cwd()
const named = process.argv.slice(2)
const paths = named.length === 0 ? ['.'] : named

const codes = [
  await tool('prettier', ['--check', '--log-level=warn', ...paths]),
  await tool('eslint', paths),
  await tool('typescript', ['--noEmit'], 'tsc'),
]
const tests = paths.flatMap(nearestTest)
if (tests.length > 0) codes.push(await tool('vitest', ['run', ...tests]))
process.exitCode = codes.every((code) => code === 0) ? 0 : 1

function tool(
  packageName: string,
  args: readonly string[],
  name = packageName,
): Promise<number> {
  return run(process.execPath, [installedTool(packageName, name), ...args], {
    cwd: root,
  })
}

/** A test's path mirrors its subject's; a file without one is tested by what stands beside it. */
function nearestTest(file: string): readonly string[] {
  const relative = path.relative(root, path.resolve(file))
  if (relative.startsWith('tests')) return [relative]
  const mirrored = path.join('tests', relative.replace(/^lib\//, ''))
  const test = mirrored.replace(/\.tsx?$/, '.test.ts')
  if (existsSync(test)) return [test]
  const folder =
    existsSync(file) && statSync(file).isDirectory()
      ? mirrored
      : path.dirname(mirrored)
  return existsSync(folder) ? [folder] : []
}
