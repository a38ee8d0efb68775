import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { performance } from 'node:perf_hooks'
import { paperShapes, sheetShapes } from '#core/sheets/plan-sheet'
import { endAlignmentThread } from '#services/alignment/alignment-thread'
import { closeDatabase, database } from '#services/database/open-database'
import { openPicture } from '#services/renditions/open-picture'
import { makePaperSheet } from '#services/sheets/make-paper-sheet'
import { makeSheet } from '#services/sheets/make-sheet'
import { forgetPairsAtHand } from '#services/sheets/sheet-content'
import { loadDemo } from './load-demo'

const rounds = 9
const target = 2
const demoPhotos = path.join('prisma', 'demo', 'photos', 'job-a')
const [beforeFile, afterFile] = ['01-before-front.jpg', '30-after-front.jpg']
const quality = { quality: 88, chromaSubsampling: '4:4:4' } as const

/**
 * How long a square sheet of the demo's front takes, against the image library alone putting the same two pictures one
 * above the other and writing the same kind of file: when the pair was laid on each other a moment ago, as whoever tries
 * designs has it, and when that is to be done first. Prints a line of JSON for each.
 */
export async function benchSheet(): Promise<void> {
  await withDemo(async (job, chosen) => {
    const { width, height } = sheetShapes['1x1']
    const floor = () => composed(width, height)
    const sheet = async () => {
      await made(makeSheet(job, '1x1', 'jpg', chosen))
    }
    for (const isLaid of [true, false]) {
      await report('sheet', { shape: '1x1.jpg', isLaid, target }, floor, () => {
        if (!isLaid) forgetPairsAtHand()
        return sheet()
      })
    }
  })
}

/** The same for paper: the two pictures written as JPEG at 300 dots an inch, against the whole PDF around them. */
export async function benchPdf(): Promise<void> {
  await withDemo(async (job, chosen) => {
    for (const paper of ['a4', 'letter'] as const) {
      const { width, height } = paperShapes[paper]
      const floor = () => composed(width, height)
      const make = () => made(makePaperSheet(job, paper, chosen))
      const bytes = await make()
      await report('pdf', { paper, bytes, isLaid: true }, floor, async () => {
        await make()
      })
    }
  })
}

async function withDemo(
  measure: (
    job: string,
    chosen: { readonly before: string; readonly after: string },
  ) => Promise<void>,
): Promise<void> {
  const folder = await mkdtemp(path.join(tmpdir(), 'coatbook-bench-'))
  process.env['COATBOOK_DATA'] = folder
  try {
    await loadDemo(folder)
    const db = await database()
    const photo = (fileName: string) =>
      db.photo.findFirstOrThrow({
        where: { fileName },
        select: { id: true, jobId: true },
      })
    const before = await photo(beforeFile)
    const after = await photo(afterFile)
    await measure(before.jobId, { before: before.id, after: after.id })
  } finally {
    await endAlignmentThread()
    await closeDatabase()
    await rm(folder, { recursive: true, force: true })
  }
}

/** The two pictures, each as wide as the sheet and half as high, one above the other. */
async function composed(width: number, height: number): Promise<void> {
  const half = Math.floor(height / 2)
  const halves = await Promise.all(
    [beforeFile, afterFile].map((file) =>
      openPicture(path.join(demoPhotos, file))
        .autoOrient()
        .resize({ width, height: half, fit: 'cover' })
        .raw()
        .toBuffer({ resolveWithObject: true }),
    ),
  )
  await openPicture(Buffer.alloc(width * height * 3, 255), {
    raw: { width, height, channels: 3 },
  })
    .composite(
      halves.map(({ data, info }, index) => ({
        input: data,
        raw: { width: info.width, height: info.height, channels: 3 },
        left: 0,
        top: index * half,
      })),
    )
    .removeAlpha()
    .jpeg(quality)
    .toBuffer()
}

/** @returns the size of the file in bytes */
async function made(making: ReturnType<typeof makeSheet>): Promise<number> {
  const sheet = await making
  if (!sheet.ok) throw new Error(sheet.refusal.detail)
  return sheet.value.bytes.byteLength
}

/** Takes turns, so that other work on the machine slows both. */
async function report(
  bench: string,
  facts: Readonly<Record<string, unknown>>,
  floor: () => Promise<void>,
  work: () => Promise<void>,
): Promise<void> {
  await floor()
  await work()
  const floors: number[] = []
  const works: number[] = []
  for (let round = 0; round < rounds; round += 1) {
    floors.push(await milliseconds(floor))
    works.push(await milliseconds(work))
  }
  const [one, other] = [median(floors), median(works)]
  console.log(
    JSON.stringify({
      bench,
      ...facts,
      floorMilliseconds: Math.round(one),
      milliseconds: Math.round(other),
      ratio: Math.round((other / one) * 100) / 100,
    }),
  )
}

async function milliseconds(work: () => Promise<void>): Promise<number> {
  const start = performance.now()
  await work()
  return performance.now() - start
}

function median(values: readonly number[]): number {
  return values.toSorted((one, other) => one - other)[values.length >> 1] ?? NaN
}
