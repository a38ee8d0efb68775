/** How many checks passed and failed. */
export type Counts = { readonly passed: number; readonly failed: number }

/** The counts in a report of vitest's JSON reporter; undefined when it is none. */
export function vitestCounts(report: unknown): Counts | undefined {
  const passed = numberAt(report, 'numPassedTests')
  const failed = numberAt(report, 'numFailedTests')
  if (passed === undefined || failed === undefined) return undefined
  // A file that cannot be loaded has no tests to fail.
  const files = numberAt(report, 'numFailedTestSuites') ?? 0
  return { passed, failed: failed === 0 && files > 0 ? files : failed }
}

/** The counts in a report of Playwright's JSON reporter; undefined when it is none. A test that passed late, passed. */
export function playwrightCounts(report: unknown): Counts | undefined {
  const stats: unknown = memberOf(report, 'stats')
  const expected = numberAt(stats, 'expected')
  const unexpected = numberAt(stats, 'unexpected')
  if (expected === undefined || unexpected === undefined) return undefined
  const errors: unknown = memberOf(report, 'errors')
  const broken = Array.isArray(errors) ? errors.length : 0
  return {
    passed: expected + (numberAt(stats, 'flaky') ?? 0),
    failed: unexpected === 0 ? broken : unexpected,
  }
}

function memberOf(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null
    ? Reflect.get(value, name)
    : undefined
}

function numberAt(value: unknown, name: string): number | undefined {
  const found = memberOf(value, name)
  return typeof found === 'number' ? found : undefined
}
