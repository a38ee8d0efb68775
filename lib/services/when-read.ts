import type { z } from 'zod'

/**
 * Has a check of fields against each other run though others of the object are wrong, so that all is told at once: it waits
 * for nothing but these to be read.
 *
 * @returns what zod asks before it runs a check, as its `when`
 */
export function whenRead(
  ...fields: readonly string[]
): (payload: z.core.ParsePayload) => boolean {
  return ({ value, issues }) =>
    typeof value === 'object' &&
    value !== null &&
    // What an issue without a path is about is the object as a whole.
    issues.every(({ path: [field] = [] }) => {
      return field !== undefined && !fields.includes(String(field))
    })
}
