import type { z } from 'zod'
import { type Result, ok, refused } from '#core/result'
import { type FieldProblem, problem } from './problem'

const maximumBytes = 1_000_000

/**
 * The body of a request, read as JSON and checked against a schema.
 *
 * @returns the value, or the problem to answer with: 400 for JSON that is broken or does not fit, 413 over 1 MB
 */
export async function readJson<Schema extends z.ZodType>(
  request: Request,
  schema: Schema,
): Promise<Result<z.output<Schema>, Response>> {
  const text = await readText(request)
  if (!text.ok) return text
  let value: unknown
  try {
    value = JSON.parse(text.value)
  } catch {
    return refused(
      problem(
        400,
        'The body is not JSON. Check its quotes, commas and braces.',
      ),
    )
  }
  return check(value, schema)
}

/** Text of a request's body, of at most 1 MB. */
export async function readText(
  request: Request,
  limit = maximumBytes,
): Promise<Result<string, Response>> {
  const reader = request.body?.getReader()
  if (reader === undefined) return ok('')
  const chunks: Uint8Array[] = []
  let size = 0
  for (;;) {
    const { done, value } = await reader.read()
    if (done) break
    size += value.byteLength
    if (size > limit) {
      await reader.cancel()
      return refused(
        problem(413, `The body is larger than ${limit / 1_000_000} MB.`),
      )
    }
    chunks.push(value)
  }
  return ok(Buffer.concat(chunks).toString('utf8'))
}

/** A value checked against a schema; the problem names each field that does not fit. */
export function check<Schema extends z.ZodType>(
  value: unknown,
  schema: Schema,
): Result<z.output<Schema>, Response> {
  const parsed = schema.safeParse(value)
  if (parsed.success) return ok(parsed.data)
  const errors: FieldProblem[] = parsed.error.issues.map((issue) => ({
    path: issue.path.map(String).join('.'),
    message: issue.message,
  }))
  const first = errors[0]
  const detail =
    first === undefined
      ? 'The request does not fit.'
      : first.path === ''
        ? first.message
        : `${first.path}: ${first.message}`
  return refused(problem(400, detail, { errors }))
}
