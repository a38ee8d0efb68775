import 'server-only'
import { emptyDueBin } from '#services/bin/empty-bin'
import { now } from '#services/clock'

/** Each look asks itself whether a day has passed; a machine that slept is met soon after it woke. */
const betweenTries = 60 * 60_000

// Kept on the global object: a development server loads modules anew.
const kept = globalThis as typeof globalThis & {
  coatbookBinLooks?: NodeJS.Timeout
}

/** Looks into the bin now and once a day while the program runs, and removes for good what has had its time. */
export function startDailyBinLooks(): void {
  clearInterval(kept.coatbookBinLooks)
  kept.coatbookBinLooks = setInterval(look, betweenTries)
  kept.coatbookBinLooks.unref()
  look()
}

function look(): void {
  emptyDueBin(now()).catch((error: unknown) => {
    // Whatever was not removed goes at the next look.
    console.error('The bin could not be looked after.', error)
  })
}
