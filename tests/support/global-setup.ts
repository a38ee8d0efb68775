import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import type { TestProject } from 'vitest/node'
import { migrate } from '../../lib/services/database/migrate'

declare module 'vitest' {
  interface ProvidedContext {
    /** An empty journal, migrated once; each test gets a copy. */
    templateDatabase: string
  }
}

/** Runs once before all tests: makes the migrated template database. */
export function setup(project: TestProject): () => void {
  const folder = mkdtempSync(path.join(tmpdir(), 'coatbook-template-'))
  const template = path.join(folder, 'journal.db')
  migrate(
    template,
    path.join(process.cwd(), 'prisma', 'migrations'),
    path.join(folder, 'copies'),
    'template',
  )
  project.provide('templateDatabase', template)
  return () => {
    rmSync(folder, { recursive: true, force: true })
  }
}
