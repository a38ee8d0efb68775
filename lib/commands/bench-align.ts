import { readFileSync, readdirSync } from 'node:fs'
import path from 'node:path'
import { performance } from 'node:perf_hooks'
import { z } from 'zod'
import { cornerError } from '#core/geometry/corner-error'
import {
  type Homography,
  composed,
  identity,
  scaling,
} from '#core/geometry/homography'
import {
  type Alignment,
  alignPictures,
  alignmentSide,
} from '#services/alignment/align-pictures'
import {
  type ColourPixels,
  endAlignmentThread,
} from '#services/alignment/alignment-thread'
import { readColourPixels } from '#services/alignment/read-colour-pixels'
import { demoSize, furnitureError, readTruePairs } from './true-pairs'
import { warpedPhoto } from './warped-photo'

const targetSeconds = 1.5
const targetMedianPercent = 0.5
const targetWorstPercent = 1.5
const differentScenes = 100
const targetRefused = 99
const demoPhotos = path.join('prisma', 'demo', 'photos')

/** Errors are in percent of the diagonal; absent after when the pair was refused. */
type Row = {
  readonly kind: 'demo' | 'made'
  readonly pair: string
  readonly errorBefore: number
  readonly errorAfter?: number
  readonly confidence: number
  readonly seconds: number
  readonly processorSeconds: number
}

/**
 * How near alignment comes to the truth, how sure it is, and how long it takes: the pairs of the demo, pairs made by
 * warping, recolouring, relighting and partly hiding the demo's photos and, where COATBOOK_CAMERA_PHOTOS names a folder,
 * those of real cameras; then 100 pairs of different scenes, which are to be refused. Time is from a file of 1440 pixels to
 * the answer, and beside it the processor's time, which other work on the machine changes less. Prints a line of JSON for
 * each pair and one for all.
 */
export async function benchAlign(): Promise<void> {
  const cameras = cameraPhotos()
  if (cameras.length === 0) {
    console.error(
      'COATBOOK_CAMERA_PHOTOS names no folder of photos: none used.',
    )
  }
  // The first pair pays for what is loaded once.
  const first = await pixelsOf(path.join(demoPhotos, scenes()[0]?.file ?? ''))
  await alignPictures(first, first)
  const rows: Row[] = []
  for (const row of [benchDemo(), benchMade(cameras)]) {
    for await (const one of row) {
      console.log(JSON.stringify({ bench: 'align', ...one }))
      rows.push(one)
    }
  }
  const refused = await refusedScenes(cameras)
  await endAlignmentThread()
  for (const kind of ['demo', 'made'] as const) {
    const some = rows.filter((row) => row.kind === kind)
    const errors = some
      .flatMap(({ errorAfter }) => errorAfter ?? [])
      .toSorted((one, other) => one - other)
    console.log(
      JSON.stringify({
        bench: 'align',
        all: kind,
        pairs: some.length,
        accepted: errors.length,
        medianErrorPercent: rounded(errors[errors.length >> 1] ?? NaN),
        targetMedianPercent,
        worstErrorPercent: rounded(errors.at(-1) ?? NaN),
        targetWorstPercent,
        worseThanNone: some.filter(
          ({ errorBefore, errorAfter }) =>
            errorAfter !== undefined && errorAfter > errorBefore,
        ).length,
        longestSeconds: Math.max(...some.map(({ seconds }) => seconds)),
        longestProcessorSeconds: Math.max(
          ...some.map(({ processorSeconds }) => processorSeconds),
        ),
        targetSeconds,
      }),
    )
  }
  console.log(
    JSON.stringify({
      bench: 'align',
      all: 'different scenes',
      pairs: differentScenes,
      refused,
      targetRefused,
    }),
  )
}

async function* benchDemo(): AsyncGenerator<Row> {
  const scale = alignmentSide / demoSize.width
  for (const pair of readTruePairs()) {
    const { alignment, ...times } = await timed(
      () => pixelsOf(path.join(demoPhotos, pair.before)),
      () => pixelsOf(path.join(demoPhotos, pair.after)),
    )
    yield {
      kind: 'demo',
      pair: pair.pair,
      errorBefore: percent(furnitureError(pair)),
      ...errorOf(alignment, (homography) =>
        furnitureError(
          pair,
          composed(scaling(1 / scale), composed(homography, scaling(scale))),
        ),
      ),
      confidence: rounded(alignment.confidence),
      ...times,
    }
  }
}

