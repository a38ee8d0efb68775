import path from 'node:path'
import { parseArgs } from 'node:util'
import { restoreWords } from '#core/backup/restore-words'
import { conflictChoices } from '#services/backup/merge-journal'
import { restoreBackup } from '#services/backup/restore-backup'
import { now } from '#services/clock'
import { dataFolder } from '#services/settings/data-folder'
import { readEnvironment } from '#services/settings/environment'

const usage =
  'Say what from: npm run restore -- FILE [--dry-run] [--on-conflict keep|take]'

/**
 * `npm run restore -- FILE`: brings a backup into the data folder. With `--dry-run` it only says what it would do. Where
 * records differ it changes nothing until `--on-conflict` says whether the journal's stay or the backup's come.
 */
try {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      'dry-run': { type: 'boolean', default: false },
      'on-conflict': { type: 'string' },
    },
  })
  const [file] = positionals
  const wanted = values['on-conflict']
  const onConflict = conflictChoices.find((one) => one === wanted)
  if (
    file === undefined ||
    positionals.length > 1 ||
    (wanted !== undefined && onConflict === undefined)
  ) {
    throw new Error(usage)
  }
  const { dataFolder: root } = readEnvironment()
  const restored = await restoreBackup(
    path.resolve(file),
    dataFolder(root),
    { dryRun: values['dry-run'], onConflict },
    now(),
  )
  if (!restored.ok) throw new Error(restored.refusal.detail)
  for (const line of restoreWords(restored.value, root)) console.log(line)
  process.exitCode = restored.value.outcome === 'asks' ? 1 : 0
} catch (error) {
  console.error(error instanceof Error ? error.message : String(error))
  process.exitCode = 1
}
