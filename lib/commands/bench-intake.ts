import { fork } from 'node:child_process'
import { once } from 'node:events'
import { createReadStream, mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { readFile, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { Readable } from 'node:stream'
import sharp from 'sharp'
import { now } from '#services/clock'
import { database } from '#services/database/open-database'
import { keepPhotos } from '#services/intake/keep-photos'
import { receiveUpload } from '#services/intake/receive-upload'
import { renditionSizes } from '#core/photos/rendition-sizes'
import { openPicture } from '#services/renditions/open-picture'
import {
  renditionsAtOnce,
  renditionsIdle,
} from '#services/renditions/renditions'
import { formOfPhoto } from './form-of-photo'
import { collectionFlags, memoryEnvironment } from './memory-environment'
import { withComment } from './with-comment'

const photoCount = 100
const scenes = 4
const target = 1.15
const targetMebibytes = 400

/**
 * Measures taking in 100 photos of 12 megapixels, until all their renditions are made, against the image library alone
 * making the same renditions of the same files, as many at once. Both in one process that is started as the server is,
 * by turns of ten photos; each photo is sent in a request of its own, as a phone sends them. Memory is that of a process
 * that does nothing else, which is sent all of them by two phones at once. Prints one line of JSON.
 */
export async function benchIntake(): Promise<void> {
  const root = mkdtempSync(path.join(tmpdir(), 'coatbook-bench-'))
  try {
    const photos = await makePhotos(root)
    const { intakeSeconds, sharpSeconds } = JSON.parse(
      await outputOf('bench-intake-times.ts', photos, path.join(root, 'times')),
    ) as { readonly intakeSeconds: number; readonly sharpSeconds: number }
    const peakMebibytes = Number(
      await outputOf(
        'bench-intake-memory.ts',
        photos.slice(1),
        path.join(root, 'memory'),
      ),
    )
    const first = photos[0]
    console.log(
      JSON.stringify({
        bench: 'intake',
        ratio: rounded(intakeSeconds / sharpSeconds),
        target,
        photos: photoCount,
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
  for (let index = 0; index <= photoCount; index += 1) {
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
    const upload = await receiveUpload(
      formOfPhoto.contentType,
      Readable.from(
        formAround(createReadStream(photo) as AsyncIterable<Buffer>),
        { objectMode: false },
      ),
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

/** The body of a request as the server reads it. */
async function* formAround(
  photo: AsyncIterable<Buffer>,
): AsyncGenerator<Buffer> {
  yield formOfPhoto.before
  yield* photo
  yield formOfPhoto.after
}

/** The image library alone: decoded once, each size from the next larger one, the same format, size and effort. */
export async function renderAlone(
  folder: string,
  photos: readonly string[],
): Promise<void> {
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

/** What a program that is started as the server is, with a data folder of its own, prints about these photos. */
async function outputOf(
  program: string,
  photos: readonly string[],
  dataFolder: string,
): Promise<string> {
  const child = fork(path.join('lib', 'commands', program), photos, {
    stdio: ['ignore', 'pipe', 'inherit', 'ipc'],
    execArgv: [...process.execArgv, ...collectionFlags],
    env: { ...process.env, ...memoryEnvironment, COATBOOK_DATA: dataFolder },
  })
  let said = ''
  child.stdout?.on('data', (chunk: Buffer) => {
    said += chunk.toString()
  })
  await once(child, 'close')
  if (child.exitCode !== 0) throw new Error(`taking photos in failed: ${said}`)
  return said.trim()
}

function rounded(value: number): number {
  return Math.round(value * 1000) / 1000
}
