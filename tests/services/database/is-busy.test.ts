import Database from 'libsql'
import { expect, test } from 'vitest'
import { isBusy } from '#services/database/is-busy'
import { database, openDataFolder } from '#services/database/open-database'
import { callApi } from '../../support/api'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const reading = { at: '2026-05-04T10:00:00Z', celsius: 18, humidity: 60 }

test('while another program holds the database a request is told to come again, and keeps nothing', async () => {
  const db = await database()
  const { database: file } = await openDataFolder()
  const other = new Database(file)
  other.exec('BEGIN IMMEDIATE')
  try {
    const answer = await callApi('POST', '/api/air', { body: reading })
    expect(answer.status).toBe(503)
    expect(answer.headers.get('retry-after')).toBe('5')
    const failed: unknown = await db
      .$transaction(async (transaction) => {
        await transaction.airReading.create({
          data: { at: new Date(0), celsius: 20, humidity: 50 },
        })
      })
      .then(
        () => undefined,
        (error: unknown) => error,
      )
    expect(isBusy(failed)).toBe(true)
  } finally {
    other.exec('ROLLBACK')
    other.close()
  }
  expect(await db.airReading.count()).toBe(0)
  const again = await callApi('POST', '/api/air', { body: reading })
  expect(again.status).toBe(201)
  expect(await db.airReading.count()).toBe(1)
})

test('no other failure counts as busy', () => {
  expect(isBusy(new Error('P1008'))).toBe(false)
  expect(isBusy(undefined)).toBe(false)
})
