import { readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import prisma from '@prisma/internals'
import { archiveNames } from '#core/backup/archive-names'
import { type DescribedTable, journalSchema } from '#core/backup/journal-schema'

const file = path.join('lib', 'services', 'backup', archiveNames.schema)

/** The tables of the database's schema, with what is said of them there. */
export async function describeTables(
  datamodel: string,
): Promise<readonly DescribedTable[]> {
  const document = await prisma.getDMMF({ datamodel })
  return document.datamodel.models.map((model) => ({
    name: model.name,
    ...about(model.documentation),
    columns: model.fields
      .filter((field) => field.kind === 'scalar')
      .map((field) => ({
        name: field.name,
        type: field.type,
        required: field.isRequired,
        ...about(field.documentation),
      })),
  }))
}

function about(documentation: string | undefined): { about?: string } {
  return documentation === undefined
    ? {}
    : { about: documentation.replaceAll('\n', ' ') }
}

/** The JSON Schema of a backup's journal as text, made from the database's schema. */
export async function journalSchemaText(root: string): Promise<string> {
  const datamodel = readFileSync(
    path.join(root, 'prisma', 'schema.prisma'),
    'utf8',
  )
  const schema = journalSchema(await describeTables(datamodel))
  return `${JSON.stringify(schema, null, 2)}\n`
}

/** Writes the JSON Schema that goes into every backup. */
export async function generateJournalSchema(root: string): Promise<void> {
  writeFileSync(path.join(root, file), await journalSchemaText(root))
}
