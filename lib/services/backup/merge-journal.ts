import 'server-only'
import type Database from 'libsql'
import {
  type BackedUpTable,
  backedUpTables,
} from '#core/backup/backed-up-tables'
import { BackupFlaw } from '#services/backup/backup-flaw'
import {
  type Row,
  type TableShape,
  type Value,
  isRow,
  placeholder,
  readTableShapes,
  rowsOf,
  selected,
} from '#services/backup/table-shape'

/** What becomes of a record that journal and backup both have, and that differs: the journal's stays, or the backup's comes. */
export const conflictChoices = ['keep', 'take'] as const
export type ConflictChoice = (typeof conflictChoices)[number]

/** What a table gains. */
export type TableMerge = {
  readonly table: string
  readonly added: number
  readonly same: number
  readonly differing: number
}

export type Merge = {
  readonly tables: readonly TableMerge[]
  /** Some of the records that differ: what they are, and in which columns. */
  readonly differing: readonly string[]
  /** Whether the journal held nothing but its first settings, which then give way. */
  readonly intoEmpty: boolean
  /** Whether it was written. */
  readonly committed: boolean
}

const mostTold = 20

/**
 * Brings the records of one journal into another, in one transaction. A record that the journal has by its key, or by
 * another key that no two may share, such as a camera's name or a photo's bytes in a job, is the same record; it is
 * overwritten only when told to. What belongs to a record, such as the surfaces of a step, stays or comes with it.
 * Nothing is ever taken away.
 *
 * @param target the journal; no transaction is open
 * @param staged a journal at the same version
 * @param options without a choice, records that differ stop it; without `commit` nothing is written in any case
 * @throws BackupFlaw when the two cannot be brought together
 */
export function mergeJournal(
  target: Database.Database,
  staged: Database.Database,
  options: {
    readonly onConflict?: ConflictChoice | undefined
    readonly commit: boolean
  },
): Merge {
  // Checked for the whole before it is committed; meanwhile no order is the right one.
  target.exec('PRAGMA foreign_keys = OFF')
  target.exec('BEGIN IMMEDIATE')
  let open = true
  try {
    const intoEmpty = isEmpty(target)
    if (intoEmpty) dropSettings(target)
    else refuseOtherMeasures(target, staged)
    const merge = mergeAll(target, staged, options.onConflict)
    if (!intoEmpty) raiseRevisions(target, staged)
    const dangling = rowsOf(target, 'PRAGMA foreign_key_check').length
    if (dangling > 0) {
      throw new BackupFlaw(
        `Together with this journal ${dangling} records would point at records that are not there.`,
      )
    }
    const stopped =
      options.onConflict === undefined &&
      merge.tables.some((one) => one.differing > 0)
    const committed = options.commit && !stopped
    target.exec(committed ? 'COMMIT' : 'ROLLBACK')
    open = false
    return { ...merge, intoEmpty, committed }
  } finally {
    if (open) target.exec('ROLLBACK')
  }
}

function isEmpty(target: Database.Database): boolean {
  return backedUpTables
    .filter((table) => table.settings !== true)
    .every(({ name }) => countOf(target, name) === 0)
}

function countOf(database: Database.Database, table: string): number {
  return Number(
    rowsOf(database, `SELECT count(*) AS "count" FROM "${table}"`)[0]?.[
      'count'
    ],
  )
}

function dropSettings(target: Database.Database): void {
  for (const { name, settings } of backedUpTables) {
    if (settings === true) target.exec(`DELETE FROM "${name}"`)
  }
}

/** Times of photos were read in a zone, and money is in minor units: two of either in one journal make both wrong. */
function refuseOtherMeasures(
  target: Database.Database,
  staged: Database.Database,
): void {
  const read = (database: Database.Database) =>
    rowsOf(database, 'SELECT "zone", "currency" FROM "Workshop"')[0]
  const mine = read(target)
  const theirs = read(staged)
  if (mine === undefined || theirs === undefined) return
  for (const [column, word] of [
    ['zone', 'time zone'],
    ['currency', 'currency'],
  ] as const) {
    if (mine[column] === theirs[column]) continue
    throw new BackupFlaw(
      `Its ${word} is ${String(theirs[column])}, and this journal's is ${String(mine[column])}: the two cannot be brought together. Set this journal's to the other under Workshop first, or restore into a data folder of its own.`,
    )
  }
}

