import { fork } from 'node:child_process'
import { once } from 'node:events'
import { mkdirSync, mkdtempSync, openAsBlob, rmSync } from 'node:fs'
import { readFile, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { performance } from 'node:perf_hooks'
import sharp from 'sharp'
import { now } from '#services/clock'
import { closeDatabase, database } from '#services/database/open-database'
import { keepPhotos } from '#services/intake/keep-photos'
import { receiveUpload } from '#services/intake/receive-upload'
import { renditionSizes } from '#core/photos/rendition-sizes'
import { openPicture } from '#services/renditions/open-picture'
import {
  renditionsAtOnce,
  renditionsIdle,
} from '#services/renditions/renditions'
import { collectionFlags, memoryEnvironment } from './memory-environment'
import { withComment } from './with-comment'

const rounds = 10
const photosARound = 10
const scenes = 4
const target = 1.15
const targetMebibytes = 400

/**
 * Measures taking in 100 photos of 12 megapixels, until all their renditions are made, against the image library alone
 * making the same renditions of the same files, as many at once. Both in this process, by turns of ten photos; each
 * photo is sent in a request of its own, as a phone sends them. Memory is that of a process that does nothing else, which
 * is sent all of them by two phones at once. Prints one line of JSON.
 */
export async function benchIntake(): Promise<void> {
  const root = mkdtempSync(path.join(tmpdir(), 'coatbook-bench-'))
  const before = process.env['COATBOOK_DATA']
  process.env['COATBOOK_DATA'] = path.join(root, 'data')
  try {
    const photos = await makePhotos(root)
    const job = await makeBenchJob()
    const times = { intake: [] as number[], alone: [] as number[] }
    // The first photo of each pays for what is loaded once.
    await takeIn(job, photos.slice(0, 1))
    await renderAlone(root, photos.slice(0, 1))
    for (let round = 0; round < rounds; round += 1) {
      const start = 1 + round * photosARound
      const some = photos.slice(start, start + photosARound)
      times.intake.push(await timed(() => takeIn(job, some)))
      times.alone.push(await timed(() => renderAlone(root, some)))
    }
    const intakeSeconds = sum(times.intake)
    const sharpSeconds = sum(times.alone)
    const peakMebibytes = await peakOf(root, photos.slice(1))
    const first = photos[0]
    console.log(
      JSON.stringify({
        bench: 'intake',
        ratio: rounded(intakeSeconds / sharpSeconds),
        target,
        photos: rounds * photosARound,
        megabytesEach:
          first === undefined
            ? 0
            : rounded((await readFile(first)).byteLength / 1_000_000),
        atOnce: renditionsAtOnce,
        intakeSeconds: rounded(intakeSeconds),
        sharpSeconds: rounded(sharpSeconds),
        peakMebibytes,
        targetMebibytes,
      }),
    )
  } finally {
    await closeDatabase()
    if (before === undefined) delete process.env['COATBOOK_DATA']
    else process.env['COATBOOK_DATA'] = before
    rmSync(root, { recursive: true, force: true })
  }
}

async function makePhotos(root: string): Promise<readonly string[]> {
  const folder = path.join(root, 'photos')
  mkdirSync(folder)
  const bases: Buffer[] = []
  for (let scene = 0; scene < scenes; scene += 1) {
    bases.push(await makeScene(scene))
  }
  const files: string[] = []
  for (let index = 0; index <= rounds * photosARound; index += 1) {
    const base = bases[index % scenes] ?? Buffer.alloc(0)
    const file = path.join(folder, `${String(index)}.jpg`)
    await writeFile(file, withComment(base, `photo ${String(index)}`))
    files.push(file)
  }
  return files
}

/** 4032 x 3024 pixels of soft grain over large shapes: it compresses about as well as a photo of a workshop. */
export async function makeScene(scene: number, quality = 88): Promise<Buffer> {
  const size = { width: 4032, height: 3024 }
  const grain = await openPictureOf({
    ...size,
    noise: { type: 'gaussian', mean: 128, sigma: 26 },
  })
    .blur(0.9)
    .png({ compressionLevel: 1 })
    .toBuffer()
  const shape = await openPictureOf({
    width: 2600,
    height: 1400,
    background: { r: 30 + scene * 40, g: 110, b: 120 },
  })
    .png()
    .toBuffer()
  return openPicture(grain)
    .composite([{ input: shape, left: 700, top: 900, blend: 'soft-light' }])
    .withExif({
      IFD0: { Make: 'Alder', Model: 'Bench phone' },
      IFD2: {
        DateTimeOriginal: '2026:10:22 09:02:10',
        OffsetTimeOriginal: '+01:00',
      },
    })
    .jpeg({ quality })
    .toBuffer()
}

function openPictureOf(create: {
  readonly width: number
  readonly height: number
  readonly background?: { r: number; g: number; b: number }
  readonly noise?: { type: 'gaussian'; mean: number; sigma: number }
}) {
  return sharp({
    create: { channels: 3, background: { r: 128, g: 128, b: 128 }, ...create },
  })
}

/** A job for photos to go to. */
export async function makeBenchJob(): Promise<string> {
  const db = await database()
  const job = await db.job.create({
    data: { id: 'bench', title: 'Bench', createdAt: new Date(now()) },
    select: { id: true },
  })
  return job.id
}

/** Takes photos in, each in a request of its own, and waits for their renditions. */
export async function takeIn(
  job: string,
  photos: readonly string[],
): Promise<void> {
  for (const photo of photos) {
    const form = new FormData()
    form.append('file', await openAsBlob(photo), path.basename(photo))
    const request = new Request('http://localhost/', {
      method: 'POST',
      body: form,
    })
    const upload = await receiveUpload(
      request.headers.get('content-type') ?? '',
      request.body,
    )
    const kept = upload.ok ? await keepPhotos(job, upload.value, now()) : upload
    if (!kept.ok || kept.value.photos.length !== 1) {
      throw new Error(
        `the photo ${photo} was not kept: ${JSON.stringify(kept)}`,
      )
    }
  }
  await renditionsIdle()
}

/** The image library alone: decoded once, each size from the next larger one, the same format, size and effort. */
async function renderAlone(
  root: string,
  photos: readonly string[],
): Promise<void> {
  const folder = path.join(root, 'alone')
  mkdirSync(folder, { recursive: true })
  const waiting = [...photos]
  const work = async () => {
    for (
      let photo = waiting.shift();
      photo !== undefined;
      photo = waiting.shift()
    ) {
      let picture = sharp(photo).autoOrient()
      for (const longSide of Object.values(renditionSizes)) {
        const { data, info } = await picture
          .resize({ width: longSide, height: longSide, fit: 'inside' })
          .raw()
          .toBuffer({ resolveWithObject: true })
        const { width, height, channels } = info
        const raw = { width, height, channels }
        const name = `${path.basename(photo)}-${String(longSide)}.webp`
        await sharp(data, { raw })
          .webp({ quality: 80, effort: 2 })
          .toFile(path.join(folder, name))
        picture = sharp(data, { raw })
      }
    }
  }
  await Promise.all(Array.from({ length: renditionsAtOnce }, work))
}

/** The largest resident size of a process that only takes photos in, started as the server is; in mebibytes. */
async function peakOf(
  root: string,
  photos: readonly string[],
): Promise<number> {
  const program = path.join('lib', 'commands', 'bench-intake-memory.ts')
  const child = fork(program, photos, {
    stdio: ['ignore', 'pipe', 'inherit', 'ipc'],
    execArgv: [...process.execArgv, ...collectionFlags],
    env: {
      ...process.env,
      ...memoryEnvironment,
      COATBOOK_DATA: path.join(root, 'memory'),
    },
  })
  let said = ''
  child.stdout?.on('data', (chunk: Buffer) => {
    said += chunk.toString()
  })
  await once(child, 'close')
  if (child.exitCode !== 0) throw new Error(`taking photos in failed: ${said}`)
  return Number(said.trim())
}

async function timed(work: () => Promise<void>): Promise<number> {
  const start = performance.now()
  await work()
  return (performance.now() - start) / 1000
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0)
}

function rounded(value: number): number {
  return Math.round(value * 1000) / 1000
}
