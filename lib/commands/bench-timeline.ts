import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { type Page, chromium } from '@playwright/test'
import sharp from 'sharp'
import { type Instant, addMinutes } from '#core/units'
import { now } from '#services/clock'
import { toDate } from '#services/database/instants'
import { newId } from '#services/database/new-id'
import { closeDatabase, database } from '#services/database/open-database'
import { addJob } from '#services/jobs/jobs'
import { renditionNames, renditionSizes } from '#core/photos/rendition-sizes'
import { renditionPlace } from '#services/renditions/renditions'
import { buildIfChanged } from './build-if-changed'
import { findBrowser } from './find-browser'
import { freePort, ipv4Loopback } from './loopback'
import { spawnServer, untilReady } from './spawn-server'

const photoCount = 400
const stepCount = 60
const surfaceNames = ['body', 'top', 'doors', 'drawer fronts', 'legs', 'inside']
/** A step every two hours: with nights and all, five days of work. */
const minutesBetweenSteps = 120
/** How many different pictures there are: each photo has a file of its own all the same. */
const pictureCount = 16

const frameMilliseconds = 1000 / 60
/** A frame is late when the screen showed the one before it twice. */
const lateMilliseconds = 1.5 * frameMilliseconds
const target = {
  p95Milliseconds: lateMilliseconds,
  lateShare: 0.05,
} as const
const seconds = 8
/** So far a thumb scrolls in a second without throwing. */
const pixelsPerSecond = 900

/**
 * How smoothly the drawing of a timeline with 400 photos and 60 steps scrolls in a browser: the time between frames while
 * it is scrolled from end to end and back, on a phone's screen and on a desk's, far away and close. Prints a line of JSON
 * for each, with how many of the photos were in the page at most.
 *
 * @param root the folder of this package
 */
export async function benchTimeline(root: string): Promise<void> {
  const executablePath = findBrowser()
  if (executablePath === undefined) throw new Error('there is no Chromium')
  if (!(await buildIfChanged(root))) throw new Error('the build failed')
  const folder = await mkdtemp(path.join(tmpdir(), 'coatbook-bench-'))
  process.env['COATBOOK_DATA'] = folder
  process.env['COATBOOK_DEMO'] = 'off'
  const job = await fillTimeline(now())
  await closeDatabase()
  const port = await freePort()
  const server = spawnServer('start', root, port, {
    COATBOOK_DATA: folder,
    COATBOOK_DEMO: 'off',
  })
  const browser = await chromium.launch({
    executablePath,
    // A browser that runs as root cannot have its own sandbox.
    args: process.getuid?.() === 0 ? ['--no-sandbox'] : [],
  })
  try {
    if (!(await untilReady(server, port))) {
      throw new Error('the server did not start')
    }
    for (const [width, height] of [
      [390, 844],
      [1280, 900],
    ] as const) {
      const page = await browser.newPage({ viewport: { width, height } })
      await page.goto(`http://${ipv4Loopback}:${port}/jobs/${job}/timeline`)
      for (const closer of [2, 3]) {
        const button = page.getByRole('button', { name: 'Closer' })
        for (let times = 0; times < closer; times += 1) await button.click()
        const figures = figuresOf(await scroll(page))
        console.log(
          JSON.stringify({ bench: 'timeline', target, width, ...figures }),
        )
      }
      await page.close()
    }
  } finally {
    await browser.close()
    server.kill('SIGTERM')
    await rm(folder, { recursive: true, force: true })
  }
}

type Scrolled = {
  readonly frames: readonly number[]
  readonly pixels: number
  readonly mostPhotos: number
}

/** Scrolls the drawing from end to end and back, and times its frames. */
function scroll(page: Page): Promise<Scrolled> {
  return page.evaluate(
    async ([length, speed]) => {
      const drawing = document.querySelector('[aria-label^="Drawing of"]')
      if (drawing === null) throw new Error('there is no drawing')
      drawing.scrollIntoView({ block: 'start' })
      drawing.scrollTo({ left: 0 })
      // No function has a name in here: the loader would wrap it in one that the page does not know.
      // The first frames still show what the zoom has drawn.
      for (let idle = 0; idle < 30; idle += 1)
        await new Promise(requestAnimationFrame)
      const frames: number[] = []
      let mostPhotos = 0
      let toward = 1
      let left = 0
      const began = await new Promise<number>(requestAnimationFrame)
      let before = began
      while (before - began < length * 1000) {
        const at = await new Promise<number>(requestAnimationFrame)
        frames.push(at - before)
        left += (toward * speed * (at - before)) / 1000
        before = at
        const end = drawing.scrollWidth - drawing.clientWidth
        if (left >= end || left <= 0) toward = left <= 0 ? 1 : -1
        drawing.scrollTo({ left })
        mostPhotos = Math.max(
          mostPhotos,
          drawing.getElementsByTagName('img').length,
        )
      }
      return { frames, pixels: drawing.scrollWidth, mostPhotos }
    },
    [seconds, pixelsPerSecond] as const,
  )
}

