import type { z } from 'zod'
import type { Result } from '#core/result'
import { check } from './read-json'

/** The query of a request, checked against a schema; of a name given twice the last counts. */
export function readQuery<Schema extends z.ZodType>(
  request: Request,
  schema: Schema,
): Result<z.output<Schema>, Response> {
  return check(
    Object.fromEntries(new URL(request.url).searchParams.entries()),
    schema,
  )
}
