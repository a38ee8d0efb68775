import { closeDatabase } from '#services/database/open-database'
import { makeBenchJob, takeIn } from './bench-intake'

/**
 * Takes in the photos that are named, from two phones at once and as fast as it takes them, in a process of its own, and
 * prints the largest resident size it saw, in mebibytes. It looks every few milliseconds, because the size that the
 * system remembers begins with the parent's.
 */
let peak = 0
const watch = setInterval(() => {
  peak = Math.max(peak, process.memoryUsage.rss())
}, 5)
const job = await makeBenchJob()
const photos = process.argv.slice(2)
const halves = [0, 1].map((half) =>
  photos.filter((_, index) => index % 2 === half),
)
await Promise.all(halves.map((half) => takeIn(job, half)))
clearInterval(watch)
await closeDatabase()
console.log(Math.round(peak / 1_048_576))