function figuresOf({ frames, pixels, mostPhotos }: Scrolled) {
  const sorted = frames.toSorted((one, other) => one - other)
  const at = (share: number) =>
    Number((sorted[Math.floor(share * sorted.length)] ?? NaN).toFixed(1))
  const late = frames.filter((frame) => frame > lateMilliseconds).length
  return {
    pixels,
    frames: frames.length,
    p50Milliseconds: at(0.5),
    p95Milliseconds: at(0.95),
    lateShare: Number((late / frames.length).toFixed(3)),
    mostPhotosInPage: mostPhotos,
    photos: photoCount,
  }
}

/** A job with its steps and photos, straight through the database, and a picture for each photo. */
async function fillTimeline(present: Instant): Promise<string> {
  const began = addMinutes(present, -(stepCount + 1) * minutesBetweenSteps)
  const job = await addJob(
    {
      title: 'Dresser',
      pieces: [{ name: 'dresser', kind: 'dresser', surfaces: surfaceNames }],
    },
    began,
  )
  const surfaces = job.pieces[0]?.surfaces ?? []
  const steps = Array.from({ length: stepCount }, (_, index) => {
    const at = addMinutes(began, index * minutesBetweenSteps)
    return {
      id: newId(),
      at,
      surfaceId: surfaces[index % surfaces.length]?.id ?? '',
      coat: 1 + Math.floor(index / surfaces.length),
    }
  })
  const photos = Array.from({ length: photoCount }, (_, index) => {
    const step = steps[index % stepCount]
    const id = newId()
    return {
      id,
      sha256: `${id}${newId()}`.replaceAll('-', ''),
      step,
      at: addMinutes(step?.at ?? began, 3 * Math.floor(index / stepCount)),
    }
  })
  const db = await database()
  await db.$transaction(async (transaction) => {
    await transaction.step.createMany({
      data: steps.map(({ id, at }) => ({
        id,
        jobId: job.id,
        kind: 'coat',
        startedAt: toDate(at),
        finishedAt: toDate(addMinutes(at, 25)),
        createdAt: toDate(at),
      })),
    })
    await transaction.stepSurface.createMany({
      data: steps.map(({ id, surfaceId, coat }) => ({
        stepId: id,
        surfaceId,
        coat,
      })),
    })
    await transaction.original.createMany({
      data: photos.map(({ sha256, at }) => ({
        sha256,
        byteLength: 4_000_000,
        mediaType: 'image/jpeg',
        width: 4032,
        height: 3024,
        keptAt: toDate(at),
        colours: '808080'.repeat(108),
      })),
    })
    await transaction.photo.createMany({
      data: photos.map(({ id, sha256, step, at }) => ({
        id,
        jobId: job.id,
        sha256,
        fileName: `${id}.jpg`,
        arrivedAt: toDate(at),
        role: 'progress',
        stepId: step?.id ?? null,
        takenAt: toDate(at),
        takenEarliest: toDate(at),
        takenLatest: toDate(at),
        takenBasis: 'offset',
      })),
    })
    await transaction.photoSurface.createMany({
      data: photos.flatMap(({ id, step }) =>
        step === undefined ? [] : { photoId: id, surfaceId: step.surfaceId },
      ),
    })
  })
  await writePictures(photos.map(({ sha256 }) => sha256))
  return job.id
}

/** Thumbnails as large as real ones; the other sizes are only there so that the server is not busy making them. */
async function writePictures(originals: readonly string[]): Promise<void> {
  const { thumb } = renditionSizes
  const pictures = await Promise.all(
    Array.from({ length: pictureCount }, (_, index) =>
      sharp({
        create: {
          width: thumb,
          height: (thumb * 3) / 4,
          channels: 3,
          background: { r: 60 + index * 10, g: 120, b: 200 - index * 10 },
          noise: { type: 'gaussian', mean: 128, sigma: 20 },
        },
      })
        .webp({ quality: 80 })
        .toBuffer(),
    ),
  )
  for (const [index, sha256] of originals.entries()) {
    const { file } = await renditionPlace(sha256, 0)
    for (const name of renditionNames) {
      await mkdir(path.dirname(file(name)), { recursive: true })
      const bytes = name === 'thumb' ? pictures[index % pictureCount] : ''
      await writeFile(file(name), bytes ?? '')
    }
  }
}
