import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { performance } from 'node:perf_hooks'
import { closeDatabase } from '#services/database/open-database'
import { makeBenchJob, renderAlone, takeIn } from './bench-intake'

/**
 * Takes in the photos that are named and renders them with the image library alone, by turns of ten, and prints how many
 * seconds each took in all, as JSON. The first photo is for what is loaded once, and is not counted.
 */
const photosARound = 10
const folder = mkdtempSync(path.join(tmpdir(), 'coatbook-alone-'))
const [first = '', ...photos] = process.argv.slice(2)
const job = await makeBenchJob()
await takeIn(job, [first])
await renderAlone(folder, [first])
let intakeSeconds = 0
let sharpSeconds = 0
for (let start = 0; start < photos.length; start += photosARound) {
  const some = photos.slice(start, start + photosARound)
  intakeSeconds += await timed(() => takeIn(job, some))
  sharpSeconds += await timed(() => renderAlone(folder, some))
}
await closeDatabase()
rmSync(folder, { recursive: true, force: true })
console.log(JSON.stringify({ intakeSeconds, sharpSeconds }))

async function timed(work: () => Promise<void>): Promise<number> {
  const start = performance.now()
  await work()
  return (performance.now() - start) / 1000
}
