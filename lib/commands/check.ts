import { existsSync } from 'node:fs'
import { checkJournal } from '#services/check/check-journal'
import { closeDatabase } from '#services/database/open-database'
import { dataFolder } from '#services/settings/data-folder'
import { readEnvironment } from '#services/settings/environment'

/** Checks the whole data folder and says what it found; ends with code 1 when something is left to do. */
try {
  const { dataFolder: root } = readEnvironment()
  if (!existsSync(dataFolder(root).database)) {
    throw new Error(`There is no journal in ${root}.`)
  }
  const found = await checkJournal()
  await closeDatabase()
  for (const finding of found.findings) console.log(finding)
  const megabytes = Math.round(found.soundBytes / 1_000_000)
  console.log(
    `${found.originals} originals (${megabytes} MB as they were kept) of ${found.photos} photos; ${found.renditionsMade} renditions made anew, ${found.renditionsRemoved} removed; ${found.findings.length} findings.`,
  )
  process.exitCode = found.findings.length === 0 ? 0 : 1
} catch (error) {
  console.error(error instanceof Error ? error.message : String(error))
  process.exitCode = 1
}
