import { existsSync, statSync } from 'node:fs'
import path from 'node:path'
import { installedTool } from './installed-tool'
import { run } from './run'

const client = 'lib/services/database/generated/client.ts'
const sources = ['prisma/schema.prisma', 'node_modules/prisma/package.json']

/**
 * Makes the database client from the schema, unless the one there is newer than the schema and its generator.
 *
 * @param root the folder of this package
 * @returns whether there is a client now
 */
export async function generateClient(root: string): Promise<boolean> {
  if (isNewer(root)) return true
  const generate = (
    environment: Readonly<Record<string, string>>,
    output: 'on-failure' | 'never',
  ) =>
    run(process.execPath, [installedTool('prisma'), 'generate'], {
      cwd: root,
      output,
      env: {
        ...process.env,
        // No look for a newer version, no usage report.
        CHECKPOINT_DISABLE: '1',
        PRISMA_HIDE_UPDATE_MESSAGE: '1',
        ...environment,
      },
    })
  // The generator checks that it has an engine which it does not run to generate, and fetches it where it has none.
  // Without a network any program that is there stands in for it.
  return (
    (await generate({}, 'never')) === 0 ||
    (await generate(
      { PRISMA_SCHEMA_ENGINE_BINARY: process.execPath },
      'on-failure',
    )) === 0
  )
}

function isNewer(root: string): boolean {
  const made = path.join(root, client)
  if (!existsSync(made)) return false
  const madeAt = statSync(made).mtimeMs
  return sources.every(
    (source) => statSync(path.join(root, source)).mtimeMs < madeAt,
  )
}
