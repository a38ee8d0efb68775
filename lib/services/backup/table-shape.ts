import 'server-only'
import type Database from 'libsql'
import { backedUpTables } from '#core/backup/backed-up-tables'

/** A table of a journal as the database itself describes it. */
export type TableShape = {
  readonly name: string
  readonly columns: readonly Column[]
  /** The names of the columns of its key, in the key's order. */
  readonly key: readonly string[]
  /** The columns of each other key that no two rows may share. */
  readonly uniques: readonly (readonly string[])[]
  readonly references: readonly Reference[]
}

type Column = {
  readonly name: string
  /** As the migrations write it: TEXT, INTEGER, BIGINT, REAL, DATETIME, BOOLEAN, BLOB. */
  readonly type: string
}

/** A column that holds the key of a row of another table. */
type Reference = { readonly column: string; readonly table: string }

/** A row as SQLite holds it; bytes are hexadecimal text, since the driver cannot bind them. */
export type Row = Readonly<Record<string, Value>>
export type Value = string | number | null

/** The tables that backups hold, as this database has them; one of an earlier version may lack some. */
export function readTableShapes(
  database: Database.Database,
): readonly TableShape[] {
  return backedUpTables.flatMap(({ name }) => {
    const shape = readShape(database, name)
    return shape.columns.length === 0 ? [] : shape
  })
}

/** A table as this database has it; without columns when it has none of that name. */
export function readShape(
  database: Database.Database,
  name: string,
): TableShape {
  const columns = rowsOf(database, `PRAGMA table_info("${name}")`)
  const indexes = rowsOf(database, `PRAGMA index_list("${name}")`).filter(
    (index) => index['unique'] === 1 && index['origin'] !== 'pk',
  )
  return {
    name,
    columns: columns.map((column) => ({
      name: String(column['name']),
      type: String(column['type']),
    })),
    key: columns
      .filter((column) => Number(column['pk']) > 0)
      .sort((one, other) => Number(one['pk']) - Number(other['pk']))
      .map((column) => String(column['name'])),
    uniques: indexes.map((index) =>
      rowsOf(database, `PRAGMA index_info("${String(index['name'])}")`).map(
        (part) => String(part['name']),
      ),
    ),
    references: rowsOf(database, `PRAGMA foreign_key_list("${name}")`).map(
      (reference) => ({
        column: String(reference['from']),
        table: String(reference['table']),
      }),
    ),
  }
}

/** All rows of a query. */
export function rowsOf(
  database: Database.Database,
  sql: string,
  ...values: readonly Value[]
): readonly Row[] {
  return database
    .prepare(sql)
    .all(...values)
    .filter(isRow)
}

/** Whether something is a row: every value is text, a number or nothing. */
export function isRow(row: unknown): row is Row {
  return typeof row === 'object' && row !== null
}

/** The names of the migrations that a database has been through, in order. */
export function readLevel(database: Database.Database): readonly string[] {
  return rowsOf(
    database,
    'SELECT "name" FROM "_Migration" ORDER BY "name"',
  ).map((row) => String(row['name']))
}

/** What to select for rows of a table. */
export function selected({ columns }: TableShape): string {
  return columns
    .map(({ name, type }) =>
      type === 'BLOB'
        ? `CASE WHEN "${name}" IS NULL THEN NULL ELSE hex("${name}") END AS "${name}"`
        : `"${name}"`,
    )
    .join(', ')
}

/** What stands for a column's value where rows of a table are written. */
export function placeholder({ columns }: TableShape, name: string): string {
  const type = columns.find((column) => column.name === name)?.type
  return type === 'BLOB' ? 'unhex(?)' : '?'
}
