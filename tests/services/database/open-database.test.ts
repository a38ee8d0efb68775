import Database from 'libsql'
import { describe, expect, test } from 'vitest'
import { newId } from '#services/database/new-id'
import {
  database,
  openDataFolder,
  readInPlainSql,
  writeInPlainSql,
} from '#services/database/open-database'
import { makeJob } from '../../support/make-job'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

async function pragma(
  client: { $queryRawUnsafe: (sql: string) => Promise<unknown> },
  name: string,
): Promise<unknown> {
  const rows = await client.$queryRawUnsafe(`PRAGMA ${name}`)
  if (!Array.isArray(rows)) return undefined
  const first: unknown = rows[0]
  return typeof first === 'object' && first !== null
    ? Object.values(first)[0]
    : undefined
}

describe('acknowledged work survives', () => {
  test('a step written while another change is open and given up is kept', async () => {
    const db = await database()
    const job = await makeJob()
    const kept: Promise<unknown>[] = []
    for (let round = 0; round < 20; round += 1) {
      const givenUp = db.$transaction(async (transaction) => {
        await transaction.job.update({
          where: { id: job.id },
          data: { title: 'never to be seen' },
        })
        // A plain write, asked for while the change is open; it must not run inside it.
        kept.push(
          db.airReading
            .create({
              data: {
                at: new Date(1_000_000 + round),
                celsius: 20,
                humidity: 50,
              },
            })
            .then(() => undefined),
        )
        await new Promise((resolve) => setTimeout(resolve, 5))
        throw new Error('given up')
      })
      await expect(givenUp).rejects.toThrow('given up')
    }
    await Promise.all(kept)
    expect(await db.airReading.count()).toBe(20)
    const row = await db.job.findUniqueOrThrow({ where: { id: job.id } })
    expect(row.title).toBe('Oak sideboard')
  })

  test('a plain read does not see a change that is not committed', async () => {
    const db = await database()
    const job = await makeJob()
    let seen: Promise<string> = Promise.resolve('')
    const givenUp = db.$transaction(async (transaction) => {
      await transaction.job.update({
        where: { id: job.id },
        data: { title: 'never to be seen' },
      })
      seen = db.job
        .findUniqueOrThrow({ where: { id: job.id } })
        .then((row) => row.title)
      await new Promise((resolve) => setTimeout(resolve, 20))
      throw new Error('given up')
    })
    await expect(givenUp).rejects.toThrow('given up')
    expect(await seen).toBe('Oak sideboard')
  })

  test.each([
    ['journal_mode', 'wal'],
    ['synchronous', '2'],
    ['foreign_keys', '1'],
  ])(
    '%s is %s on every connection, before, in and after a transaction',
    async (name, value) => {
      const db = await database()
      const found: unknown[] = [await pragma(db, name)]
      await db.$transaction(async (transaction) => {
        found.push(await pragma(transaction, name))
      })
      found.push(await pragma(db, name))
      await db
        .$transaction(async (transaction) => {
          await transaction.job.count()
          throw new Error('given up')
        })
        .catch(() => undefined)
      found.push(await pragma(db, name))
      expect(found.map(String)).toEqual([value, value, value, value])
    },
  )

  test('a surface that points at no piece is refused by the database itself', async () => {
    const db = await database()
    await expect(
      db.surface.create({
        data: { id: newId(), pieceId: 'nowhere', position: 0, name: 'top' },
      }),
    ).rejects.toThrow(/foreign key/i)
  })
})

describe('plain SQL', () => {
  const raise = (title: string) =>
    ['UPDATE "Job" SET "title" = ?', title] as const
  const titles = () =>
    readInPlainSql((sql) => sql.rows('SELECT "title" FROM "Job"'))

  test('is written whole or not at all', async () => {
    await makeJob()
    const written = writeInPlainSql((sql) => {
      sql.run(...raise('never to be seen'))
      throw new Error('given up')
    })
    await expect(written).rejects.toThrow('given up')
    expect(await titles()).toEqual([{ title: 'Oak sideboard' }])
    await writeInPlainSql((sql) => sql.run(...raise('Ash table')))
    expect(await titles()).toEqual([{ title: 'Ash table' }])
  })

  test('waits for a transaction that is open, and is not undone with it', async () => {
    const db = await database()
    const job = await makeJob()
    const order: string[] = []
    let seen: Promise<readonly unknown[]> = Promise.resolve([])
    let written: Promise<unknown> = Promise.resolve()
    const givenUp = db.$transaction(async (transaction) => {
      await transaction.job.update({
        where: { id: job.id },
        data: { title: 'never to be seen' },
      })
      seen = titles()
      written = writeInPlainSql((sql) => {
        order.push('plain')
        sql.run(...raise('Ash table'))
      })
      await new Promise((resolve) => setTimeout(resolve, 20))
      order.push('transaction')
      throw new Error('given up')
    })
    await expect(givenUp).rejects.toThrow('given up')
    expect(await seen).toEqual([{ title: 'Oak sideboard' }])
    await written
    expect(order).toEqual(['transaction', 'plain'])
    expect(await titles()).toEqual([{ title: 'Ash table' }])
  })

  test('is told that another program holds the database, and is written once it does not', async () => {
    await makeJob()
    const { database: file } = await openDataFolder()
    const other = new Database(file)
    const write = () => writeInPlainSql((sql) => sql.run(...raise('Ash table')))
    try {
      other.exec('BEGIN IMMEDIATE')
      await expect(write()).rejects.toMatchObject({ code: 'SQLITE_BUSY' })
      other.exec('ROLLBACK')
      await write()
    } finally {
      other.close()
    }
    expect(await titles()).toEqual([{ title: 'Ash table' }])
  })

  test('keeps foreign keys, as the client does', async () => {
    await expect(
      writeInPlainSql((sql) =>
        sql.run(
          'INSERT INTO "Surface" ("id", "pieceId", "position", "name") VALUES (?, ?, ?, ?)',
          newId(),
          'nowhere',
          0,
          'top',
        ),
      ),
    ).rejects.toThrow(/foreign key/i)
  })
})
