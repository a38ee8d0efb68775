import 'server-only'
import { mapModels } from '#core/geometry/fit-map'
import type { Homography } from '#core/geometry/homography'
import { photoRoles } from '#core/journal/vocabulary'
import {
  type HandPoints,
  handDoubtSentence,
  mapByHand,
  turnedPoints,
} from '#core/pairs/hand-points'
import {
  type PairState,
  doubtSentence,
  pairDoubts,
} from '#core/pairs/pair-state'
import { proposePairs } from '#core/pairs/propose-pairs'
import { turnedSize } from '#core/photos/turned-size'
import { type Result, ok, refused } from '#core/result'
import type { Instant } from '#core/units'
import {
  type AlignedPhoto,
  alignPhotos,
} from '#services/alignment/align-photos'
import { notInBin } from '#services/bin/bin'
import { toDate, toInstant } from '#services/database/instants'
import { newId } from '#services/database/new-id'
import { type Transaction, database } from '#services/database/open-database'
import { touchJob } from '#services/database/touch-job'
import { noJob } from '#services/jobs/jobs'
import { type NewPair, handPoints } from '#services/pairs/schema'

/** A pair as it is kept. */
export type KeptPair = {
  readonly id: string
  /** Ids of its photos. */
  readonly before: string
  readonly after: string
  readonly view?: string
  readonly state: PairState
  /** What it is laid by, when that was done by hand. */
  readonly handPoints?: HandPoints
  readonly confirmedAt?: Instant
}

/** At most so many pairs of photos without a view are laid on each other in one go to see what belongs together. */
const triesAtMost = 36
/** What gave up, for want of time or memory, is not tried again sooner, in milliseconds. */
const restAfterGivingUp = 15 * 60_000

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
  if (photos === undefined) return noJob
  const one = photos.find(({ id }) => id === before)
  const other = photos.find(({ id }) => id === after)
  if (one === undefined || other === undefined) {
    return refused({
      kind: 'invalid',
      detail: 'This job has no such photo. Choose two of its photos.',
    })
  }
  const pair = { before: one, after: other }
  const state = await alignPhotos(one, other)
  return ok(await keepPair(jobId, pair, state, now, toDate(now)))
}

/**
 * The pairs of a job, in order of their befores; empty for a job that there is not. Neither those that its owner separated,
 * nor photos that were only tried and cannot be laid on each other.
 */
export async function readPairs(jobId: string): Promise<readonly KeptPair[]> {
  return (await readRows(jobId))
    .filter((row) => row.separatedAt === null && !isFailedTry(row))
    .map(toPair)
}

/** The ids of the photos that the owner of a job said do not belong together. */
export async function readSeparated(
  jobId: string,
): Promise<readonly { readonly before: string; readonly after: string }[]> {
  return (await readRows(jobId))
    .filter((row) => row.separatedAt !== null)
    .map((row) => ({ before: row.beforeId, after: row.afterId }))
}

/**
 * Finds the pairs of a job: those that typed views make, and, among photos whose view nobody typed, those that can be laid
 * on each other. Aligns what is not aligned yet, or was before a photo was turned. What the owner confirmed or separated
 * stays so, also while this is under way.
 *
 * @param isToStop asked before each two photos: what is left then is found another time
 * @returns refused when there is no such job
 */
export async function findPairs(
  jobId: string,
  now: Instant,
  isToStop: () => boolean = () => false,
): Promise<Result<readonly KeptPair[]>> {
  const photos = await readPhotos(jobId)
  if (photos === undefined) return noJob
  const { pairs, tries } = leftToFind(photos, await readRows(jobId), now)
  for (const pair of pairs) {
    if (isToStop()) break
    await tryPair(jobId, pair, now)
  }
  const paired = new Set<string>()
  for (const pair of tries) {
    if (isToStop()) break
    if (paired.has(pair.before.id) || paired.has(pair.after.id)) continue
    const state = await tryPair(jobId, pair, now)
    if (state.how === 'none') continue
    paired.add(pair.before.id)
    paired.add(pair.after.id)
  }
  return ok(await readPairs(jobId))
}

// Kept on the global object: a development server loads modules anew, and would look for the same pairs twice.
const kept = globalThis as typeof globalThis & {
  coatbookPairs?: Map<string, Promise<void>>
  /** When pairs gave up. */
  coatbookGaveUp?: Map<string, Instant>
}