async function* benchMade(cameras: readonly string[]): AsyncGenerator<Row> {
  const demo = scenes().map(({ file }) => path.join(demoPhotos, file))
  for (const [index, file] of [...demo, ...cameras].entries()) {
    const before = await pixelsOf(file)
    const { picture, truth } = warpedPhoto(before, index + 1)
    const { alignment, ...times } = await timed(
      () => pixelsOf(file),
      () => Promise.resolve(picture),
    )
    const error = (homography: Homography) =>
      cornerError(homography, truth, picture) /
      Math.hypot(before.width, before.height)
    yield {
      kind: 'made',
      pair: path.basename(file),
      errorBefore: percent(error(identity)),
      ...errorOf(alignment, error),
      confidence: rounded(alignment.confidence),
      ...times,
    }
  }
}

function errorOf(
  alignment: Alignment,
  error: (homography: Homography) => number,
): { readonly errorAfter?: number } {
  return alignment.accepted
    ? { errorAfter: percent(error(alignment.homography)) }
    : {}
}

/** Of so many pairs of different scenes, how many are refused. */
async function refusedScenes(cameras: readonly string[]): Promise<number> {
  const known = [
    ...scenes().map(({ file, scene }) => ({
      file: path.join(demoPhotos, file),
      scene,
    })),
    ...cameras.map((file) => ({ file, scene: file })),
  ]
  const pairs = known
    .flatMap((one, index) =>
      known
        .slice(index + 1)
        .filter((other) => other.scene !== one.scene)
        .map((other) => [one.file, other.file] as const),
    )
    // Spread over all of them, the same ones each time.
    .map((pair, index) => ({ pair, order: (index * 48_271) % 65_537 }))
    .toSorted((one, other) => one.order - other.order)
    .slice(0, differentScenes)
  let refused = 0
  for (const { pair } of pairs) {
    const [before, after] = pair
    const alignment = await alignPictures(
      await pixelsOf(before),
      await pixelsOf(after),
    )
    if (alignment.accepted) {
      console.log(
        JSON.stringify({ bench: 'align', wronglyAccepted: pair, ...alignment }),
      )
    } else {
      refused += 1
    }
  }
  return refused
}

/** The demo's photos with what they show: the views from above of one piece are one scene. */
function scenes(): readonly {
  readonly file: string
  readonly scene: string
}[] {
  const photos = z
    .array(z.object({ file: z.string(), job: z.string(), view: z.string() }))
    .parse(
      JSON.parse(
        readFileSync(path.join('prisma', 'demo', 'photos.json'), 'utf8'),
      ),
    )
  return photos.map(({ file, job, view }) => ({
    file,
    scene: `${job} ${view === 'high' ? 'top' : view}`,
  }))
}

function cameraPhotos(): readonly string[] {
  const folder = process.env['COATBOOK_CAMERA_PHOTOS']
  if (folder === undefined || folder === '') return []
  return readdirSync(folder)
    .filter((name) => /^(?!.*(?:orientation|flir|tiny)).*\.jpe?g$/.test(name))
    .map((name) => path.join(folder, name))
}

function pixelsOf(file: string): Promise<ColourPixels> {
  return readColourPixels(file, alignmentSide)
}

async function timed(
  before: () => Promise<ColourPixels>,
  after: () => Promise<ColourPixels>,
) {
  const start = performance.now()
  const used = process.cpuUsage()
  const alignment = await alignPictures(await before(), await after())
  const { user, system } = process.cpuUsage(used)
  return {
    alignment,
    seconds: rounded((performance.now() - start) / 1000),
    processorSeconds: rounded((user + system) / 1_000_000),
  }
}

function percent(share: number): number {
  return rounded(share * 100)
}

function rounded(value: number): number {
  return Math.round(value * 1000) / 1000
}
