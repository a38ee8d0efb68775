import 'server-only'
import path from 'node:path'
import { Worker } from 'node:worker_threads'
import type { Match } from '#core/geometry/fit-map'
import type { Homography } from '#core/geometry/homography'
import type { GreyOverlap } from '#core/geometry/mutual-information'

/** Red, green and blue pixels, row after row, one byte each. */
export type ColourPixels = {
  readonly data: Uint8Array
  readonly width: number
  readonly height: number
}

/** How much one alignment may take before it is given up. */
export type AlignmentLimits = {
  readonly milliseconds: number
  /** Of OpenCV's own memory: a pair of 4:3 pictures takes some 130 MB. */
  readonly bytes: number
}

/** Where one picture may lie over the other, as the search found it. */
export type Candidate = {
  /** The cosine of the two edge fields: 1 for the same picture, about 0.2 for any two. */
  readonly score: number
  readonly homography: Homography
}

/** A patch of the after found again in the before. */
export type PatchMatch = Match & {
  /** -1 to 1. */
  readonly likeness: number
  /** The part of it that changed colour beyond the light, 0 to 1. */
  readonly changed: number
}

/** How patches are looked for. */
export type PatchSearch = {
  /** Longer side in pixels of the reduced pictures that it happens in. */
  readonly side: number
  /** Half the side of a patch, and how far around it is looked, in their pixels. */
  readonly half: number
  readonly radius: number
}

/** A thread that sees: OpenCV, with no picture in it at first. All maps take the after's pixels to the before's. */
export type AlignmentThread = {
  /** Takes in a pair, which the next four then look at. */
  readonly open: (before: ColourPixels, after: ColourPixels) => Promise<void>
  readonly search: () => Promise<readonly Candidate[]>
  readonly features: (side: number) => Promise<readonly Match[]>
  readonly patches: (
    homography: Homography,
    how: PatchSearch,
  ) => Promise<readonly PatchMatch[]>
  readonly overlap: (
    homography: Homography,
    side: number,
  ) => Promise<GreyOverlap>
  /** A picture brought through a map into a frame of so many pixels; past its rim it goes on as the rim. */
  readonly warp: (
    picture: ColourPixels,
    homography: Homography,
    frame: { readonly width: number; readonly height: number },
  ) => Promise<ColourPixels>
}

const usualLimits: AlignmentLimits = {
  milliseconds: 60_000,
  bytes: 384 * 1024 * 1024,
}

/**
 * OpenCV keeps what it once took: after so many pieces of work a thread that took more than it began with is ended and its
 * memory given back.
 */
const worksAThread = 40
/** And when there has been no work for so long. */
const idleMilliseconds = 30_000

/** A running thread, and what it has done. */
type Running = {
  readonly worker: Worker
  readonly bytes: number
  works: number
  resting?: NodeJS.Timeout
}

// Kept on the global object: a development server loads modules anew, and two threads would take the memory twice.
const kept = globalThis as typeof globalThis & {
  coatbookAlignment?: { running?: Running; line: Promise<unknown> }
}

/**
 * Does some work in the thread, which is started if need be. One piece of work is done at a time; others wait.
 *
 * @throws Error when it takes more time or memory than the limits, and whatever the work throws
 */
export async function withAlignmentThread<Found>(
  work: (thread: AlignmentThread) => Promise<Found>,
  limits: AlignmentLimits = usualLimits,
): Promise<Found> {
  const state = (kept.coatbookAlignment ??= { line: Promise.resolve() })
  const turn = state.line.then(() => alone(work, limits))
  state.line = turn.catch(() => undefined)
  return turn
}

/** Ends the thread, if there is one, once what is under way is done. */
export async function endAlignmentThread(): Promise<void> {
  await kept.coatbookAlignment?.line
  await end()
}

