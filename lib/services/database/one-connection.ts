import 'server-only'
import {
  type Client,
  type Config,
  type InStatement,
  type Transaction,
  Sqlite3Client,
  Sqlite3Transaction,
} from '@libsql/client/sqlite3'
import { PrismaLibSql } from '@prisma/adapter-libsql'
import Database from 'libsql'
import { diskTrouble } from '#services/database/disk-trouble'

/** What a statement takes and gives: whole numbers only up to 2^53, instants as milliseconds. */
export type SqlValue = string | number | null

/** The database in plain SQL, for what many wait for. */
export type PlainSql = {
  /** The rows that a query gives, each by its columns. */
  readonly rows: (
    sql: string,
    ...values: readonly SqlValue[]
  ) => readonly unknown[]
  /** How many rows a statement changed. */
  readonly run: (sql: string, ...values: readonly SqlValue[]) => number
}

const numbers = 'number'

/**
 * The adapter on one connection, for all that the process does: the client that comes with it opens another after every
 * transaction, which reads the whole schema again and forgets every page that it held. Where something failed on the
 * connection it is closed and opened anew: one that was opened while the disk could not be written reads only for as
 * long as it is open, and one whose write met a locked database cannot commit.
 *
 * Its connection can be had for plain SQL too, which takes its turn among the transactions.
 */
export class OneConnection extends PrismaLibSql {
  private client: OneConnectionClient | undefined

  override createClient(config: Config): Client {
    this.client = new OneConnectionClient(config)
    return this.client
  }

  /** @throws Error before the first connection */
  plain(): OneConnectionClient {
    if (this.client === undefined)
      throw new Error('There is no connection yet.')
    return this.client
  }
}

type Open = {
  readonly database: Database.Database
  readonly statements: Sqlite3Client
}

/** One connection, and whose turn it is. */
class OneConnectionClient implements Client {
  readonly protocol = 'file'
  closed = false
  private readonly path: string
  private readonly options: Database.Options
  private open: Open | undefined
  private turn: Promise<void> = Promise.resolve()

  constructor(config: Config) {
    this.path = config.url.replace(/^file:/, '')
    this.options =
      config.timeout === undefined ? {} : { timeout: config.timeout }
    this.connection()
  }

  /**
   * Does work in a transaction of its own, without a break: nothing else is written meanwhile, and all of it is kept and
   * flushed, or none.
   */
  async write<T>(work: (sql: PlainSql) => T): Promise<T> {
    try {
      return await this.writeOnce(work)
    } catch (error) {
      // The connection may have been opened when nothing could be written: it is another by now.
      if (diskTrouble(error) !== 'read-only') throw error
      return this.writeOnce(work)
    }
  }

  /** Reads what is kept, and nothing that a transaction has not kept yet. */
  async read<T>(work: (sql: PlainSql) => T): Promise<T> {
    return this.inTurn((database) => work(plainSql(database)))
  }

  private async writeOnce<T>(work: (sql: PlainSql) => T): Promise<T> {
    return this.inTurn((database) => {
      database.exec('BEGIN IMMEDIATE')
      const done = work(plainSql(database))
      database.exec('COMMIT')
      return done
    })
  }

  private async inTurn<T>(
    work: (database: Database.Database) => T,
  ): Promise<T> {
    const over = await this.takeTurn()
    try {
      return work(this.connection().database)
    } catch (error) {
      this.letGo()
      throw error
    } finally {
      over()
    }
  }

  async execute(statement: InStatement | string): Promise<ResultSet> {
    try {
      return await this.connection().statements.execute(statement)
    } catch (error) {
      this.letGo()
      throw error
    }
  }

  /** The adapter lets nothing else be executed until it is over. */
  async transaction(): Promise<Transaction> {
    const over = await this.takeTurn()
    try {
      const { database } = this.connection()
      database.exec('BEGIN DEFERRED')
      return this.transactionOn(database, over)
    } catch (error) {
      this.letGo()
      over()
      throw error
    }
  }

  async executeMultiple(sql: string): Promise<void> {
    return this.connection().statements.executeMultiple(sql)
  }

  batch: Client['batch'] = async (statements, mode) =>
    this.connection().statements.batch(statements, mode)

  migrate: Client['migrate'] = async (statements) =>
    this.connection().statements.migrate(statements)

  sync: Client['sync'] = async () => this.connection().statements.sync()

  reconnect(): void {
    this.letGo()
  }

  /**
   * The driver lets go of a closed file only as its statements are collected: what was written is brought into the
   * database itself before, so that the file does not change afterwards.
   */
  close(): void {
    this.closed = true
    try {
      this.open?.database.exec('PRAGMA wal_checkpoint(PASSIVE)')
    } catch {
      // A disk that cannot be written keeps it in the log beside, where the next start finds it.
    }
    this.letGo()
  }

  private transactionOn(
    database: Database.Database,
    over: () => void,
  ): Transaction {
    const inner = new Sqlite3Transaction(database, numbers)
    const end = async (how: 'commit' | 'rollback') => {
      try {
        await inner[how]()
        if (how === 'rollback') this.letGo()
      } catch (error) {
        this.letGo()
        throw error
      } finally {
        over()
      }
    }
    return {
      execute: inner.execute.bind(inner),
      batch: inner.batch.bind(inner),
      executeMultiple: inner.executeMultiple.bind(inner),
      commit: () => end('commit'),
      rollback: () => end('rollback'),
      close: () => {
        inner.close()
        over()
      },
      get closed() {
        return inner.closed
      },
    }
  }

  private connection(): Open {
    if (this.open === undefined) {
      const { path, options } = this
      const database = new Database(path, options)
      const statements = new Sqlite3Client(path, options, database, numbers)
      this.open = { database, statements }
    }
    return this.open
  }

  /** The next use opens another. A transaction does not outlive its connection, whoever holds it still. */
  private letGo(): void {
    const database = this.open?.database
    this.open = undefined
    if (database === undefined) return
    try {
      if (database.inTransaction) database.exec('ROLLBACK')
    } catch {
      // It ended by itself.
    }
    database.close()
  }

  /** Waits for those who came before; who has the turn says when it is over. */
  private async takeTurn(): Promise<() => void> {
    const before = this.turn
    let over: () => void = () => undefined
    this.turn = new Promise((resolve) => {
      over = resolve
    })
    await before
    return over
  }
}

type ResultSet = Awaited<ReturnType<Client['execute']>>

function plainSql(database: Database.Database): PlainSql {
  return {
    // Handed on as one list: a lone null would be taken for a list of names.
    rows: (sql, ...values) => database.prepare(sql).all(values),
    run: (sql, ...values) => database.prepare(sql).run(values).changes,
  }
}
