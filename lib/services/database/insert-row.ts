import type { PlainSql, SqlValue } from '#services/database/one-connection'

/** Adds one row to a table. Tables and columns are named by us; only values come from outside, and they are bound. */
export function insertRow(
  sql: PlainSql,
  table: string,
  row: Readonly<Record<string, SqlValue>>,
): void {
  const columns = Object.keys(row)
  sql.run(
    `INSERT INTO "${table}" (${columns.map((name) => `"${name}"`).join(', ')})
    VALUES (${columns.map(() => '?').join(', ')})`,
    ...Object.values(row),
  )
}
