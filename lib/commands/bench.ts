import { benchAcknowledge } from './bench-acknowledge'
import { benchAlign } from './bench-align'
import { benchBenchPage } from './bench-bench-page'
import { benchChapters } from './bench-chapters'
import { benchDrying } from './bench-drying'
import { benchFuzz } from './bench-fuzz'
import { benchIntake } from './bench-intake'
import { benchKills } from './bench-kills'
import { benchLoad } from './bench-load'
import { benchPlacing } from './bench-placing'
import { benchPdf, benchSheet } from './bench-sheet'
import { benchTimeline } from './bench-timeline'

/** All benches by name; each prints its figures as JSON, a line each. */
const benches: Readonly<Record<string, () => Promise<void>>> = {
  acknowledge: () => benchAcknowledge(process.cwd()),
  align: benchAlign,
  'bench-page': () => benchBenchPage(process.cwd()),
  chapters: benchChapters,
  drying: benchDrying,
  fuzz: () => benchFuzz(process.cwd()),
  intake: benchIntake,
  kills: () => benchKills(process.cwd()),
  load: () => benchLoad(process.cwd()),
  pdf: benchPdf,
  placing: benchPlacing,
  sheet: benchSheet,
  timeline: () => benchTimeline(process.cwd()),
}

/** Run by name alone: they take an hour, and some minutes. */
const longOnes = ['fuzz', 'load']

const name = process.argv[2]
const chosen = Object.entries(benches).filter(([known]) =>
  name === undefined ? !longOnes.includes(known) : known === name,
)
if (chosen.length === 0) {
  console.error(
    `There is no bench "${name ?? ''}". There are: ${Object.keys(benches).join(', ')}.`,
  )
  process.exitCode = 1
}
for (const [, measure] of chosen) await measure()
