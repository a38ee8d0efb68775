import 'server-only'
import { mapModels } from '#core/geometry/fit-map'
import type { Homography } from '#core/geometry/homography'
import { photoRoles } from '#core/journal/vocabulary'
import { type PairState, pairDoubts } from '#core/pairs/pair-state'
import { proposePairs } from '#core/pairs/propose-pairs'
import { turnedSize } from '#core/photos/turned-size'
import { type Refusal, type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import {
  type AlignedPhoto,
  alignPhotos,
} from '#services/alignment/align-photos'
import { notInBin } from '#services/bin/bin'
import { toDate, toInstant } from '#services/database/instants'
import { newId } from '#services/database/new-id'
import { database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import type { NewPair } from '#services/pairs/schema'

/** A pair as it is kept. */
export type KeptPair = {
  readonly id: string
  /** Ids of its photos. */
  readonly before: string
  readonly after: string
  readonly view?: string
  readonly state: PairState
  readonly confirmedAt?: Instant
}

/** At most so many pairs of photos without a view are laid on each other to see what belongs together. */
const triesAtMost = 36

/**
 * Keeps two photos as a pair, because the owner says so, and aligns them.
 *
 * @returns refused when there is no such job or one of the photos is not in it
 */
export async function addPair(
  jobId: string,
  { before, after }: NewPair,
  now: Instant,
): Promise<Result<KeptPair>> {
  const photos = await readPhotos(jobId)
  if (photos === undefined) return refused(noJob)
  const one = photos.find(({ id }) => id === before)
  const other = photos.find(({ id }) => id === after)
  if (one === undefined || other === undefined) {
    return refused({
      kind: 'invalid',
      detail: 'This job has no such photo. Choose two of its photos.',
    })
  }
  const state = await alignPhotos(one, other)
  return ok(
    await keepPair(jobId, one, other, state, now, { confirmedAt: toDate(now) }),
  )
}

/** The pairs of a job that its owner has not separated, in order of their befores; empty for a job that there is not. */
export async function readPairs(jobId: string): Promise<readonly KeptPair[]> {
  return (await readRows(jobId))
    .filter((row) => row.separatedAt === null)
    .map(toPair)
}

/**
 * Finds the pairs of a job: those that typed views make, and, among photos whose view nobody typed, those that can be laid
 * on each other. Aligns what is not aligned yet, or was before a photo was turned. What the owner confirmed or separated
 * stays so.
 *
 * @returns refused when there is no such job
 */
export async function findPairs(
  jobId: string,
  now: Instant,
): Promise<Result<readonly KeptPair[]>> {
  const photos = await readPhotos(jobId)
  if (photos === undefined) return refused(noJob)
  const photo = (id: string) => photos.find((one) => one.id === id)
  const { pairs, unpaired } = proposePairs(photos)
  const rows = await readRows(jobId)
  const known = (before: string, after: string) =>
    rows.find((row) => row.beforeId === before && row.afterId === after)
  for (const { before, after, view } of pairs) {
    const one = photo(before)
    const other = photo(after)
    const row = known(before, after)
    if (one === undefined || other === undefined) continue
    if (row !== undefined && (row.separatedAt !== null || isCurrent(row))) {
      continue
    }
    const state = await alignPhotos(one, other)
    await keepPair(jobId, one, other, state, now, { view })
  }
  for (const row of rows) {
    const typed = pairs.some(
      (pair) => pair.before === row.beforeId && pair.after === row.afterId,
    )
    const one = photo(row.beforeId)
    const other = photo(row.afterId)
    if (typed || isCurrent(row) || one === undefined || other === undefined) {
      continue
    }
    await keepPair(jobId, one, other, await alignPhotos(one, other), now)
  }
  const tries = unpaired.befores.flatMap((before) =>
    unpaired.afters.map((after) => ({ before, after })),
  )
  const paired = new Set(
    rows
      .filter((row) => row.separatedAt === null && row.how !== 'none')
      .flatMap((row) => [row.beforeId, row.afterId]),
  )
  for (const { before, after } of tries.slice(0, triesAtMost)) {
    const one = photo(before)
    const other = photo(after)
    if (one === undefined || other === undefined) continue
    if (paired.has(before) || paired.has(after)) continue
    if (known(before, after) !== undefined) continue
    const state = await alignPhotos(one, other)
    // What cannot be laid on each other is kept as separated: it is no pair, and is not tried again.
    const separate = state.how === 'none' ? { separatedAt: toDate(now) } : {}
    await keepPair(jobId, one, other, state, now, separate)
    if (state.how !== 'none') {
      paired.add(before)
      paired.add(after)
    }
  }
  return ok(await readPairs(jobId))
}

// Kept on the global object: a development server loads modules anew, and would look for the same pairs twice.
const kept = globalThis as typeof globalThis & {
  coatbookPairs?: Map<string, Promise<void>>
}

/**
 * Finds the pairs of a job without being waited for, unless that is under way or there is nothing to find.
 *
 * @returns whether it is under way
 */
export async function findPairsLater(
  jobId: string,
  now: Instant,
): Promise<boolean> {
  const underWay = (kept.coatbookPairs ??= new Map<string, Promise<void>>())
  if (underWay.has(jobId)) return true
  if (!(await isSomethingToFind(jobId))) return false
  const finding = findPairs(jobId, now)
    .then(
      () => undefined,
      (error: unknown) => {
        console.error(`The pairs of job ${jobId} could not be found.`, error)
      },
    )
    .finally(() => underWay.delete(jobId))
  underWay.set(jobId, finding)
  return true
}

/** The owner says that two photos belong together, or that they do not. */
export async function judgePair(
  jobId: string,
  pairId: string,
  belong: boolean,
  now: Instant,
): Promise<Result<undefined>> {
  const db = await database()
  return db.$transaction(async (transaction) => {
    const { count } = await transaction.pair.updateMany({
      where: { id: pairId, jobId },
      data: belong
        ? { confirmedAt: toDate(now), separatedAt: null }
        : { confirmedAt: null, separatedAt: toDate(now) },
    })
    if (count === 0) {
      return refused({
        kind: 'not-found',
        detail: 'There is no such pair. It may have been removed.',
      })
    }
    await touchJob(transaction, jobId)
    return ok(undefined)
  })
}

/** How two photos lie on each other, when that is known and accepted, with all that is needed to show them so. */
export type AcceptedPair = {
  readonly before: AlignedPhoto
  readonly after: AlignedPhoto
  readonly homography: Homography
}

/** The alignment of two photos, by their ids; undefined when they have none, or one was turned since. */
export async function readAcceptedPair(
  jobId: string,
  before: string,
  after: string,
): Promise<AcceptedPair | undefined> {
  const row = (await readRows(jobId)).find(
    (one) =>
      one.beforeId === before &&
      one.afterId === after &&
      one.separatedAt === null,
  )
  if (row === undefined) return undefined
  const { state } = toPair(row)
  return 'homography' in state
    ? {
        before: toAlignedPhoto(row.before),
        after: toAlignedPhoto(row.after),
        homography: state.homography,
      }
    : undefined
}

const noJob: Refusal = {
  kind: 'not-found',
  detail: 'There is no such job. It may have been removed.',
}

async function isSomethingToFind(jobId: string): Promise<boolean> {
  const photos = await readPhotos(jobId)
  if (photos === undefined) return false
  const { pairs, unpaired } = proposePairs(photos)
  const rows = await readRows(jobId)
  const known = (before: string, after: string) =>
    rows.find((row) => row.beforeId === before && row.afterId === after)
  const paired = new Set(
    rows
      .filter((row) => row.separatedAt === null && row.how !== 'none')
      .flatMap((row) => [row.beforeId, row.afterId]),
  )
  const untried = unpaired.befores
    .flatMap((before) => unpaired.afters.map((after) => ({ before, after })))
    .slice(0, triesAtMost)
    .some(
      ({ before, after }) =>
        !paired.has(before) &&
        !paired.has(after) &&
        known(before, after) === undefined,
    )
  return (
    untried ||
    pairs.some(({ before, after }) => known(before, after) === undefined) ||
    rows.some((row) => row.separatedAt === null && !isCurrent(row))
  )
}

async function readPhotos(jobId: string) {
  const db = await database()
  const job = await db.job.findUnique({
    where: { id: jobId },
    select: {
      photos: {
        where: notInBin,
        orderBy: [{ takenAt: 'asc' }, { id: 'asc' }],
        select: {
          ...alignedColumns,
          id: true,
          role: true,
          view: true,
          takenAt: true,
          takenEarliest: true,
          takenLatest: true,
        },
      },
    },
  })
  return job?.photos.map((row) => ({
    ...toAlignedPhoto(row),
    id: row.id,
    role: photoRoles.find((one) => one === row.role) ?? 'progress',
    ...(row.view === null ? {} : { view: row.view }),
    taken: {
      earliest: toInstant(row.takenEarliest),
      at: toInstant(row.takenAt),
      latest: toInstant(row.takenLatest),
    },
  }))
}

const alignedColumns = {
  sha256: true,
  quarterTurns: true,
  original: { select: { width: true, height: true } },
} as const

function toAlignedPhoto(row: {
  readonly sha256: string
  readonly quarterTurns: number
  readonly original: { readonly width: number; readonly height: number }
}): AlignedPhoto {
  return {
    sha256: row.sha256,
    quarterTurns: row.quarterTurns,
    size: turnedSize(row.original, row.quarterTurns),
  }
}

const pairColumns = {
  id: true,
  beforeId: true,
  afterId: true,
  before: { select: alignedColumns },
  after: { select: alignedColumns },
  view: true,
  how: true,
  homography: true,
  model: true,
  confidence: true,
  doubt: true,
  turns: true,
  confirmedAt: true,
  separatedAt: true,
} as const

async function readRows(jobId: string) {
  const db = await database()
  return db.pair.findMany({
    where: { jobId, before: notInBin, after: notInBin },
    orderBy: [{ before: { takenAt: 'asc' } }, { id: 'asc' }],
    select: pairColumns,
  })
}

type Row = Awaited<ReturnType<typeof readRows>>[number]

function turnsOf(before: AlignedPhoto, after: AlignedPhoto): string {
  return `${before.quarterTurns},${after.quarterTurns}`
}

/** Whether its photos stand as they did when they were aligned. */
function isCurrent(row: Row): boolean {
  return (
    row.how !== 'waiting' &&
    row.turns === turnsOf(toAlignedPhoto(row.before), toAlignedPhoto(row.after))
  )
}

function toPair(row: Row): KeptPair {
  return {
    id: row.id,
    before: row.beforeId,
    after: row.afterId,
    ...(row.view === null ? {} : { view: row.view }),
    state: isCurrent(row) ? toState(row) : { how: 'waiting' },
    ...(row.confirmedAt === null
      ? {}
      : { confirmedAt: toInstant(row.confirmedAt) }),
  }
}

function toState(row: Row): PairState {
  const homography =
    row.homography === null ? undefined : toHomography(row.homography)
  const model = mapModels.find((one) => one === row.model)
  const confidence = row.confidence ?? 0
  const how = (['computed', 'by-hand'] as const).find((one) => one === row.how)
  if (how !== undefined && homography !== undefined && model !== undefined) {
    return { how, confidence, model, homography }
  }
  const doubt = pairDoubts.find((one) => one === row.doubt) ?? 'few-places'
  return { how: 'none', confidence, doubt }
}

function toHomography(text: string): Homography | undefined {
  const numbers: unknown = JSON.parse(text)
  return isHomography(numbers) ? numbers : undefined
}

function isHomography(value: unknown): value is Homography {
  return (
    Array.isArray(value) &&
    value.length === 9 &&
    value.every((one) => Number.isFinite(one))
  )
}

async function keepPair(
  jobId: string,
  before: AlignedPhoto & { readonly id: string },
  after: AlignedPhoto & { readonly id: string },
  state: PairState,
  now: Instant,
  more: {
    readonly view?: string
    readonly confirmedAt?: Date
    readonly separatedAt?: Date
  } = {},
): Promise<KeptPair> {
  const aligned = 'homography' in state
  const data = {
    how: state.how,
    homography: aligned ? JSON.stringify(state.homography) : null,
    model: aligned ? state.model : null,
    confidence: state.how === 'waiting' ? null : state.confidence,
    doubt: state.how === 'none' ? state.doubt : null,
    turns: turnsOf(before, after),
    ...more,
    ...(more.confirmedAt === undefined ? {} : { separatedAt: null }),
  }
  const db = await database()
  return db.$transaction(async (transaction) => {
    const row = await transaction.pair.upsert({
      where: {
        beforeId_afterId: { beforeId: before.id, afterId: after.id },
      },
      create: {
        id: newId(),
        jobId,
        beforeId: before.id,
        afterId: after.id,
        createdAt: toDate(now),
        ...data,
      },
      update: data,
      select: pairColumns,
    })
    await touchJob(transaction, jobId)
    return toPair(row)
  })
}
