import { describe, expect, test } from 'vitest'
import { instant } from '#core/units'
import { database } from '#services/database/open-database'
import {
  fingerprintOf,
  readReceipt,
  readSendingKey,
  writeReceipt,
} from '#services/receipts/receipts'
import { makeJob } from '../../support/make-job'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const now = instant(Date.parse('2026-10-22T08:00:00Z'))

describe('the key of a sending', () => {
  // The first is the example of the draft that the header comes from.
  test.each([
    [
      '"8e03978e-40d5-43dd-bc93-6894a57f9324"',
      '8e03978e-40d5-43dd-bc93-6894a57f9324',
    ],
    ['8e03978e', '8e03978e'],
    [null, undefined],
  ])('%s is %s', (header, value) => {
    expect(readSendingKey(header)).toEqual({ ok: true, value })
  })

  test.each(['', '""', 'two words', 'x'.repeat(101), 'schlüssel'])(
    'is not taken when it is "%s"',
    (header) => {
      expect(readSendingKey(header)).toMatchObject({
        ok: false,
        refusal: { kind: 'invalid' },
      })
    },
  )
})

test('a fingerprint is another one for whatever is said otherwise', () => {
  const said = [
    {},
    { view: 'front' },
    { view: 'back' },
    { view: 'front', step: null },
    ['front'],
  ]
  const all = said.map(fingerprintOf)
  expect(new Set(all).size).toBe(said.length)
  expect(fingerprintOf({ view: 'front' })).toBe(all[1])
  expect(all[0]).toMatch(/^[0-9a-f]{64}$/)
})

describe('a receipt', () => {
  test('is what was answered, for the same sending only', async () => {
    const job = await makeJob()
    const other = await makeJob('Pine bench')
    const sending = { key: 'k', part: 1, jobId: job.id, fingerprint: 'ab' }
    const db = await database()
    await db.$transaction(async (transaction) => {
      expect(await readReceipt(transaction, sending)).toEqual({
        ok: true,
        value: undefined,
      })
      await writeReceipt(transaction, sending, { id: 'p', notes: [1] }, now)
    })
    await db.$transaction(async (transaction) => {
      expect(await readReceipt(transaction, sending)).toEqual({
        ok: true,
        value: { id: 'p', notes: [1] },
      })
      expect(await readReceipt(transaction, { ...sending, part: 0 })).toEqual({
        ok: true,
        value: undefined,
      })
      for (const wrong of [{ fingerprint: 'cd' }, { jobId: other.id }]) {
        expect(
          await readReceipt(transaction, { ...sending, ...wrong }),
        ).toMatchObject({ ok: false, refusal: { kind: 'unsupported' } })
      }
    })
  })
})
