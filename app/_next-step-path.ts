/** The address of a form for the step that comes after another one, filled in as far as is known. */
export function nextStepPath(
  job: string,
  after: string,
  surfaces: readonly string[],
  kind?: 'scuff',
): string {
  const asked = new URLSearchParams({ after })
  for (const surface of surfaces) asked.append('surface', surface)
  if (kind !== undefined) asked.set('kind', kind)
  return `/jobs/${job}/steps/new?${asked.toString()}`
}
