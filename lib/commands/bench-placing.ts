import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import {
  type Rating,
  type Score,
  scoreTogether,
} from '#core/placing/rate-proposals'
import { readCameras, setCameraClock } from '#services/cameras/cameras'
import { closeDatabase } from '#services/database/open-database'
import { ratePlacing } from '#services/placing/rate-placing'
import { loadDemo } from './load-demo'

/** How far the demo's second camera was set behind when its photos were stamped. */
const demoClock = { correctionSeconds: 67 * 60, uncertaintySeconds: 30 }

/**
 * How often the first proposal for a photo of the demo is right, with what its owner said hidden and nothing learnt from
 * the job itself, beside the plain rule "the same as the photo before". Strictly: the role of a before or after; the
 * kind, the coat and all the surfaces of a step. Prints a line of JSON with the demo as it comes, where one camera's
 * clock is wrong, and one with that clock checked.
 */
export async function benchPlacing(): Promise<void> {
  const folder = mkdtempSync(path.join(tmpdir(), 'coatbook-bench-'))
  process.env['COATBOOK_DATA'] = folder
  try {
    await loadDemo(folder)
    report('as it comes', await ratePlacing())
    for (const camera of await readCameras()) {
      if (camera.name.includes('Camera B')) {
        await setCameraClock(camera.id, demoClock)
      }
    }
    report('with clocks checked', await ratePlacing())
  } finally {
    await closeDatabase()
    rmSync(folder, { recursive: true, force: true })
  }
}

function report(demo: string, ratings: readonly Rating[]): void {
  const together = (score: (rating: Rating) => Score) =>
    scoreTogether(ratings.map(score))
  const inTurn = together((rating) => rating.inTurn)
  const plainInTurn = together((rating) => rating.plainInTurn)
  const confidences = ratings.flatMap((rating) => rating.confidences)
  console.log(
    JSON.stringify({
      bench: 'placing',
      demo,
      photos: inTurn.photos,
      right: inTurn.right,
      plainRight: plainInTurn.right,
      inTurn,
      plainInTurn,
      atOnce: together((rating) => rating.atOnce),
      plainAtOnce: together((rating) => rating.plainAtOnce),
      // What the confidences at once promise on the whole, and what came of it.
      meanConfidence: mean(confidences.map((one) => one.confidence)),
      shareRight: mean(confidences.map((one) => Number(one.isRight))),
    }),
  )
}

function mean(values: readonly number[]): number {
  const sum = values.reduce((all, one) => all + one, 0)
  return Number((sum / values.length).toFixed(3))
}
