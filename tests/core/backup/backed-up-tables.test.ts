import { readFileSync } from 'node:fs'
import prisma from '@prisma/internals'
import { beforeAll, describe, expect, test } from 'vitest'
import { backedUpTables, leftOutTables } from '#core/backup/backed-up-tables'
import { journalSchema } from '#core/backup/journal-schema'
import {
  describeTables,
  journalSchemaText,
} from '../../../lib/commands/generate-journal-schema'

const datamodel = readFileSync('prisma/schema.prisma', 'utf8')
type Model = Awaited<
  ReturnType<typeof prisma.getDMMF>
>['datamodel']['models'][number]
let models: readonly Model[] = []
beforeAll(async () => {
  models = (await prisma.getDMMF({ datamodel })).datamodel.models
})

const listed = backedUpTables.map((table) => table.name)

describe('the list of what backups hold', () => {
  test('names every table of the schema, once, either as held or as left out', () => {
    expect([...listed, ...Object.keys(leftOutTables)].sort()).toEqual(
      models.map((model) => model.name).sort(),
    )
  })

  test('has each table after those that its rows point at, none of which is left out', () => {
    for (const model of models) {
      if (!listed.includes(model.name)) continue
      for (const field of model.fields) {
        if ((field.relationFromFields ?? []).length === 0) continue
        expect(
          listed.indexOf(field.type),
          `${model.name}.${field.name}`,
        ).toBeGreaterThan(-1)
        expect(listed.indexOf(field.type)).toBeLessThan(
          listed.indexOf(model.name),
        )
      }
    }
  })

  test('names columns and tables that there are', () => {
    for (const { name, workedOut = [], partOf } of backedUpTables) {
      const fields = models.find((one) => one.name === name)?.fields ?? []
      for (const column of workedOut) {
        expect(fields.map((field) => field.name)).toContain(column)
      }
      if (partOf === undefined) continue
      const parent = fields.find((field) => field.type === partOf)
      expect(parent?.relationFromFields).toHaveLength(1)
    }
  })
})

test('the published JSON Schema is the one of the database’s schema; "npm run generate" makes it', async () => {
  expect(readFileSync('lib/services/backup/journal.schema.json', 'utf8')).toBe(
    await journalSchemaText('.'),
  )
})

test('a table that nobody described is no part of a schema', async () => {
  const described = await describeTables(datamodel)
  expect(() =>
    journalSchema(described.filter((table) => table.name !== 'Job')),
  ).toThrow(/Job/)
})
