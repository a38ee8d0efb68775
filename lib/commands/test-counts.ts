import { z } from 'zod'

/** How many checks passed and failed, and what a report says of those that failed: its file and name, then its error. */
export type Counts = {
  readonly passed: number
  readonly failed: number
  readonly said: readonly string[]
}

// Source: vitest's documentation of its JSON reporter, which writes as Jest does.
const vitestReport = z.object({
  numPassedTests: z.number(),
  numFailedTests: z.number(),
  numFailedTestSuites: z.number().default(0),
  testResults: z
    .array(
      z.object({
        name: z.string(),
        status: z.string(),
        message: z.string().default(''),
        assertionResults: z.array(
          z.object({
            fullName: z.string(),
            status: z.string(),
            failureMessages: z.array(z.string()).default([]),
          }),
        ),
      }),
    )
    .default([]),
})

/** The counts in a report of vitest's JSON reporter; undefined when it is none. */
export function vitestCounts(report: unknown): Counts | undefined {
  const read = vitestReport.safeParse(report)
  if (!read.success) return undefined
  const { numPassedTests, numFailedTests, numFailedTestSuites, testResults } =
    read.data
  const said = testResults.flatMap((file) => {
    const tests = file.assertionResults
      .filter((one) => one.status === 'failed')
      .map((one) =>
        [`${file.name} › ${one.fullName}`, ...one.failureMessages].join('\n'),
      )
    return tests.length === 0 && file.status === 'failed'
      ? [`${file.name}\n${file.message}`]
      : tests
  })
  return {
    passed: numPassedTests,
    // A file that cannot be loaded has no tests to fail.
    failed: numFailedTests === 0 ? numFailedTestSuites : numFailedTests,
    said,
  }
}

const playwrightSpec = z.object({
  title: z.string(),
  file: z.string(),
  line: z.number(),
  ok: z.boolean(),
  tests: z
    .array(
      z.object({
        results: z.array(
          z.object({
            errors: z.array(z.object({ message: z.string().default('') })),
          }),
        ),
      }),
    )
    .default([]),
})
type PlaywrightSuite = {
  readonly specs: readonly z.infer<typeof playwrightSpec>[]
  readonly suites: readonly PlaywrightSuite[]
}
const playwrightSuite: z.ZodType<PlaywrightSuite> = z.lazy(() =>
  z.object({
    specs: z.array(playwrightSpec).default([]),
    suites: z.array(playwrightSuite).default([]),
  }),
)

// Source: the declarations of Playwright's JSON reporter (JSONReport in @playwright/test/reporter).
const playwrightReport = z.object({
  errors: z.array(z.unknown()).default([]),
  stats: z.object({
    expected: z.number(),
    unexpected: z.number(),
    flaky: z.number().default(0),
  }),
  suites: z.array(playwrightSuite).default([]),
})

/** The counts in a report of Playwright's JSON reporter; undefined when it is none. A test that passed late, passed. */
export function playwrightCounts(report: unknown): Counts | undefined {
  const read = playwrightReport.safeParse(report)
  if (!read.success) return undefined
  const { errors, stats, suites } = read.data
  return {
    passed: stats.expected + stats.flaky,
    failed: stats.unexpected === 0 ? errors.length : stats.unexpected,
    said: suites.flatMap(failedIn),
  }
}

function failedIn(suite: PlaywrightSuite): readonly string[] {
  return [
    ...suite.specs
      .filter((spec) => !spec.ok)
      .map(({ file, line, title, tests }) =>
        [
          `${file}:${line} › ${title}`,
          ...tests.flatMap(({ results }) =>
            results.flatMap(({ errors }) => errors.map((one) => one.message)),
          ),
        ].join('\n'),
      ),
    ...suite.suites.flatMap(failedIn),
  ]
}
