import { createHash } from 'node:crypto'
import { existsSync, readFileSync, readdirSync, statSync } from 'node:fs'
import path from 'node:path'

/** All that a production build is made from. */
const sources = [
  'app',
  'lib/core',
  'lib/services',
  'public',
  'instrumentation-client.ts',
  'instrumentation.ts',
  'next.config.mjs',
  'package.json',
  'package-lock.json',
  'postcss.config.mjs',
  'prisma/schema.prisma',
  'proxy.ts',
  'tsconfig.json',
]
// Made from the schema, which counts itself.
const generated = path.join('lib', 'services', 'database', 'generated')

/** SHA-256 over the names and contents of all that a production build is made from, and the version of Node. */
export function sourceHash(root: string): string {
  const hash = createHash('sha256').update(process.version)
  for (const file of sources.flatMap((source) => filesOf(root, source))) {
    const contents = readFileSync(path.join(root, file))
    hash.update(`\n${file}\n${contents.byteLength}\n`).update(contents)
  }
  return hash.digest('hex')
}

function filesOf(root: string, source: string): readonly string[] {
  const full = path.join(root, source)
  if (source === generated || !existsSync(full)) return []
  if (!statSync(full).isDirectory()) return [source]
  return readdirSync(full)
    .sort()
    .flatMap((name) => filesOf(root, path.join(source, name)))
}
