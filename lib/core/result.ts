/** Why a request could not be met; `detail` tells the user what to do about it. */
export type Refusal = {
  readonly kind:
    'not-found' | 'invalid' | 'conflict' | 'too-large' | 'unsupported'
  readonly detail: string
  /** The field of the request that settles it, where one does. */
  readonly field?: string
}

/** What worked, or why it could not. */
export type Result<T, E = Refusal> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly refusal: E }

/** The result that worked. */
export function ok<T>(value: T): { readonly ok: true; readonly value: T } {
  return { ok: true, value }
}

/** The result that did not, with its reason. */
export function refused<E>(refusal: E): {
  readonly ok: false
  readonly refusal: E
} {
  return { ok: false, refusal }
}

/**
 * Closes a `switch` over a union: the compiler refuses a member that was forgotten.
 *
 * @throws RangeError when a value outside the union got here all the same
 */
export function unreachable(value: never): never {
  throw new RangeError(
    `expected a member of the union, got ${JSON.stringify(value)}`,
  )
}
