import { execFile } from 'node:child_process'

/** What an audit said: which packages have a known serious issue, or why the registry told nothing. */
export type Audit =
  | { readonly asked: true; readonly serious: readonly string[] }
  | { readonly asked: false; readonly why: string }

const patienceMilliseconds = 60_000

/**
 * Asks the registry for known issues of the packages that the product runs with, and says what it told.
 *
 * @param root the folder of this package
 * @returns false when one of high or critical severity is known; a registry that cannot be asked is said, and fails nothing
 */
export async function auditDependencies(root: string): Promise<boolean> {
  const audit = readAudit(await askRegistry(root))
  if (!audit.asked) {
    console.log(
      `Not audited: the registry could not be asked for known issues (${audit.why}).`,
    )
    return true
  }
  for (const one of audit.serious) console.error(one)
  return audit.serious.length === 0
}

/**
 * Reads what `npm audit --json` printed.
 *
 * Source: npm's documentation of `npm audit`, report version 2; without an answer it prints a message in its place.
 */
export function readAudit(printed: string): Audit {
  let report: unknown
  try {
    report = JSON.parse(printed)
  } catch {
    return { asked: false, why: 'it printed no report' }
  }
  const { vulnerabilities, message } = membersOf(report)
  if (typeof vulnerabilities !== 'object' || vulnerabilities === null) {
    return {
      asked: false,
      why: typeof message === 'string' ? message : 'it printed no report',
    }
  }
  const serious = Object.entries(vulnerabilities).flatMap(
    ([name, vulnerability]) => {
      const { severity, range } = membersOf(vulnerability)
      return severity === 'high' || severity === 'critical'
        ? [`${name} ${typeof range === 'string' ? range : ''}: ${severity}`]
        : []
    },
  )
  return { asked: true, serious }
}

function membersOf(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? { ...value } : {}
}

/** What npm prints, whatever its exit code: it is 1 for an issue and for a registry that does not answer alike. */
function askRegistry(root: string): Promise<string> {
  return new Promise((resolve) => {
    execFile(
      'npm',
      ['audit', '--omit=dev', '--json', '--fetch-retries=1'],
      { cwd: root, timeout: patienceMilliseconds, maxBuffer: 50_000_000 },
      (_error, printed) => {
        resolve(printed)
      },
    )
  })
}