/** Whatever was computed from a job that both have is stale. */
function raiseRevisions(
  target: Database.Database,
  staged: Database.Database,
): void {
  const raise = target.prepare(
    'UPDATE "Job" SET "revision" = "revision" + 1 WHERE "id" = ?',
  )
  for (const { id } of rowsOf(staged, 'SELECT "id" FROM "Job"')) raise.run(id)
}

function mergeAll(
  target: Database.Database,
  staged: Database.Database,
  choice: ConflictChoice | undefined,
): Pick<Merge, 'tables' | 'differing'> {
  const shapes = new Map(
    readTableShapes(target).map((shape) => [shape.name, shape]),
  )
  const renamed: Renamed = new Map()
  const told: string[] = []
  const tables: TableMerge[] = []
  for (const table of backedUpTables) {
    const shape = shapes.get(table.name)
    if (shape === undefined || table.partOf !== undefined) continue
    const parts = backedUpTables.flatMap((part) => {
      const found = shapes.get(part.name)
      return part.partOf === table.name && found !== undefined ? [found] : []
    })
    const mine = access(target, table, shape, parts)
    const theirs = access(staged, table, shape, parts)
    const count = { added: 0, same: 0, differing: 0 }
    for (const found of theirs.all()) {
      const row = follow(renamed, shape, found)
      const there = mine.find(row)
      const partRows = (id: Value) =>
        parts.map((part) =>
          theirs.partsOf(part, id).map((one) => follow(renamed, part, one)),
        )
      if (there === undefined) {
        count.added += 1
        mine.add(row, partRows(theirs.idOf(found)))
        continue
      }
      remember(renamed, shape, found, there)
      const wanted = partRows(theirs.idOf(found))
      const columns = mine.differing(row, there, wanted)
      if (columns.length === 0) {
        count.same += 1
        continue
      }
      count.differing += 1
      if (told.length < mostTold) told.push(tell(table, there, columns))
      if (choice === 'take') mine.replace(row, there, wanted)
    }
    tables.push({ table: table.name, ...count })
  }
  return { tables, differing: told }
}

/** The keys under which records of the backup are known here, by table. */
type Renamed = Map<string, Map<Value, Value>>

function remember(
  renamed: Renamed,
  { name, key }: TableShape,
  from: Row,
  to: Row,
): void {
  const [column] = key
  if (column === undefined || key.length > 1) return
  const before = from[column] ?? null
  const after = to[column] ?? null
  if (before === after) return
  const ofTable = renamed.get(name) ?? new Map<Value, Value>()
  renamed.set(name, ofTable.set(before, after))
}

/** A row with its references following records to the keys that they are known by here. */
function follow(renamed: Renamed, { references }: TableShape, row: Row): Row {
  const moved = references.flatMap(({ column, table }) => {
    const to = renamed.get(table)?.get(row[column] ?? null)
    return to === undefined ? [] : [[column, to] as const]
  })
  return moved.length === 0 ? row : { ...row, ...Object.fromEntries(moved) }
}

const namingColumns = ['title', 'name', 'fileName', 'words', 'kind', 'at']

function tell(
  { name, words }: BackedUpTable,
  row: Row,
  columns: readonly string[],
): string {
  const called = namingColumns.find((column) => typeof row[column] === 'string')
  const title = called === undefined ? '' : ` "${String(row[called])}"`
  return `${words?.[0] ?? name}${title}: ${columns.join(', ')}`
}