/**
 * Finds the pairs of a job without being waited for, unless that is under way or there is nothing to find.
 *
 * @param isToStop as for `findPairs`
 * @returns whether it is under way; refused when there is no such job
 */
export async function findPairsLater(
  jobId: string,
  now: Instant,
  isToStop?: () => boolean,
): Promise<Result<boolean>> {
  const underWay = (kept.coatbookPairs ??= new Map<string, Promise<void>>())
  const photos = await readPhotos(jobId)
  if (photos === undefined) return noJob
  const { pairs, tries } = leftToFind(photos, await readRows(jobId), now)
  // Asked only now, with nothing to wait for before it is set: of two requests at once the second finds the first's.
  if (underWay.has(jobId)) return ok(true)
  if (pairs.length === 0 && tries.length === 0) return ok(false)
  const finding = findPairs(jobId, now, isToStop)
    .then(
      () => undefined,
      (error: unknown) => {
        console.error(`The pairs of job ${jobId} could not be found.`, error)
      },
    )
    .finally(() => underWay.delete(jobId))
  underWay.set(jobId, finding)
  return ok(true)
}

/** Resolves when the pairs of a job are not, or no longer, being found. */
export async function pairsFound(jobId: string): Promise<void> {
  await kept.coatbookPairs?.get(jobId)
}

const noPair = refused({
  kind: 'not-found',
  detail: 'There is no such pair. It may have been removed.',
} as const)

/** The owner says that two photos belong together, or that they do not. */
export async function judgePair(
  jobId: string,
  pairId: string,
  belong: boolean,
  now: Instant,
): Promise<Result<undefined>> {
  return changePair(
    jobId,
    pairId,
    belong
      ? { confirmedAt: toDate(now), separatedAt: null }
      : { confirmedAt: null, separatedAt: toDate(now) },
  )
}

/**
 * Lays the photos of a pair on each other by four points that the owner set on each, which says that they belong together.
 *
 * @returns refused when there is no such pair, or the points lay no photo on another
 */
export async function alignByHand(
  jobId: string,
  pairId: string,
  points: HandPoints,
  now: Instant,
): Promise<Result<KeptPair>> {
  const pair = await readToAlign(jobId, pairId)
  if (pair === undefined) return noPair
  const { before, after, confirmedAt } = pair
  const laid = mapByHand(points, before.size, after.size)
  if ('doubt' in laid) {
    return refused({ kind: 'invalid', detail: handDoubtSentence(laid.doubt) })
  }
  const state: PairState = {
    how: 'by-hand',
    homography: laid.homography,
    model: 'homography',
    confidence: 1,
  }
  const changed = await changePair(jobId, pairId, {
    ...columnsOf(state, before, after),
    handPoints: JSON.stringify(points),
    confirmedAt: confirmedAt ?? toDate(now),
    separatedAt: null,
  })
  return changed.ok ? readPair(jobId, pairId) : changed
}

/**
 * Aligns a pair by its pictures once more, in place of what was done by hand.
 *
 * @returns refused when there is no such pair, or aligning takes more time or memory than it may: then all stays
 */
export async function alignByPictures(
  jobId: string,
  pairId: string,
): Promise<Result<KeptPair>> {
  const pair = await readToAlign(jobId, pairId)
  if (pair === undefined) return noPair
  const { before, after } = pair
  const state = await alignPhotos(before, after)
  if (state.how === 'none' && state.doubt === 'gave-up') {
    return refused({ kind: 'conflict', detail: doubtSentence(state.doubt) })
  }
  const changed = await changePair(
    jobId,
    pairId,
    columnsOf(state, before, after),
  )
  return changed.ok ? readPair(jobId, pairId) : changed
}

async function readPair(
  jobId: string,
  pairId: string,
): Promise<Result<KeptPair>> {
  const row = (await readRows(jobId)).find(({ id }) => id === pairId)
  return row === undefined ? noPair : ok(toPair(row))
}

async function readToAlign(jobId: string, pairId: string) {
  const row = (await readRows(jobId)).find(({ id }) => id === pairId)
  return row === undefined
    ? undefined
    : {
        before: toAlignedPhoto(row.before),
        after: toAlignedPhoto(row.after),
        confirmedAt: row.confirmedAt,
      }
}

