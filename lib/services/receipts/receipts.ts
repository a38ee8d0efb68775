import { createHash } from 'node:crypto'
import { z } from 'zod'
import { type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import { insertRow } from '#services/database/insert-row'
import { toDate } from '#services/database/instants'
import type { PlainSql } from '#services/database/one-connection'
import type { Transaction } from '#services/database/open-database'

/** What tells a request that is sent again from a new one. */
export type Sending = {
  /** The sender's own name for this request; the same each time it is sent. */
  readonly key: string
  /** Which file of it, from 0. */
  readonly part: number
  readonly jobId: string
  /** Of the whole request, by `fingerprintOf`: what it brings and all that it says of it. */
  readonly fingerprint: string
}

/**
 * What a request brings and says, as 64 hexadecimal digits: another body under the same key has another one.
 *
 * @param request plain values, as JSON has them; files by their hashes
 */
export function fingerprintOf(request: unknown): string {
  return createHash('sha256').update(JSON.stringify(request)).digest('hex')
}

const longestKey = 100

/**
 * The key that a sender gave its request in the header `Idempotency-Key`; undefined when it gave none.
 *
 * Source: IETF draft-ietf-httpapi-idempotency-key-header-07, section 2.1: a string in quotes. Bare text is taken too.
 *
 * @returns refused when it is longer than 100 characters or not printable ASCII
 */
export function readSendingKey(
  header: string | null,
): Result<string | undefined> {
  if (header === null) return ok(undefined)
  const text = header.trim()
  const key = /^"(.*)"$/.exec(text)?.[1] ?? text
  return key.length <= longestKey && /^[\x21-\x7e]+$/.test(key)
    ? ok(key)
    : refused({
        kind: 'invalid',
        detail: `Idempotency-Key: give up to ${longestKey} printable characters without spaces, such as a UUID.`,
      })
}

/**
 * What was answered when this very request came before; undefined when it has not.
 *
 * Ask and write inside one transaction with what the request does: then it is done once, however often it is sent.
 *
 * @returns refused when something else came under the same key
 */
export async function readReceipt(
  transaction: Transaction,
  sending: Sending,
): Promise<Result<unknown>> {
  const { key, part } = sending
  const row = await transaction.receipt.findUnique({
    where: { key_part: { key, part } },
    select: { jobId: true, fingerprint: true, answer: true },
  })
  return row === null ? ok(undefined) : answerOf(row, sending)
}

/** The same, in plain SQL. */
export function readReceiptInPlainSql(
  sql: PlainSql,
  sending: Sending,
): Result<unknown> {
  const [row] = receipts.parse(
    sql.rows(
      'SELECT "jobId", "fingerprint", "answer" FROM "Receipt" WHERE "key" = ? AND "part" = ?',
      sending.key,
      sending.part,
    ),
  )
  return row === undefined ? ok(undefined) : answerOf(row, sending)
}

const receipts = z.array(
  z.object({ jobId: z.string(), fingerprint: z.string(), answer: z.string() }),
)

function answerOf(
  row: z.infer<typeof receipts>[number],
  sending: Sending,
): Result<unknown> {
  if (row.jobId !== sending.jobId || row.fingerprint !== sending.fingerprint) {
    return refused({
      kind: 'unsupported',
      detail:
        'Something else was sent before with this Idempotency-Key. Give each new request a key of its own.',
    })
  }
  return ok(JSON.parse(row.answer))
}

/** Writes down what is answered to a request, for when it comes again. */
export async function writeReceipt(
  transaction: Transaction,
  sending: Sending,
  answer: unknown,
  now: Instant,
): Promise<void> {
  await transaction.receipt.create({
    data: {
      key: sending.key,
      part: sending.part,
      jobId: sending.jobId,
      fingerprint: sending.fingerprint,
      answer: JSON.stringify(answer),
      writtenAt: toDate(now),
    },
    select: { key: true },
  })
}

/** The same, in plain SQL. */
export function writeReceiptInPlainSql(
  sql: PlainSql,
  sending: Sending,
  answer: unknown,
  now: Instant,
): void {
  insertRow(sql, 'Receipt', {
    key: sending.key,
    part: sending.part,
    jobId: sending.jobId,
    fingerprint: sending.fingerprint,
    answer: JSON.stringify(answer),
    writtenAt: now,
  })
}
