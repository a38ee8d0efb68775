import { readFileSync, readdirSync } from 'node:fs'
import path from 'node:path'
import prisma from '@prisma/internals'
import { expect, test } from 'vitest'
import { backedUpTables } from '#core/backup/backed-up-tables'
import { longestText } from '#core/backup/text-limits'

test('a text of a backup may be as long as the longest that any field takes, and longer', () => {
  const limits = readdirSync('lib/services', {
    recursive: true,
    encoding: 'utf8',
  })
    .filter((file) => path.basename(file) === 'schema.ts')
    .flatMap((file) => [
      ...readFileSync(path.join('lib/services', file), 'utf8').matchAll(
        /z\s*\.string\([^)]*\)(?:\s*\.\w+\((?:[^()]|\([^()]*\))*\))*?\s*\.max\(\s*([\d_]+)/g,
      ),
    ])
    .map(([, limit = '']) => Number(limit.replaceAll('_', '')))
  expect(limits.length).toBeGreaterThan(15)
  expect(Math.max(...limits)).toBeLessThanOrEqual(longestText('Job', 'title'))
})

test('what the program writes down by itself has room for a large job: every column that the schema says is JSON or a file', async () => {
  const { datamodel } = await prisma.getDMMF({
    datamodel: readFileSync('prisma/schema.prisma', 'utf8'),
  })
  const tables = new Set(backedUpTables.map(({ name }) => name))
  const records = datamodel.models
    .filter(({ name }) => tables.has(name))
    .flatMap(({ name, fields }) =>
      fields
        .filter(
          ({ type, documentation = '' }) =>
            type === 'String' && /JSON|caption file/.test(documentation),
        )
        .map((field) => [name, field.name] as const),
    )
  expect(records.length).toBeGreaterThan(10)
  const small = records.filter(
    ([table, column]) => longestText(table, column) <= 10_000,
  )
  // Nine numbers; and three choices of a few words.
  expect(small.map((one) => one.join('.'))).toEqual([
    'Pair.homography',
    'SheetSettings.look',
  ])
})
