import { expect, test } from 'vitest'
import { readAudit } from '../../lib/commands/audit-dependencies'

/** In the form of npm's audit report, version 2 (from memory of its documentation). */
const report = (severities: Readonly<Record<string, string>>) =>
  JSON.stringify({
    auditReportVersion: 2,
    vulnerabilities: Object.fromEntries(
      Object.entries(severities).map(([name, severity]) => [
        name,
        { name, severity, isDirect: true, via: [], range: '<1.2.3' },
      ]),
    ),
    metadata: { vulnerabilities: { total: Object.keys(severities).length } },
  })

test('only what is known to be serious is named', () => {
  expect(
    readAudit(
      report({ one: 'low', two: 'high', three: 'moderate', four: 'critical' }),
    ),
  ).toEqual({
    asked: true,
    serious: ['two <1.2.3: high', 'four <1.2.3: critical'],
  })
  expect(readAudit(report({}))).toEqual({ asked: true, serious: [] })
})

test.each([
  // As npm printed it where the registry refused, and where there was none.
  [
    '{"message":"405 Method Not Allowed","statusCode":405,"body":"","error":{}}',
    '405 Method Not Allowed',
  ],
  ['{"message":"connect ECONNREFUSED","error":{}}', 'connect ECONNREFUSED'],
  ['', 'it printed no report'],
  ['null', 'it printed no report'],
])('a registry that cannot be asked is no clean bill: %s', (printed, why) => {
  expect(readAudit(printed)).toEqual({ asked: false, why })
})
