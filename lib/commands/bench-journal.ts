import { mkdir, writeFile } from 'node:fs/promises'
import path from 'node:path'
import type { StepKind } from '#core/journal/vocabulary'
import { type Instant, addMinutes, minutesPerDay } from '#core/units'
import { toDate } from '#services/database/instants'
import { newId } from '#services/database/new-id'
import { closeDatabase, database } from '#services/database/open-database'
import { renditionNames } from '#core/photos/rendition-sizes'
import { renditionPlace } from '#services/renditions/renditions'

const photosPerJob = 50
/** Grey all over: 12 x 9 cells. */
const colours = '808080'.repeat(108)
const rowsAtOnce = 400
const readingEveryMinutes = 30
/** Jobs begin over this many days before the present; one in ten is finished. */
const spreadDays = 45
const finishedEvery = 10

const products = [
  {
    key: 'primer',
    category: 'primer',
    recoatMinutes: 60,
    recoatByMinutes: 10_080,
  },
  {
    key: 'enamel',
    category: 'paint',
    recoatMinutes: 240,
    recoatByMinutes: 10_080,
  },
  {
    key: 'clear',
    category: 'clear coat',
    recoatMinutes: 120,
    recoatByMinutes: 1440,
  },
] as const

type Work = {
  readonly kind: StepKind
  readonly product?: (typeof products)[number]['key']
  readonly afterHours: number
}

/** What is done to each surface, hours after the job began. */
const schedule: readonly Work[] = [
  { kind: 'clean', afterHours: 1 },
  { kind: 'scuff', afterHours: 3 },
  { kind: 'prime', product: 'primer', afterHours: 24 },
  { kind: 'prime', product: 'primer', afterHours: 27 },
  { kind: 'coat', product: 'enamel', afterHours: 48 },
  { kind: 'coat', product: 'enamel', afterHours: 54 },
  { kind: 'seal', product: 'clear', afterHours: 72 },
]
const surfaceNames = ['body', 'top', 'drawer fronts']

/**
 * Fills an empty journal with jobs for a measurement, straight through the database: each with three surfaces, seven
 * steps on each and fifty photos, and readings of the air every half hour. No photo has a file.
 *
 * @param count how many jobs
 * @param now the present of the measurement
 */
export async function fillBenchJournal(
  count: number,
  now: Instant,
): Promise<void> {
  const db = await database()
  await db.product.createMany({
    data: products.map((product) => ({
      id: product.key,
      name: product.key,
      category: product.category,
      chemistry: 'waterborne-acrylic',
      label: JSON.stringify({
        recoatMinutes: product.recoatMinutes,
        recoatByMinutes: product.recoatByMinutes,
        cureDays: 21,
        reference: { celsius: 25, humidity: 50 },
      }),
      createdAt: toDate(now),
    })),
  })
  const rows = Array.from({ length: count }, (_, index) =>
    jobRows(index, count, now),
  )
  await inParts(
    rows.map((row) => row.job),
    (data) => db.job.createMany({ data }),
  )
  await inParts(
    rows.map((row) => row.piece),
    (data) => db.piece.createMany({ data }),
  )
  await inParts(
    rows.flatMap((row) => row.surfaces),
    (data) => db.surface.createMany({ data }),
  )
  await inParts(
    rows.flatMap((row) => row.steps),
    (data) => db.step.createMany({ data }),
  )
  await inParts(
    rows.flatMap((row) => row.stepSurfaces),
    (data) => db.stepSurface.createMany({ data }),
  )
  await inParts(
    rows.flatMap((row) => row.originals),
    (data) => db.original.createMany({ data }),
  )
  await inParts(
    rows.flatMap((row) => row.photos),
    (data) => db.photo.createMany({ data }),
  )
  await inParts(
    rows.flatMap((row) => row.photoSurfaces),
    (data) => db.photoSurface.createMany({ data }),
  )
  await inParts(airRows(now), (data) => db.airReading.createMany({ data }))
  await inParts(
    rows.flatMap((row) => row.originals),
    writeRenditions,
  )
  await closeDatabase()
}

