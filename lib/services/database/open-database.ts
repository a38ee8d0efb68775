import 'server-only'
import { mkdirSync } from 'node:fs'
import path from 'node:path'
import Database from 'libsql'
import { PrismaClient } from '#prisma-client'
import { diskTrouble } from '#services/database/disk-trouble'
import { migrate } from '#services/database/migrate'
import { OneConnection, type PlainSql } from '#services/database/one-connection'
import { renewingClient } from '#services/database/renewing-client'
import { type DataFolder, dataFolder } from '#services/settings/data-folder'
import { readEnvironment } from '#services/settings/environment'

/** How long a write waits for another program that holds the database; the event loop stands still meanwhile. */
const patienceMilliseconds = 2000

type Open = {
  readonly client: PrismaClient
  readonly connection: OneConnection
  readonly folder: DataFolder
  readonly lock: Database.Database
}

/** The client as it is inside a transaction. */
export type Transaction = Parameters<
  Parameters<PrismaClient['$transaction']>[0]
>[0]

// Kept on the global object: a development server loads modules anew, and a second client on one file would wait for
// the first with the event loop blocked.
const kept = globalThis as typeof globalThis & {
  coatbookDatabase?: Promise<Open> | undefined
}

/**
 * The journal's database, opened and brought up to date on first use; one client for the whole process.
 *
 * Inside a transaction use only the client it hands you: the adapter makes everything else wait until it ends.
 *
 * @throws Error when another process has the data folder open, or the database is newer than the program
 */
export async function database(): Promise<PrismaClient> {
  return (await opened()).client
}

/**
 * Writes in plain SQL, in a transaction of its own without a break: for the few writes that somebody waits for with a
 * phone in the hand. The client takes several milliseconds for what the database does in a half.
 *
 * @param work must not wait for anything
 */
export async function writeInPlainSql<T>(
  work: (sql: PlainSql) => T,
): Promise<T> {
  return (await opened()).connection.plain().write(work)
}

/** Reads in plain SQL, as `writeInPlainSql` writes. */
export async function readInPlainSql<T>(
  work: (sql: PlainSql) => T,
): Promise<T> {
  return (await opened()).connection.plain().read(work)
}

/** The data folder of the open database. */
export async function openDataFolder(): Promise<DataFolder> {
  return (await opened()).folder
}

/** Closes the database and lets go of the data folder. The next use opens it again. */
export async function closeDatabase(): Promise<void> {
  const open = await kept.coatbookDatabase
  kept.coatbookDatabase = undefined
  await open?.client.$disconnect()
  open?.lock.close()
}

function opened(): Promise<Open> {
  kept.coatbookDatabase ??= open().catch((error: unknown) => {
    kept.coatbookDatabase = undefined
    throw error
  })
  return kept.coatbookDatabase
}

async function open(): Promise<Open> {
  const folder = dataFolder(readEnvironment().dataFolder)
  const lock = takeLock(folder)
  try {
    migrate(
      folder.database,
      path.join(process.cwd(), 'prisma', 'migrations'),
      folder.copies,
      new Date().toISOString(),
    )
    const connection = new OneConnection(
      { url: `file:${folder.database}`, timeout: patienceMilliseconds },
      // Whole numbers sort and compare the same whoever wrote them; the text form does not.
      { timestampFormat: 'unixepoch-ms' },
    )
    const client = new PrismaClient({
      adapter: connection,
      transactionOptions: { maxWait: 30_000, timeout: 30_000 },
    })
    await assertSettings(client)
    return { client: renewingClient(client), connection, folder, lock }
  } catch (error) {
    lock.close()
    throw inPlainWords(error, folder)
  }
}

/** What is wrong, as the owner can put it right; the exception itself where we know no better words. */
function inPlainWords(error: unknown, { root, database }: DataFolder): unknown {
  switch (diskTrouble(error)) {
    case 'full':
      return new Error(
        `The disk of the data folder ${root} is full. Make room on it, then start Coatbook again; nothing that was kept is lost.`,
        { cause: error },
      )
    case 'read-only':
      return new Error(
        `Coatbook may not write in the data folder ${root}. Give the user that starts it the right to, or set COATBOOK_DATA to another folder.`,
        { cause: error },
      )
    case 'busy':
      return new Error(
        `Another program holds the database ${database}. Close it, or wait until it is done, then start Coatbook again.`,
        { cause: error },
      )
    case undefined:
      return error
  }
}

/**
 * A lock that the operating system lets go of when the process dies, however it dies: an exclusive transaction on a
 * small database of its own.
 */
function takeLock(folder: DataFolder): Database.Database {
  let lock: Database.Database | undefined
  try {
    mkdirSync(folder.root, { recursive: true })
    lock = new Database(folder.lock)
    lock.exec('BEGIN EXCLUSIVE')
    return lock
  } catch (error) {
    lock?.close()
    if (diskTrouble(error) !== 'busy') throw inPlainWords(error, folder)
    throw new Error(
      `Another Coatbook is already using the data folder ${folder.root}. Stop that one first, or set COATBOOK_DATA to another folder.`,
      { cause: error },
    )
  }
}

async function assertSettings(
  client: Pick<PrismaClient, '$queryRawUnsafe'>,
): Promise<void> {
  const wanted = { journal_mode: 'wal', synchronous: '2', foreign_keys: '1' }
  for (const [name, value] of Object.entries(wanted)) {
    const rows: unknown = await client.$queryRawUnsafe(`PRAGMA ${name}`)
    const found = readPragma(rows, name)
    if (found !== value) {
      throw new Error(
        `The database runs with ${name} = ${found} and not ${value}; acknowledged work could be lost.`,
      )
    }
  }
}

function readPragma(rows: unknown, name: string): string {
  if (!Array.isArray(rows)) return ''
  const first: unknown = rows[0]
  if (typeof first !== 'object' || first === null) return ''
  const value: unknown = Reflect.get(first, name)
  return typeof value === 'string' ||
    typeof value === 'number' ||
    typeof value === 'bigint'
    ? String(value)
    : ''
}
