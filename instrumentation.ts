/**
 * Opens the journal when the server starts, so that a second one on the same data folder refuses at once, goes on with
 * the renditions that the last one did not finish, and looks after pairs, the nightly backup and the bin. In production
 * photos that are sent, and methods that nothing is asked by, are answered before the framework, and pages are sent so
 * that they are painted before their scripts run.
 */
export async function register(): Promise<void> {
  if (process.env['NEXT_RUNTIME'] !== 'nodejs') return
  const { openForServing } = await import('#services/database/open-for-serving')
  await openForServing()
  if (process.env.NODE_ENV === 'production') {
    const { answerFirst } = await import('./app/api/_http/answer-first')
    const { answerToUpload } =
      await import('./app/api/_http/answer-uploads-directly')
    const { answerToWrongMethod } =
      await import('./app/api/_http/refuse-wrong-methods')
    const { holdScripts } = await import('./app/_scripts-after-paint')
    answerFirst([answerToUpload, answerToWrongMethod], holdScripts)
  }
  const { startNightlyBackups } =
    await import('#services/backup/nightly-backup')
  startNightlyBackups()
  const { startDailyBinLooks } = await import('#services/bin/daily-look')
  startDailyBinLooks()
  const { resumeRenditions } = await import('#services/renditions/renditions')
  const { startFindingPairs } = await import('#services/pairs/find-pairs-ahead')
  void resumeRenditions()
    .catch((error: unknown) => {
      // Each is made when somebody asks for it, so nothing is lost.
      console.error('Unfinished renditions could not be looked for.', error)
    })
    .then(startFindingPairs)
}
