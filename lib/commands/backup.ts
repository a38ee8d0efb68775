import { existsSync } from 'node:fs'
import path from 'node:path'
import { parseArgs } from 'node:util'
import { writeBackup } from '#services/backup/write-backup'
import { now } from '#services/clock'
import { dataFolder } from '#services/settings/data-folder'
import { readEnvironment } from '#services/settings/environment'

/** `npm run backup -- FOLDER`: one zip of the whole journal, made beside a running Coatbook. */
try {
  const { positionals } = parseArgs({ allowPositionals: true })
  const [folder] = positionals
  if (folder === undefined || positionals.length > 1) {
    throw new Error('Say where to: npm run backup -- FOLDER')
  }
  const data = dataFolder(readEnvironment().dataFolder)
  if (!existsSync(data.database)) {
    throw new Error(`There is no journal in ${data.root}.`)
  }
  const target = path.resolve(folder)
  if (!existsSync(target)) throw new Error(`There is no folder ${target}.`)
  const { file, byteLength, missing } = await writeBackup(data, target, now())
  console.log(`${file} (${Math.ceil(byteLength / 1_000_000)} MB)`)
  for (const { sha256, reason } of missing) {
    console.log(
      `The original ${sha256} is ${reason}, and not in it. "npm run check" says which photo it is.`,
    )
  }
  process.exitCode = missing.length === 0 ? 0 : 1
} catch (error) {
  console.error(error instanceof Error ? error.message : String(error))
  process.exitCode = 1
}
