import { describe, expect, test } from 'vitest'
import { playwrightCounts, vitestCounts } from '../../lib/commands/test-counts'

describe('the closing line counts', () => {
  test('what vitest reports', () => {
    expect(
      vitestCounts({
        numPassedTests: 12,
        numFailedTests: 3,
        numPendingTests: 1,
        numFailedTestSuites: 1,
      }),
    ).toEqual({ passed: 12, failed: 3 })
  })

  test('a file of tests that cannot be loaded as failed', () => {
    expect(
      vitestCounts({
        numPassedTests: 12,
        numFailedTests: 0,
        numFailedTestSuites: 2,
      }),
    ).toEqual({ passed: 12, failed: 2 })
  })

  test('what Playwright reports', () => {
    expect(
      playwrightCounts({
        errors: [],
        stats: { expected: 5, unexpected: 2, flaky: 1, skipped: 4 },
      }),
    ).toEqual({ passed: 6, failed: 2 })
  })

  test('a browser run that broke before its tests as failed', () => {
    expect(
      playwrightCounts({
        errors: [{ message: 'no server' }],
        stats: { expected: 0, unexpected: 0, flaky: 0, skipped: 0 },
      }),
    ).toEqual({ passed: 0, failed: 1 })
  })

  test.each([undefined, null, {}, { stats: {} }, 'text'])(
    'nothing in what is no report: %s',
    (report) => {
      expect(vitestCounts(report)).toBeUndefined()
      expect(playwrightCounts(report)).toBeUndefined()
    },
  )
})
