import { backedUpTables } from '#core/backup/backed-up-tables'

/** A table as the database's schema describes it. */
export type DescribedTable = {
  readonly name: string
  readonly about?: string
  readonly columns: readonly DescribedColumn[]
}

export type DescribedColumn = {
  readonly name: string
  /** A scalar type of the database's schema: String, Int, BigInt, Float, Boolean, Bytes, DateTime. */
  readonly type: string
  readonly required: boolean
  readonly about?: string
}

type Json = Readonly<Record<string, unknown>>

const types: Readonly<Record<string, Json>> = {
  String: { type: 'string' },
  Int: { type: 'integer' },
  BigInt: { type: 'integer' },
  Float: { type: 'number' },
  Boolean: { type: 'boolean' },
  Bytes: { type: 'string', contentEncoding: 'base64' },
  DateTime: { type: 'string', format: 'date-time' },
}

/**
 * What may stand in a backup's `journal.json`, as JSON Schema: every table that backups hold, with each of its columns.
 *
 * @throws RangeError for a table that is not described, or a type that is not known
 * Source: JSON Schema, draft 2020-12.
 */
export function journalSchema(described: readonly DescribedTable[]): Json {
  const tables = backedUpTables.map(({ name }) => {
    const table = described.find((one) => one.name === name)
    if (table === undefined) {
      throw new RangeError(`journalSchema: expected ${name} to be described`)
    }
    return table
  })
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'The journal of a Coatbook backup',
    description:
      'Everything that was written down, a list of records for each table. Moments are ISO 8601 in UTC, money is in minor units of the workshop’s currency. Ids are opaque; a column named after a table and Id holds the id of a record there.',
    type: 'object',
    required: ['format', 'version', 'migrations', 'tables'],
    additionalProperties: false,
    properties: {
      $schema: { type: 'string' },
      format: { const: 'coatbook-journal' },
      version: { const: 1 },
      migrations: {
        description:
          'The changes that the database had been through, in order: the version of what follows.',
        type: 'array',
        items: { type: 'string' },
        minItems: 1,
      },
      tables: {
        type: 'object',
        required: tables.map((table) => table.name),
        additionalProperties: false,
        properties: Object.fromEntries(
          tables.map((table) => [
            table.name,
            { type: 'array', items: { $ref: `#/$defs/${table.name}` } },
          ]),
        ),
      },
    },
    $defs: Object.fromEntries(
      tables.map((table) => [table.name, recordSchema(table)]),
    ),
  }
}

function recordSchema({ about, columns }: DescribedTable): Json {
  return {
    ...described(about),
    type: 'object',
    required: columns.map((column) => column.name),
    additionalProperties: false,
    properties: Object.fromEntries(
      columns.map((column) => [column.name, columnSchema(column)]),
    ),
  }
}

function columnSchema({ type, required, about }: DescribedColumn): Json {
  const known = types[type]
  if (known === undefined) {
    throw new RangeError(`journalSchema: expected a scalar type, got ${type}`)
  }
  return {
    ...described(about),
    ...known,
    ...(required ? {} : { type: [known['type'], 'null'] }),
  }
}

function described(about: string | undefined): Json {
  return about === undefined ? {} : { description: about }
}
