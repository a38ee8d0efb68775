import { ESLint } from 'eslint'
import { beforeAll, describe, expect, test } from 'vitest'

/**
 * The direction of imports is kept by lint rules. Here each rule is shown what it must refuse, in a file of the place
 * that it guards: a pattern that never fires is no rule.
 */
const linter = new ESLint()

async function refusalsOf(code: string, filePath: string): Promise<string[]> {
  const [result] = await linter.lintText(code, { filePath })
  return (result?.messages ?? [])
    .filter((message) => (message.ruleId ?? '').startsWith('no-restricted-'))
    .map((message) => message.message)
}

const core = 'lib/core/units.ts'
const zone = 'lib/core/time/zone.ts'
const service = 'lib/services/clock.ts'
const databaseService = 'lib/services/database/instants.ts'
const command = 'lib/commands/run.ts'
const page = 'app/layout.tsx'
const client = 'app/_components/copy-button.client.tsx'

// The first file that is linted loads the types of the whole program.
beforeAll(async () => {
  await linter.lintText('export {}\n', { filePath: core })
})

describe('is refused', () => {
  test.each([
    ['the core using a service', core, "import '#services/clock'"],
    ['the core using a library', core, "import 'zod'"],
    ['the core using the file system', core, "import 'node:fs'"],
    ['the core going by a path', core, "import './result'"],
    ['the core using a framework', core, "import 'react'"],
    [
      'the core using time zones outside their file',
      core,
      "import 'temporal-polyfill'",
    ],
    ['time zones using anything but their library', zone, "import 'zod'"],
    ['the core reading the clock', core, 'export const at = Date.now()'],
    [
      'the core reading the environment',
      core,
      "export const at = process.env['TZ']",
    ],
    ['the core leaving it to chance', core, 'export const at = Math.random()'],
    ['the core asking the network', core, "export const at = fetch('/')"],
    ['a service using the framework', service, "import 'next/headers'"],
    ['a service using React', service, "import 'react'"],
    ['a service using a page', service, "import '../../app/_words'"],
    [
      'a service using the generated client',
      service,
      "import '#prisma-client'",
    ],
    [
      'the database using the framework',
      databaseService,
      "import 'next/cache'",
    ],
    ['a command using the framework', command, "import 'next/cache'"],
    ['a command using a page', command, "import '../../app/_words'"],
    ['a client component using a service', client, "import '#services/clock'"],
    ['a client component using the file system', client, "import 'node:fs'"],
    ['a client component using schemas', client, "import 'zod'"],
    ['a client component using time zones', client, "import '#core/time/zone'"],
    ['a service using a command', service, "import '../commands/run'"],
    ['a page using the generated client', page, "import '#prisma-client'"],
    [
      'a page using the database',
      page,
      "import '#services/database/open-database'",
    ],
    [
      'a write outside a transaction',
      service,
      'declare const db: { job: { updateMany(): void } }; db.job.updateMany()',
    ],
    ['a file that passes on another', service, "export * from '#core/units'"],
  ])('%s', async (_, filePath, code) => {
    expect(await refusalsOf(`${code}\n`, filePath)).toHaveLength(1)
  })
})

describe('is allowed', () => {
  test.each([
    ['the core using the core', core, "import '#core/result'"],
    ['time zones using their library', zone, "import 'temporal-polyfill'"],
    ['a service using the core', service, "import '#core/units'"],
    [
      'the database using the generated client',
      databaseService,
      "import '#prisma-client'",
    ],
    ['a command using a service', command, "import '#services/clock'"],
    ['a page using a service', page, "import '#services/clock'"],
    ['a client component using the core', client, "import '#core/units'"],
  ])('%s', async (_, filePath, code) => {
    expect(await refusalsOf(`${code}\n`, filePath)).toEqual([])
  })
})
