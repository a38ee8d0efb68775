import path from 'node:path'
import { instant } from '#core/units'
import { emptyDueBin } from '#services/bin/empty-bin'
import { restoreBackup } from '#services/backup/restore-backup'
import { writeBackup } from '#services/backup/write-backup'
import { keepChecksums } from '#services/backup/keep-checksums'
import { openDataFolder } from '#services/database/open-database'
import { dataFolder } from '#services/settings/data-folder'

/** What a process is to do until it is killed, in the data folder that its environment names. */
export type Work =
  | { readonly does: 'open the journal' }
  | { readonly does: 'empty the bin'; readonly now: number }
  | { readonly does: 'back up'; readonly into: string; readonly now: number }
  | { readonly does: 'restore'; readonly file: string; readonly now: number }

// Loaded ahead, so that the work begins when it is told to; says when it has begun and when it is done.
process.once('message', (work: Work & { readonly root: string }) => {
  process.env['COATBOOK_DATA'] = work.root
  // Beside it, where the test sees what is left.
  process.env['TMPDIR'] = path.dirname(work.root)
  process.send?.('begun')
  void carryOut(work).then(() => {
    process.send?.('done')
  })
})
process.send?.('loaded')

async function carryOut(work: Work & { readonly root: string }): Promise<void> {
  switch (work.does) {
    case 'open the journal':
      await openDataFolder()
      return
    case 'empty the bin':
      await emptyDueBin(instant(work.now))
      return
    case 'back up': {
      const data = await openDataFolder()
      await writeBackup(
        data,
        path.resolve(work.into),
        instant(work.now),
        keepChecksums,
      )
      return
    }
    case 'restore': {
      const folder = dataFolder(work.root)
      const options = { dryRun: false, onConflict: 'take' } as const
      const done = await restoreBackup(
        work.file,
        folder,
        options,
        instant(work.now),
      )
      if (!done.ok) throw new Error(done.refusal.detail)
      return
    }
  }
}
