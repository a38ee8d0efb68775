import type { z } from 'zod'
import { type Result, ok, refused } from '#core/result'
import { type FieldProblem, problem } from './problem'

const maximumBytes = 1_000_000
/** U+0000 in a text, as JSON writes it (RFC 8259, section 7). */
const nul = /(?:^|[^\\])(?:\\\\)*\\u0000/

/**
 * The body of a request, read as JSON and checked against a schema.
 *
 * @param limit bytes; 1 MB unless told
 * @returns the value, or the problem to answer with: 400 for JSON that is broken or does not fit, 413 over the limit
 */
export async function readJson<Schema extends z.ZodType>(
  request: Request,
  schema: Schema,
  limit = maximumBytes,
): Promise<Result<z.output<Schema>, Response>> {
  const text = await readText(request, limit)
  if (!text.ok) return text
  if (nul.test(text.value)) {
    // The database's driver ends a text there when it reads it again.
    return refused(
      problem(
        400,
        'A text holds the character U+0000, behind which nothing would be kept. Take it out.',
      ),
    )
  }
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

/** Text of a request's body, of at most so many bytes: 1 MB unless told. */
export async function readText(
  request: Request,
  limit = maximumBytes,
): Promise<Result<string, Response>> {
  const bytes = await readBytes(request, limit)
  return bytes.ok ? ok(bytes.value.toString('utf8')) : bytes
}

/** A request's body as it came, of at most so many bytes. */
export async function readBytes(
  request: Request,
  limit: number,
): Promise<Result<Buffer, Response>> {
  const reader = request.body?.getReader()
  if (reader === undefined) return ok(Buffer.alloc(0))
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
  return ok(Buffer.concat(chunks))
}

/** A value checked against a schema; the problem names each field that does not fit. */
export function check<Schema extends z.ZodType>(
  value: unknown,
  schema: Schema,
): Result<z.output<Schema>, Response> {
  const parsed = schema.safeParse(value)
  if (parsed.success) return ok(parsed.data)
  const errors = parsed.error.issues.flatMap((issue) => fieldProblems(issue))
  const first = errors[0]
  const detail =
    first === undefined
      ? 'The request does not fit.'
      : first.path === ''
        ? first.message
        : `${first.path}: ${first.message}`
  return refused(problem(400, detail, { errors }))
}

type Issue = z.core.$ZodIssue

/**
 * The fields that an issue is about. Of forms to choose from, the one whose outside fits tells what is wrong inside;
 * where none does, the choice itself is the problem.
 */
function fieldProblems(
  issue: Issue,
  above: readonly PropertyKey[] = [],
): readonly FieldProblem[] {
  const path = [...above, ...issue.path]
  const meant =
    issue.code === 'invalid_union'
      ? issue.errors.find((form) => form.every((one) => one.path.length > 0))
      : undefined
  return meant === undefined || meant.length === 0
    ? [{ path: path.map(String).join('.'), message: issue.message }]
    : meant.flatMap((inner) => fieldProblems(inner, path))
}