async function alone<Found>(
  work: (thread: AlignmentThread) => Promise<Found>,
  limits: AlignmentLimits,
): Promise<Found> {
  const running = await started(limits)
  clearTimeout(running.resting)
  running.worker.ref()
  const until = performance.now() + limits.milliseconds
  const ask = <Answer>(message: Record<string, unknown>) =>
    answerTo<Answer>(running.worker, message, until - performance.now())
  try {
    const found = await work({
      open: async (before, after) => {
        await ask({ task: 'open', before, after })
      },
      search: async () =>
        (await ask<{ candidates: readonly Candidate[] }>({ task: 'search' }))
          .candidates,
      features: async (side) =>
        matchesOf(await ask<Rows>({ task: 'features', side })),
      patches: async (homography, how) =>
        patchesOf(await ask<Rows>({ task: 'patches', homography, ...how })),
      overlap: (homography, side) =>
        ask<GreyOverlap>({ task: 'overlap', homography, side }),
      warp: async (picture, homography, { width, height }) => {
        const warped = await ask<{ data: Uint8Array }>({
          task: 'warp',
          picture,
          homography,
          width,
          height,
        })
        return { data: warped.data, width, height }
      },
    })
    running.works += 1
    const isDue =
      running.works >= worksAThread &&
      (await ask<{ hasGrown: boolean }>({ task: 'grown' })).hasGrown
    if (isDue) await end()
    else rest(running)
    return found
  } catch (error) {
    // Whatever went wrong, its memory is not to be trusted with the next pair.
    await end()
    throw error
  }
}

async function started(limits: AlignmentLimits): Promise<Running> {
  const running = kept.coatbookAlignment?.running
  if (running !== undefined && running.bytes === limits.bytes) return running
  await end()
  const worker = new Worker(
    path.join(
      /* turbopackIgnore: true */ process.cwd(),
      'lib',
      'services',
      'alignment',
      'alignment-worker.mjs',
    ),
    {
      workerData: { maximumBytes: limits.bytes },
      // None of this program's own: a loader that it was started with has no work there.
      execArgv: [],
      resourceLimits: { maxOldGenerationSizeMb: 192 },
    },
  )
  const fresh: Running = { worker, bytes: limits.bytes, works: 0 }
  // Also one that ends while nobody asks anything of it, which is then no error of anybody's.
  worker.on('error', () => undefined)
  worker.once('exit', () => {
    clearTimeout(fresh.resting)
    if (kept.coatbookAlignment?.running === fresh) {
      delete kept.coatbookAlignment.running
    }
  })
  if (kept.coatbookAlignment !== undefined) {
    kept.coatbookAlignment.running = fresh
  }
  return fresh
}

/** Lets the program end, and the thread after a while. */
function rest(running: Running): void {
  running.worker.unref()
  running.resting = setTimeout(() => {
    void end()
  }, idleMilliseconds)
  running.resting.unref()
}

async function end(): Promise<void> {
  const running = kept.coatbookAlignment?.running
  if (running === undefined) return
  clearTimeout(running.resting)
  delete kept.coatbookAlignment?.running
  await running.worker.terminate()
}

function answerTo<Answer>(
  worker: Worker,
  message: Record<string, unknown>,
  milliseconds: number,
): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const settle = (done: () => void) => {
      clearTimeout(patience)
      worker.off('message', answered)
      worker.off('error', failed)
      worker.off('exit', ended)
      done()
    }
    const answered = (answer: Answer & { readonly failure?: string }) => {
      const { failure } = answer
      settle(() => {
        if (failure === undefined) resolve(answer)
        else reject(new Error(`the alignment failed: ${failure}`))
      })
    }
    const failed = (error: Error) => {
      settle(() => {
        reject(error)
      })
    }
    const ended = () => {
      failed(new Error('the alignment ended without an answer'))
    }
    const patience = setTimeout(() => {
      failed(new Error('the alignment took too long'))
    }, milliseconds)
    worker.on('message', answered)
    worker.on('error', failed)
    worker.on('exit', ended)
    worker.postMessage(message)
  })
}

type Rows = { readonly matches: Float64Array }

function matchesOf({ matches }: Rows): readonly Match[] {
  return rowsOf(matches, 4).map(([x = 0, y = 0, u = 0, v = 0]) => ({
    from: { x, y },
    to: { x: u, y: v },
  }))
}

function patchesOf({ matches }: Rows): readonly PatchMatch[] {
  return rowsOf(matches, 6).map(
    ([x = 0, y = 0, u = 0, v = 0, likeness = 0, changed = 0]) => ({
      from: { x, y },
      to: { x: u, y: v },
      likeness,
      changed,
    }),
  )
}

function rowsOf(numbers: Float64Array, width: number): number[][] {
  return Array.from({ length: numbers.length / width }, (_, row) => [
    ...numbers.subarray(row * width, (row + 1) * width),
  ])
}
