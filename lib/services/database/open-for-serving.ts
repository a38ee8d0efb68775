import 'server-only'
import { now } from '#services/clock'
import { database } from '#services/database/open-database'
import { keepFirstSettings } from '#services/workshop/workshop'

/** Opens the journal for a server; where that cannot be, says why in one line and ends the process with code 1. */
export async function openForServing(): Promise<void> {
  try {
    await database()
    await keepFirstSettings(now())
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error))
    process.exit(1)
  }
}
