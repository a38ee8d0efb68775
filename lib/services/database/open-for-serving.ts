import 'server-only'
import { database } from '#services/database/open-database'

/** Opens the journal for a server; where that cannot be, says why in one line and ends the process with code 1. */
export async function openForServing(): Promise<void> {
  try {
    await database()
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error))
    process.exit(1)
  }
}
