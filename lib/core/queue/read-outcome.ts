import type { Outcome } from '#core/queue/queue'

/**
 * What an answer of the workshop means for what was sent.
 *
 * @param status HTTP status; 0 when there was no answer
 * @param text the body
 */
export function readOutcome(status: number, text: string): Outcome {
  if (status === 0) {
    return { kind: 'unreachable', message: 'The workshop does not answer.' }
  }
  if (status === 401) {
    return {
      kind: 'turned-away',
      message: 'This phone is no longer let in. Pair it again.',
    }
  }
  const answer = parse(text)
  const rejected = firstOf(answer['rejected'])
  const reason = textOf(rejected['reason']) ?? textOf(answer['detail'])
  if (status === 201) {
    const photo = firstOf(answer['photos'])
    const id = textOf(photo['id']) ?? textOf(answer['id'])
    if (id !== undefined) {
      const warnings: unknown = photo['warnings']
      return {
        kind: 'kept',
        id,
        twice: photo['duplicateOf'] !== undefined,
        message: Array.isArray(warnings) ? warnings.join(' ') : '',
      }
    }
  }
  // Of the workshop, not of what was sent: another program has its database, or its disk is full (RFC 4918, section 11.5).
  if (status === 503 || status === 507) {
    return {
      kind: 'held-up',
      message: reason ?? 'The workshop can take nothing for now.',
    }
  }
  // Too busy, too slow, too early: none of these is about the thing itself. Neither is a page by somebody else.
  const comesBack = [408, 425, 429].includes(status)
  if (status < 400 || status >= 500 || comesBack) {
    return {
      kind: 'failed',
      message: reason ?? 'The workshop could not keep it.',
    }
  }
  return {
    kind: 'refused',
    message: reason ?? 'The workshop does not take this.',
  }
}

type Members = Readonly<Record<string, unknown>>

function parse(text: string): Members {
  try {
    return membersOf(JSON.parse(text))
  } catch {
    // Not from us: a proxy's page, or a connection cut in the answer.
    return {}
  }
}

function membersOf(value: unknown): Members {
  return typeof value === 'object' && value !== null
    ? Object.fromEntries(Object.entries(value))
    : {}
}

function firstOf(value: unknown): Members {
  return Array.isArray(value) ? membersOf(value[0]) : {}
}

function textOf(value: unknown): string | undefined {
  return typeof value === 'string' && value !== '' ? value : undefined
}
