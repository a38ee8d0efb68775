import { generateClient } from './generate-client'

/** Makes what is made from `prisma/schema.prisma`: the database client, and the JSON Schema of backups. */
const root = process.cwd()
if (await generateClient(root)) {
  const { generateJournalSchema } = await import('./generate-journal-schema')
  await generateJournalSchema(root)
} else {
  process.exitCode = 1
}
