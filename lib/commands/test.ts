import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { auditDependencies } from './audit-dependencies'
import { buildIfChanged } from './build-if-changed'
import { generateClient } from './generate-client'
import { browserOrInstall } from './install-browser'
import { installedTool } from './installed-tool'
import { run } from './run'
import { type Counts, playwrightCounts, vitestCounts } from './test-counts'

const root = process.cwd()
const reports = mkdtempSync(path.join(tmpdir(), 'coatbook-test-'))

const oneFailed: Counts = { passed: 0, failed: 1, said: [] }

/** Every stage runs, also after one that failed, so that the report is whole. */
const stages: readonly (readonly [string, () => Promise<Counts>])[] = [
  ['the database client', () => check(generateClient(root))],
  ['the types of the routes', () => tool('next', ['typegen'])],
  ['the form', () => tool('prettier', ['--check', '--log-level=warn', '.'])],
  ['the rules', () => tool('eslint', ['.'])],
  ['the types', () => tool('typescript', ['--noEmit'], 'tsc')],
  ['dead code', () => tool('knip', [])],
  ['known issues of what we depend on', () => check(auditDependencies(root))],
  ['the tests', vitest],
  ['the build', () => check(buildIfChanged(root))],
  ['the browser tests', playwright],
]

let passed = 0
let failed = 0
const said: string[] = []
for (const [name, stage] of stages) {
  console.log(`\n== ${name}`)
  const start = performance.now()
  const counts = await stage().catch((error: unknown) => {
    console.error(error)
    return oneFailed
  })
  passed += counts.passed
  failed += counts.failed
  if (counts.failed > 0) {
    said.push(...(counts.said.length === 0 ? [name] : counts.said))
  }
  const seconds = Math.round((performance.now() - start) / 1000)
  console.log(
    `== ${name}: ${counts.passed} passed, ${counts.failed} failed, ${seconds} s`,
  )
}
rmSync(reports, { recursive: true, force: true })
// Said again at the end: what is kept of a long report is often its end alone.
for (const one of said) console.log(`\nfailed: ${one}`)
console.log(`\n${passed} passed, ${failed} failed`)
process.exitCode = failed === 0 ? 0 : 1

async function check(works: Promise<boolean>): Promise<Counts> {
  return (await works) ? { passed: 1, failed: 0, said: [] } : oneFailed
}

async function tool(
  packageName: string,
  args: readonly string[],
  name = packageName,
): Promise<Counts> {
  const script = installedTool(packageName, name)
  return check(runTool(script, args).then((code) => code === 0))
}

function runTool(
  script: string,
  args: readonly string[],
  environment: Readonly<Record<string, string>> = {},
): Promise<number> {
  return run(process.execPath, [script, ...args], {
    cwd: root,
    env: { ...process.env, NEXT_TELEMETRY_DISABLED: '1', ...environment },
  })
}

async function vitest(): Promise<Counts> {
  const report = path.join(reports, 'vitest.json')
  const code = await runTool(installedTool('vitest'), [
    'run',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
  ])
  return counted(code, report, vitestCounts)
}

async function playwright(): Promise<Counts> {
  const browser = await browserOrInstall()
  if (browser === undefined) return oneFailed
  const report = path.join(reports, 'playwright.json')
  const code = await runTool(
    installedTool('@playwright/test', 'playwright'),
    ['test', '--reporter=list,json'],
    {
      CHROME_PATH: browser,
      PLAYWRIGHT_JSON_OUTPUT_NAME: report,
      COATBOOK_BROWSER_TEST_DATA: path.join(reports, 'data'),
    },
  )
  return counted(code, report, playwrightCounts)
}

/** What a report counts; a tool that failed without a failed test, or left no report, has one failed check. */
function counted(
  code: number,
  report: string,
  read: (report: unknown) => Counts | undefined,
): Counts {
  const counts = existsSync(report)
    ? read(JSON.parse(readFileSync(report, 'utf8')))
    : undefined
  if (counts === undefined) return oneFailed
  return code !== 0 && counts.failed === 0 ? { ...counts, failed: 1 } : counts
}
