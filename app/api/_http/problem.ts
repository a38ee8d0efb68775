import type { Refusal } from '#core/result'

const statusOf: Record<Refusal['kind'], number> = {
  'not-found': 404,
  invalid: 400,
  conflict: 409,
  'too-large': 413,
  unsupported: 422,
}

const titleOf: Record<number, string> = {
  400: 'The request cannot be read',
  401: 'Not signed in',
  403: 'Not from here',
  404: 'There is no such thing',
  405: 'That cannot be done here',
  409: 'Something else is in the way',
  413: 'Too large',
  415: 'Not a form that is understood here',
  422: 'Nothing could be kept',
  500: 'Something broke',
  503: 'Busy',
}

/** One field that was not understood: where it is in the request, and what to do about it. */
export type FieldProblem = { readonly path: string; readonly message: string }

/**
 * Problem details as RFC 9457 has them. `detail` is a sentence that a user can act on.
 *
 * @param more further members, such as `errors` for the fields
 */
export function problem(
  status: number,
  detail: string,
  more: Readonly<Record<string, unknown>> = {},
  headers: Readonly<Record<string, string>> = {},
): Response {
  const title = titleOf[status] ?? 'Something is wrong'
  return Response.json(
    { type: 'about:blank', title, status, detail, ...more },
    {
      status,
      headers: { 'content-type': 'application/problem+json', ...headers },
    },
  )
}

/** The problem that a service's refusal becomes. */
export function refusalProblem(refusal: Refusal): Response {
  const { kind, detail, field } = refusal
  const errors: readonly FieldProblem[] =
    field === undefined ? [] : [{ path: field, message: detail }]
  return problem(statusOf[kind], detail, errors.length === 0 ? {} : { errors })
}