async function inParts<Row>(
  rows: readonly Row[],
  create: (part: Row[]) => Promise<unknown>,
): Promise<void> {
  for (let start = 0; start < rows.length; start += rowsAtOnce) {
    await create(rows.slice(start, start + rowsAtOnce))
  }
}

/** Empty files, only so that the server that is measured is not busy making renditions of originals that there are not. */
async function writeRenditions(
  originals: readonly { readonly sha256: string }[],
): Promise<void> {
  await Promise.all(
    originals.map(async ({ sha256 }) => {
      const { file } = await renditionPlace(sha256, 0)
      for (const name of renditionNames) {
        await mkdir(path.dirname(file(name)), { recursive: true })
        await writeFile(file(name), '')
      }
    }),
  )
}

function airRows(now: Instant) {
  const count = ((spreadDays + 1) * minutesPerDay) / readingEveryMinutes
  return Array.from({ length: count }, (_, index) => ({
    at: toDate(addMinutes(now, -index * readingEveryMinutes)),
    celsius: 20 + Math.sin(index / 48),
    humidity: 50 + 4 * Math.cos(index / 31),
  }))
}

function jobRows(index: number, count: number, now: Instant) {
  const id = newId()
  const pieceId = newId()
  const began = addMinutes(
    now,
    -((index + 1) / count) * spreadDays * minutesPerDay,
  )
  const surfaces = surfaceNames.map((name, position) => ({
    id: newId(),
    pieceId,
    position,
    name,
  }))
  // What would lie ahead of the present has not been done yet.
  const done = schedule
    .map((work) => ({ ...work, at: addMinutes(began, work.afterHours * 60) }))
    .filter((work) => work.at < now)
  const steps = surfaces.flatMap((surface, place) =>
    done.map((work, order) => ({
      work,
      surfaceId: surface.id,
      at: addMinutes(work.at, place * 20),
      id: newId(),
      coat: coatOf(done, order),
    })),
  )
  const photos = Array.from({ length: photosPerJob }, (_, order) => {
    const step = steps[order % Math.max(1, steps.length)]
    const minute = Math.floor(order / Math.max(1, steps.length))
    return {
      id: newId(),
      sha256: `${newId()}${newId()}`.replaceAll('-', ''),
      step,
      at: addMinutes(step?.at ?? began, minute),
    }
  })
  return {
    job: {
      id,
      title: `Dresser ${index + 1}`,
      createdAt: toDate(began),
      finishedAt: index % finishedEvery === 0 ? toDate(now) : null,
    },
    piece: {
      id: pieceId,
      jobId: id,
      position: 0,
      name: 'dresser',
      kind: 'dresser',
    },
    surfaces,
    steps: steps.map((step) => ({
      id: step.id,
      jobId: id,
      kind: step.work.kind,
      productId: step.work.product ?? null,
      createdAt: toDate(step.at),
    })),
    stepSurfaces: steps.map((step) => ({
      stepId: step.id,
      surfaceId: step.surfaceId,
      coat: step.work.product === undefined ? null : step.coat,
    })),
    originals: photos.map((photo) => ({
      sha256: photo.sha256,
      byteLength: 4_000_000,
      mediaType: 'image/jpeg',
      width: 4032,
      height: 3024,
      keptAt: toDate(photo.at),
      colours,
    })),
    photos: photos.map((photo) => ({
      id: photo.id,
      jobId: id,
      sha256: photo.sha256,
      fileName: `${photo.id}.jpg`,
      arrivedAt: toDate(photo.at),
      role: photo.step === undefined ? 'before' : 'progress',
      stepId: photo.step?.id ?? null,
      takenAt: toDate(photo.at),
      takenEarliest: toDate(photo.at),
      takenLatest: toDate(photo.at),
      takenBasis: 'offset',
    })),
    photoSurfaces: photos.flatMap((photo) =>
      photo.step === undefined
        ? []
        : [{ photoId: photo.id, surfaceId: photo.step.surfaceId }],
    ),
  }
}

/** Counts the coats of one kind up to a place in the schedule, from 1. */
function coatOf(done: readonly Work[], order: number): number {
  const kind = done[order]?.kind
  return done.slice(0, order + 1).filter((work) => work.kind === kind).length
}
