/** Opens the journal when the server starts, so that a second one on the same data folder refuses at once. */
export async function register(): Promise<void> {
  if (process.env['NEXT_RUNTIME'] !== 'nodejs') return
  const { openForServing } = await import('#services/database/open-for-serving')
  await openForServing()
}
