import Database from 'libsql'
import prisma from '@prisma/internals'
import { copyFileSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, inject, test } from 'vitest'

let folder = ''
let file = ''
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'coatbook-schema-'))
  file = path.join(folder, 'journal.db')
  copyFileSync(inject('templateDatabase'), file)
})
afterEach(() => {
  rmSync(folder, { recursive: true, force: true })
})

/** What SQLite calls the types of the schema, as Prisma's own migrations write them. */
const columnTypes: Readonly<Record<string, string>> = {
  String: 'TEXT',
  Int: 'INTEGER',
  BigInt: 'BIGINT',
  Float: 'REAL',
  DateTime: 'DATETIME',
  Boolean: 'BOOLEAN',
  Bytes: 'BLOB',
}

const actions: Readonly<Record<string, string>> = {
  Cascade: 'CASCADE',
  Restrict: 'RESTRICT',
  SetNull: 'SET NULL',
  NoAction: 'NO ACTION',
  SetDefault: 'SET DEFAULT',
}

const schemaText = readFileSync('prisma/schema.prisma', 'utf8')

/** Every table, column, key, index and reference that the schema asks for, one a line. */
async function wanted(datamodel: string): Promise<string[]> {
  const document = await prisma.getDMMF({ datamodel })
  const { models, indexes } = document.datamodel
  const lines = models.flatMap((model) => [
    `table ${model.name}`,
    ...model.fields.flatMap((field) => {
      if (field.kind === 'scalar') {
        return [
          column(
            model.name,
            field.name,
            columnTypes[field.type] ?? '',
            field.isRequired,
            defaultText(field.default),
          ),
        ]
      }
      const from = field.relationFromFields ?? []
      if (from.length === 0) return []
      const fallback = field.isRequired ? 'Restrict' : 'SetNull'
      return [
        reference(
          model.name,
          from,
          field.type,
          field.relationToFields ?? [],
          actions[field.relationOnDelete ?? fallback] ?? '',
          actions[field.relationOnUpdate ?? 'Cascade'] ?? '',
        ),
      ]
    }),
  ])
  const keys = indexes.map((index) => {
    const kind =
      index.type === 'id'
        ? 'primary key'
        : index.type === 'unique'
          ? 'unique'
          : 'index'
    return `${kind} ${index.model} (${index.fields.map((one) => one.name).join(', ')})`
  })
  return [...lines, ...keys].sort()
}

function defaultText(value: unknown): string | null {
  if (value === undefined) return null
  if (typeof value === 'string') return `'${value}'`
  if (typeof value === 'number' || typeof value === 'boolean') {
    return String(value)
  }
  throw new Error(`no column has such a default: ${JSON.stringify(value)}`)
}

function column(
  table: string,
  name: string,
  type: string,
  required: boolean,
  standard: string | null,
): string {
  return `column ${table}.${name} ${type}${required ? ' not null' : ''}${standard === null ? '' : ` default ${standard}`}`
}

function reference(
  table: string,
  from: readonly string[],
  to: string,
  fields: readonly string[],
  onDelete: string,
  onUpdate: string,
): string {
  return `reference ${table} (${from.join(', ')}) -> ${to} (${fields.join(', ')}) on delete ${onDelete} on update ${onUpdate}`
}

type Row = Readonly<Record<string, unknown>>

/** Every table, column, key, index and reference that a database has, one a line. */
function found(database: Database.Database): string[] {
  const rows = (sql: string): Row[] =>
    database
      .prepare(sql)
      .all()
      .filter((row: unknown): row is Row => typeof row === 'object')
  const names = (list: readonly Row[]) =>
    list.map((row) => String(row['name'])).join(', ')
  return rows(
    "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name <> '_Migration'",
  )
    .map((row) => String(row['name']))
    .flatMap((table) => {
      const columns = rows(`PRAGMA table_info("${table}")`)
      const keyed = columns
        .filter((row) => Number(row['pk']) > 0)
        .sort((one, other) => Number(one['pk']) - Number(other['pk']))
      const indexes = rows(`PRAGMA index_list("${table}")`).filter(
        (row) => row['origin'] !== 'pk',
      )
      return [
        `table ${table}`,
        ...columns.map((row) =>
          column(
            table,
            String(row['name']),
            String(row['type']),
            Number(row['notnull']) === 1,
            typeof row['dflt_value'] === 'string' ? row['dflt_value'] : null,
          ),
        ),
        `primary key ${table} (${names(keyed)})`,
        ...indexes.map((row) => {
          const kind = Number(row['unique']) === 1 ? 'unique' : 'index'
          const parts = rows(`PRAGMA index_info("${String(row['name'])}")`)
          return `${kind} ${table} (${names(parts)})`
        }),
        ...rows(`PRAGMA foreign_key_list("${table}")`).map((row) =>
          reference(
            table,
            [String(row['from'])],
            String(row['table']),
            [String(row['to'])],
            String(row['on_delete']),
            String(row['on_update']),
          ),
        ),
      ]
    })
    .sort()
}

function altered(sql: string): string[] {
  const database = new Database(file)
  try {
    database.exec('PRAGMA foreign_keys = OFF')
    if (sql !== '') database.exec(sql)
    return found(database)
  } finally {
    database.close()
  }
}

test('the migrations give exactly the schema', async () => {
  const lines = await wanted(schemaText)
  expect(lines.length).toBeGreaterThan(100)
  expect(altered('')).toEqual(lines)
})

// That the comparison sees what it should: each of these makes the two differ, and only as it should.
test.each([
  [
    'a column that is missing',
    'ALTER TABLE "Photo" DROP COLUMN "exifLocal"',
    ['column Photo.exifLocal TEXT'],
    [],
  ],
  [
    'a column too many',
    'ALTER TABLE "Job" ADD COLUMN "mood" TEXT',
    [],
    ['column Job.mood TEXT'],
  ],
  [
    'an index that is missing',
    'DROP INDEX "Photo_sha256_idx"',
    ['index Photo (sha256)'],
    [],
  ],
  [
    'an index that is no longer unique',
    'DROP INDEX "Photo_jobId_sha256_key"; CREATE INDEX "x" ON "Photo" ("jobId", "sha256")',
    ['unique Photo (jobId, sha256)'],
    ['index Photo (jobId, sha256)'],
  ],
  [
    'a reference that no longer takes its children along',
    'DROP TABLE "PhotoSurface"; CREATE TABLE "PhotoSurface" ("photoId" TEXT NOT NULL, "surfaceId" TEXT NOT NULL, PRIMARY KEY ("photoId", "surfaceId"), FOREIGN KEY ("photoId") REFERENCES "Photo" ("id") ON DELETE RESTRICT ON UPDATE CASCADE, FOREIGN KEY ("surfaceId") REFERENCES "Surface" ("id") ON DELETE CASCADE ON UPDATE CASCADE); CREATE INDEX "PhotoSurface_surfaceId_idx" ON "PhotoSurface" ("surfaceId")',
    [
      'reference PhotoSurface (photoId) -> Photo (id) on delete CASCADE on update CASCADE',
    ],
    [
      'reference PhotoSurface (photoId) -> Photo (id) on delete RESTRICT on update CASCADE',
    ],
  ],
])('%s is seen', async (_name, sql, missing, surplus) => {
  const lines = await wanted(schemaText)
  const there = altered(sql)
  expect(lines.filter((line) => !there.includes(line))).toEqual(missing)
  expect(there.filter((line) => !lines.includes(line))).toEqual(surplus)
})
