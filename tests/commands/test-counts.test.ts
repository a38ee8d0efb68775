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
    ).toMatchObject({ passed: 12, failed: 3 })
  })

  test('a file of tests that cannot be loaded as failed', () => {
    expect(
      vitestCounts({
        numPassedTests: 12,
        numFailedTests: 0,
        numFailedTestSuites: 2,
      }),
    ).toMatchObject({ passed: 12, failed: 2 })
  })

  test('what Playwright reports', () => {
    expect(
      playwrightCounts({
        errors: [],
        stats: { expected: 5, unexpected: 2, flaky: 1, skipped: 4 },
      }),
    ).toMatchObject({ passed: 6, failed: 2 })
  })

  test('a browser run that broke before its tests as failed', () => {
    expect(
      playwrightCounts({
        errors: [{ message: 'no server' }],
        stats: { expected: 0, unexpected: 0, flaky: 0, skipped: 0 },
      }),
    ).toMatchObject({ passed: 0, failed: 1 })
  })

  test('and names what failed in vitest, with its error', () => {
    const report = {
      numPassedTests: 1,
      numFailedTests: 1,
      numFailedTestSuites: 2,
      testResults: [
        {
          name: 'tests/a.test.ts',
          status: 'failed',
          message: '',
          assertionResults: [
            { fullName: 'dries', status: 'passed', failureMessages: [] },
            {
              fullName: 'sets',
              status: 'failed',
              failureMessages: ['expected 3 to be 4'],
            },
          ],
        },
        {
          name: 'tests/b.test.ts',
          status: 'failed',
          message: 'no such module',
          assertionResults: [],
        },
        { name: 'tests/c.test.ts', status: 'passed', assertionResults: [] },
      ],
    }
    expect(vitestCounts(report)?.said).toEqual([
      'tests/a.test.ts › sets\nexpected 3 to be 4',
      'tests/b.test.ts\nno such module',
    ])
  })

  test('and names what failed in the browser, however deep it stands', () => {
    const report = {
      stats: { expected: 1, unexpected: 1 },
      suites: [
        {
          specs: [{ title: 'snaps', file: 'snap.spec.ts', line: 3, ok: true }],
          suites: [
            {
              specs: [
                {
                  title: 'waits',
                  file: 'snap.spec.ts',
                  line: 9,
                  ok: false,
                  tests: [
                    { results: [{ errors: [{ message: 'timed out' }] }] },
                  ],
                },
              ],
            },
          ],
        },
      ],
    }
    expect(playwrightCounts(report)?.said).toEqual([
      'snap.spec.ts:9 › waits\ntimed out',
    ])
  })

  test.each([undefined, null, {}, { stats: {} }, 'text'])(
    'nothing in what is no report: %s',
    (report) => {
      expect(vitestCounts(report)).toBeUndefined()
      expect(playwrightCounts(report)).toBeUndefined()
    },
  )
})
