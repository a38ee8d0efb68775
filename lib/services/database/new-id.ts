import { randomUUID } from 'node:crypto'

/** An opaque identifier that no other record has. */
export function newId(): string {
  return randomUUID()
}
