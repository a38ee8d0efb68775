import { closeDatabase } from '#services/database/open-database'
import { makeBenchJob, takeIn } from './bench-intake'

/**
 * Takes in the photos that are named, in a process of its own, and prints the largest resident size it saw, in
 * mebibytes. It looks every few milliseconds, because the size that the system remembers begins with the parent's.
 */
let peak = 0
const watch = setInterval(() => {
  peak = Math.max(peak, process.memoryUsage.rss())
}, 5)
const job = await makeBenchJob()
for (const photo of process.argv.slice(2)) await takeIn(job, [photo])
clearInterval(watch)
await closeDatabase()
console.log(Math.round(peak / 1_048_576))
