import { callApi, memberOf, textOf } from './api'

/** A job made through the interface, with its surfaces by name. */
export type ApiJob = {
  readonly id: string
  readonly surface: (name: string) => string
}

/** Starts a job with one piece through the interface. */
export async function startJob(
  surfaces: readonly string[] = ['body', 'top'],
): Promise<ApiJob> {
  const answer = await callApi('POST', '/api/jobs', {
    body: {
      title: 'Pine dresser',
      pieces: [{ name: 'dresser', kind: 'chest of drawers', surfaces }],
    },
  })
  const ids = new Map<string, string>()
  for (const [index, name] of surfaces.entries()) {
    ids.set(name, await textOf(answer, 'pieces', 0, 'surfaces', index, 'id'))
  }
  return {
    id: await textOf(answer, 'id'),
    surface: (name) => ids.get(name) ?? '',
  }
}

/** Puts a waterborne enamel with these label times on the shelf through the interface. */
export async function shelve(
  label: Readonly<Record<string, unknown>>,
  more: Readonly<Record<string, unknown>> = {},
): Promise<string> {
  const answer = await callApi('POST', '/api/products', {
    body: {
      name: 'waterborne enamel, moss',
      category: 'paint',
      chemistry: 'waterborne-acrylic',
      label,
      ...more,
    },
  })
  return textOf(answer, 'id')
}

/** Writes down a step through the interface and gives its id. */
export async function writeStep(
  job: ApiJob,
  step: Readonly<Record<string, unknown>>,
): Promise<string> {
  const answer = await callApi('POST', `/api/jobs/${job.id}/steps`, {
    body: step,
  })
  if (answer.status !== 201) throw new Error(await answer.text())
  return textOf(answer, 'id')
}

/** The checks on one surface of a job's timeline. */
export async function checksOn(
  job: ApiJob,
  surface: string,
): Promise<readonly unknown[]> {
  const answer = await callApi('GET', `/api/jobs/${job.id}/timeline`)
  const lanes = await memberOf(answer, 'lanes')
  if (!Array.isArray(lanes)) return []
  for (const index of lanes.keys()) {
    const name = await memberOf(answer, 'lanes', index, 'surface', 'name')
    const checks = await memberOf(answer, 'lanes', index, 'checks')
    if (name === surface && isList(checks)) return checks
  }
  return []
}

function isList(value: unknown): value is readonly unknown[] {
  return Array.isArray(value)
}
