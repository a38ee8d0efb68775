import { benchBenchPage } from './bench-bench-page'
import { benchDrying } from './bench-drying'
import { benchIntake } from './bench-intake'

/** All benches by name; each prints its figures as JSON, a line each. */
const benches: Readonly<Record<string, () => Promise<void>>> = {
  'bench-page': () => benchBenchPage(process.cwd()),
  drying: benchDrying,
  intake: benchIntake,
}

const name = process.argv[2]
const chosen = Object.entries(benches).filter(
  ([known]) => name === undefined || known === name,
)
if (chosen.length === 0) {
  console.error(
    `There is no bench "${name ?? ''}". There are: ${Object.keys(benches).join(', ')}.`,
  )
  process.exitCode = 1
}
for (const [, measure] of chosen) await measure()