/** What is done with the rows of one table, and with those that belong to them. */
function access(
  database: Database.Database,
  table: BackedUpTable,
  shape: TableShape,
  parts: readonly TableShape[],
) {
  const byColumns = (columns: readonly string[]) => {
    const statement = database.prepare(
      `SELECT ${selected(shape)} FROM "${shape.name}" WHERE ${columns.map(equals).join(' AND ')}`,
    )
    return (row: Row): Row | undefined => {
      const values = columns.map((column) => row[column] ?? null)
      // No key at all is no key that is shared.
      if (values.includes(null)) return undefined
      const found: unknown = statement.get(...values)
      return isRow(found) ? found : undefined
    }
  }
  const finders = [shape.key, ...shape.uniques].map(byColumns)
  const insert = inserter(database, shape)
  const partTools = new Map(
    parts.map((part) => {
      const column =
        part.references.find((one) => one.table === table.name)?.column ?? ''
      const where = `"${part.name}" WHERE ${equals(column)}`
      const order = part.key.map((name) => `"${name}"`).join(', ')
      return [
        part.name,
        {
          column,
          read: database.prepare(
            `SELECT ${selected(part)} FROM ${where} ORDER BY ${order}`,
          ),
          remove: database.prepare(`DELETE FROM ${where}`),
          insert: inserter(database, part),
        },
      ] as const
    }),
  )
  const idOf = (row: Row): Value => row[shape.key[0] ?? ''] ?? null
  const partsOf = (part: TableShape, id: Value): readonly Row[] =>
    partTools.get(part.name)?.read.all(id).filter(isRow) ?? []
  const compared = shape.columns
    .map((column) => column.name)
    .filter(
      (name) =>
        !shape.key.includes(name) && table.workedOut?.includes(name) !== true,
    )
  return {
    idOf,
    partsOf,
    all: function* (): Generator<Row> {
      const order = shape.key.map((name) => `"${name}"`).join(', ')
      const rows = database
        .prepare(
          `SELECT ${selected(shape)} FROM "${shape.name}" ORDER BY ${order}`,
        )
        .iterate()
      for (const row of rows) if (isRow(row)) yield row
    },
    find: (row: Row): Row | undefined => {
      for (const find of finders) {
        const found = find(row)
        if (found !== undefined) return found
      }
      return undefined
    },
    add: (row: Row, partRows: readonly (readonly Row[])[]) => {
      insert(row)
      for (const [index, part] of parts.entries()) {
        for (const one of partRows[index] ?? []) {
          partTools.get(part.name)?.insert(one)
        }
      }
    },
    differing: (
      row: Row,
      there: Row,
      partRows: readonly (readonly Row[])[],
    ): readonly string[] => [
      ...compared.filter((name) => row[name] !== there[name]),
      ...parts.flatMap((part, index) => {
        const column = partTools.get(part.name)?.column ?? ''
        const own = (rows: readonly Row[]) =>
          rows
            .map((one) => JSON.stringify({ ...one, [column]: null }))
            .sort()
            .join()
        return own(partRows[index] ?? []) === own(partsOf(part, idOf(there)))
          ? []
          : [part.name]
      }),
    ],
    replace: (row: Row, there: Row, partRows: readonly (readonly Row[])[]) => {
      if (compared.length > 0) {
        const statement = database.prepare(
          `UPDATE "${shape.name}" SET ${compared.map((name) => `"${name}" = ${placeholder(shape, name)}`).join(', ')} WHERE ${shape.key.map(equals).join(' AND ')}`,
        )
        orContradiction(shape, () =>
          statement.run(
            ...compared.map((name) => row[name] ?? null),
            ...shape.key.map((name) => there[name] ?? null),
          ),
        )
      }
      for (const [index, part] of parts.entries()) {
        const tools = partTools.get(part.name)
        tools?.remove.run(idOf(there))
        for (const one of partRows[index] ?? []) {
          tools?.insert({ ...one, [tools.column]: idOf(there) })
        }
      }
    },
  }
}

const equals = (column: string) => `"${column}" = ?`

function inserter(
  database: Database.Database,
  shape: TableShape,
): (row: Row) => void {
  const names = shape.columns.map((column) => column.name)
  const statement = database.prepare(
    `INSERT INTO "${shape.name}" (${names.map((name) => `"${name}"`).join(', ')}) VALUES (${names.map((name) => placeholder(shape, name)).join(', ')})`,
  )
  return (row) => {
    orContradiction(shape, () =>
      statement.run(...names.map((name) => row[name] ?? null)),
    )
  }
}

function orContradiction(shape: TableShape, write: () => unknown): void {
  try {
    write()
  } catch (error) {
    if (!isConstraint(error)) throw error
    throw new BackupFlaw(
      `A record of ${shape.name} contradicts one of this journal. Restore into a data folder of its own.`,
    )
  }
}

function isConstraint(error: unknown): boolean {
  return (
    error instanceof Error &&
    'code' in error &&
    String(error.code).startsWith('SQLITE_CONSTRAINT')
  )
}