async function changePair(
  jobId: string,
  pairId: string,
  data: Parameters<Transaction['pair']['updateMany']>[0]['data'],
): Promise<Result<undefined>> {
  const db = await database()
  return db.$transaction(async (transaction) => {
    const { count } = await transaction.pair.updateMany({
      where: { id: pairId, jobId },
      data,
    })
    if (count === 0) return noPair
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

type JobPhoto = NonNullable<Awaited<ReturnType<typeof readPhotos>>>[number]

/** Two photos to be laid on each other. */
type PhotoPair = {
  readonly before: JobPhoto
  readonly after: JobPhoto
  /** The view typed on them. */
  readonly view?: string
}

/** Which photos of a job are still to be laid on each other. */
function leftToFind(
  photos: readonly JobPhoto[],
  rows: readonly Row[],
  now: Instant,
): {
  /** Pairs by their views or by what was found or said before, not aligned as their photos stand. */
  readonly pairs: readonly PhotoPair[]
  /** What may be a pair or not, as much as is tried in one go. */
  readonly tries: readonly PhotoPair[]
} {
  const { pairs: typed, unpaired } = proposePairs(photos)
  const rowOf = (pair: { readonly before: string; readonly after: string }) =>
    rows.find(
      (row) => row.beforeId === pair.before && row.afterId === pair.after,
    )
  const typedRows = new Set(typed.map(rowOf))
  const untypedPairs = rows
    .filter((row) => !typedRows.has(row) && !isFailedTry(row))
    .filter((row) => row.separatedAt === null && !isCurrent(row))
    .map((row) => ({ before: row.beforeId, after: row.afterId }))
  const paired = new Set(
    rows
      .filter((row) => row.separatedAt === null && !isFailedTry(row))
      .filter((row) => row.how !== 'none' || row.confirmedAt !== null)
      .flatMap((row) => [row.beforeId, row.afterId]),
  )
  const tries = unpaired.befores
    .flatMap((before) => unpaired.afters.map((after) => ({ before, after })))
    .filter(({ before, after }) => !paired.has(before) && !paired.has(after))
    .filter((pair) => {
      const row = rowOf(pair)
      return row === undefined || (isFailedTry(row) && !isCurrent(row))
    })
  const toTry = (
    pairs: readonly {
      readonly before: string
      readonly after: string
      readonly view?: string
    }[],
  ): readonly PhotoPair[] =>
    pairs.flatMap((pair) => {
      const before = photos.find(({ id }) => id === pair.before)
      const after = photos.find(({ id }) => id === pair.after)
      if (before === undefined || after === undefined) return []
      return rests({ before, after }, now) ? [] : [{ ...pair, before, after }]
    })
  return {
    pairs: toTry([
      ...typed.filter((pair) => {
        const row = rowOf(pair)
        if (row === undefined) return true
        return row.separatedAt === null && (!isCurrent(row) || isFailedTry(row))
      }),
      ...untypedPairs,
    ]),
    tries: toTry(tries).slice(0, triesAtMost),
  }
}

/**
 * Lays two photos on each other because it looks as if they belonged together, and keeps what comes of it. Giving up says
 * nothing about the photos: it is not kept, and a pair by its view waits.
 */
async function tryPair(
  jobId: string,
  pair: PhotoPair,
  now: Instant,
): Promise<PairState> {
  const state = await alignPhotos(pair.before, pair.after)
  if (state.how !== 'none' || state.doubt !== 'gave-up') {
    await keepPair(jobId, pair, state, now)
    return state
  }
  gaveUp().set(standOf(pair), now)
  if (pair.view !== undefined) {
    await keepPair(jobId, pair, { how: 'waiting' }, now)
  }
  return state
}

/** Whether a pair gave up a short while ago. */
function rests(pair: PhotoPair, now: Instant): boolean {
  const since = gaveUp().get(standOf(pair))
  return since !== undefined && now - since < restAfterGivingUp
}

function gaveUp(): Map<string, Instant> {
  return (kept.coatbookGaveUp ??= new Map<string, Instant>())
}

/** Two photos as they stand now. */
function standOf({ before, after }: PhotoPair): string {
  return `${before.id} ${after.id} ${turnsOf(before, after)}`
}

async function readPhotos(jobId: string) {
  const db = await database()
  const job = await db.job.findUnique({
    where: { id: jobId, ...notInBin },
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
  handPoints: true,
  model: true,
  confidence: true,
  doubt: true,
  turns: true,
  confirmedAt: true,
  separatedAt: true,
} as const

async function keptRows(jobId: string) {
  const db = await database()
  return db.pair.findMany({
    where: { jobId, before: notInBin, after: notInBin },
    orderBy: [{ before: { takenAt: 'asc' } }, { id: 'asc' }],
    select: pairColumns,
  })
}

type Row = Awaited<ReturnType<typeof keptRows>>[number]

async function readRows(jobId: string): Promise<readonly Row[]> {
  return (await keptRows(jobId)).map(asItStands)
}

/** What was laid by hand stays so when a photo is turned: its points turn with it. */
function asItStands(row: Row): Row {
  if (row.how !== 'by-hand' || row.handPoints === null || isCurrent(row)) {
    return row
  }
  const before = toAlignedPhoto(row.before)
  const after = toAlignedPhoto(row.after)
  const [beforeThen = 0, afterThen = 0] = row.turns.split(',').map(Number)
  const turns = {
    before: before.quarterTurns - beforeThen,
    after: after.quarterTurns - afterThen,
  }
  const points = turnedPoints(
    handPoints.parse(JSON.parse(row.handPoints)),
    {
      before: turnedSize(before.size, turns.before),
      after: turnedSize(after.size, turns.after),
    },
    turns,
  )
  const laid = mapByHand(points, before.size, after.size)
  return 'doubt' in laid
    ? row
    : {
        ...row,
        homography: JSON.stringify(laid.homography),
        handPoints: JSON.stringify(points),
        turns: turnsOf(before, after),
      }
}

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

/** Whether its photos were only tried, because they might have belonged together, and cannot be laid on each other. */
function isFailedTry(row: Row): boolean {
  return (
    row.how === 'none' &&
    row.view === null &&
    row.confirmedAt === null &&
    row.separatedAt === null
  )
}

function toPair(row: Row): KeptPair {
  return {
    id: row.id,
    before: row.beforeId,
    after: row.afterId,
    ...(row.view === null ? {} : { view: row.view }),
    state: isCurrent(row) ? toState(row) : { how: 'waiting' },
    ...(row.how === 'by-hand' && row.handPoints !== null && isCurrent(row)
      ? { handPoints: handPoints.parse(JSON.parse(row.handPoints)) }
      : {}),
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

/**
 * Keeps what came of laying two photos on each other. What happened meanwhile stays: an alignment of the photos as they
 * stand is not replaced, and only the owner's word, `confirmedAt`, brings back what the owner separated.
 */
async function keepPair(
  jobId: string,
  { before, after, view }: PhotoPair,
  state: PairState,
  now: Instant,
  confirmedAt?: Date,
): Promise<KeptPair> {
  const alignment = columnsOf(state, before, after)
  const said = {
    ...(view === undefined ? {} : { view }),
    ...(confirmedAt === undefined ? {} : { confirmedAt, separatedAt: null }),
  }
  const db = await database()
  return db.$transaction(async (transaction) => {
    const found = await transaction.pair.findUnique({
      where: {
        beforeId_afterId: { beforeId: before.id, afterId: after.id },
      },
      select: pairColumns,
    })
    const there = found === null ? null : asItStands(found)
    if (there !== null && there.separatedAt !== null && !confirmedAt) {
      return toPair(there)
    }
    const isAligned =
      there !== null && isCurrent(there) && there.homography !== null
    const row =
      there === null
        ? await transaction.pair.create({
            data: {
              id: newId(),
              jobId,
              beforeId: before.id,
              afterId: after.id,
              createdAt: toDate(now),
              ...alignment,
              ...said,
            },
            select: pairColumns,
          })
        : await transaction.pair.update({
            where: { id: there.id },
            data: isAligned ? said : { ...alignment, ...said },
            select: pairColumns,
          })
    await touchJob(transaction, jobId)
    return toPair(asItStands(row))
  })
}

function columnsOf(
  state: PairState,
  before: AlignedPhoto,
  after: AlignedPhoto,
) {
  const aligned = 'homography' in state
  return {
    how: state.how,
    homography: aligned ? JSON.stringify(state.homography) : null,
    handPoints: null,
    model: aligned ? state.model : null,
    confidence: state.how === 'waiting' ? null : state.confidence,
    doubt: state.how === 'none' ? state.doubt : null,
    turns: turnsOf(before, after),
  }
}
