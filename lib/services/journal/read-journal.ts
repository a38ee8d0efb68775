import 'server-only'
import type { AirReading } from '#core/air/reading'
import type { Camera, Journal, Photo, Piece, Step } from '#core/journal/journal'
import {
  methods,
  photoRoles,
  stepKinds,
  timeBases,
} from '#core/journal/vocabulary'
import { turnedSize } from '#core/photos/turned-size'
import { type Instant, addMinutes, minutesPerDay } from '#core/units'
import { airDaysAfter, airDaysBefore, readAir } from '#services/air/air'
import { notInBin } from '#services/bin/bin'
import { present, toInstant } from '#services/database/instants'
import { database } from '#services/database/open-database'
import { loggedFacts } from '#services/journal/logged-facts'
import { ruleAnswerColumns, toRuleAnswers } from '#services/rules/rule-answers'
import { productColumns } from '#services/shelf/product-columns'
import { toProduct } from '#services/shelf/products'

/** Everything written down about one job, or undefined when there is none with this id. A fixed number of queries. */
export async function readJournal(jobId: string): Promise<Journal | undefined> {
  const [journal] = await readJournals([jobId])
  return journal
}

/**
 * Everything written down about several jobs, in no particular order; ids that no job has are left out. The number of
 * queries does not depend on the number of jobs.
 *
 * @param jobIds at most 500
 */
export async function readJournals(
  jobIds: readonly string[],
): Promise<readonly Journal[]> {
  if (jobIds.length === 0) return []
  const db = await database()
  const jobs = await readRows(jobIds)
  const productIds = new Set(
    jobs.flatMap((job) => job.steps.flatMap((step) => step.productId ?? [])),
  )
  const cameraIds = new Set(
    jobs.flatMap((job) => job.photos.flatMap((photo) => photo.cameraId ?? [])),
  )
  const products = await db.product.findMany({
    where: { id: { in: [...productIds] } },
    select: productColumns,
  })
  const cameras = await db.camera.findMany({
    where: { id: { in: [...cameraIds] } },
    select: cameraColumns,
  })
  const productById = new Map(products.map((row) => [row.id, toProduct(row)]))
  const cameraById = new Map(cameras.map((row) => [row.id, toCamera(row)]))

  const drafts = jobs.map((row) => {
    const inUse = new Set(
      row.pieces.flatMap((piece) => piece.surfaces.map(({ id }) => id)),
    )
    const photos = row.photos.map((photo) => toPhoto(photo, inUse))
    const photoIds = photoIdsByStep(photos)
    const steps = row.steps.map((step) =>
      toStep(step, photoIds.get(step.id) ?? [], inUse),
    )
    return { row, photos, steps, reach: reachOf(photos, steps) }
  })
  const reaches = drafts.flatMap((draft) => draft.reach ?? [])
  const air =
    reaches.length === 0
      ? []
      : await readAir(
          Math.min(...reaches.map((reach) => reach.from)) as Instant,
          Math.max(...reaches.map((reach) => reach.to)) as Instant,
        )
  return drafts.map(({ row, photos, steps, reach }) => ({
    job: {
      id: row.id,
      title: row.title,
      createdAt: toInstant(row.createdAt),
      ...(row.finishedAt === null
        ? {}
        : { finishedAt: toInstant(row.finishedAt) }),
      ...(row.soldAt === null ? {} : { soldAt: toInstant(row.soldAt) }),
      ...(row.deliveredAt === null
        ? {}
        : { deliveredAt: toInstant(row.deliveredAt) }),
      ...present({
        askingPriceMinor: row.askingPriceMinor,
        collection: row.collection,
        client: row.client,
        brief: row.brief,
      }),
    },
    pieces: row.pieces.map(toPiece),
    photos,
    steps,
    products: [
      ...new Set(steps.flatMap((step) => step.productId ?? [])),
    ].flatMap((id) => productById.get(id) ?? []),
    cameras: [
      ...new Set(photos.flatMap((photo) => photo.cameraId ?? [])),
    ].flatMap((id) => cameraById.get(id) ?? []),
    air: reach === undefined ? [] : within(air, reach.from, reach.to),
    answers: toRuleAnswers(
      row.answers.filter(({ surfaceId }) =>
        row.pieces.some((piece) =>
          piece.surfaces.some(({ id }) => id === surfaceId),
        ),
      ),
    ),
  }))
}

type Reach = { readonly from: Instant; readonly to: Instant }

function reachOf(
  photos: readonly Photo[],
  steps: readonly Step[],
): Reach | undefined {
  const moments = [
    ...photos.flatMap((photo) => [photo.taken.earliest, photo.taken.latest]),
    ...steps.flatMap((step) =>
      [step.startedAt ?? [], step.finishedAt ?? []].flat(),
    ),
  ]
  if (moments.length === 0) return undefined
  return {
    from: addMinutes(
      Math.min(...moments) as Instant,
      -airDaysBefore * minutesPerDay,
    ),
    to: addMinutes(
      Math.max(...moments) as Instant,
      airDaysAfter * minutesPerDay,
    ),
  }
}

/** The readings from one moment to another, out of readings in order of time. */
function within(
  air: readonly AirReading[],
  from: Instant,
  to: Instant,
): readonly AirReading[] {
  return air.slice(firstAtOrAfter(air, from), firstAtOrAfter(air, to + 1))
}

function firstAtOrAfter(air: readonly AirReading[], moment: number): number {
  let low = 0
  let high = air.length
  while (low < high) {
    const middle = (low + high) >> 1
    if ((air[middle]?.at ?? Infinity) < moment) low = middle + 1
    else high = middle
  }
  return low
}

const cameraColumns = {
  id: true,
  make: true,
  model: true,
  clockCorrectionSeconds: true,
  clockUncertaintySeconds: true,
} as const

type JobRow = Awaited<ReturnType<typeof readRows>>[number]

async function readRows(jobIds: readonly string[]) {
  const db = await database()
  return db.job.findMany({
    where: { id: { in: [...jobIds] }, ...notInBin },
    select: {
      id: true,
      title: true,
      createdAt: true,
      finishedAt: true,
      soldAt: true,
      deliveredAt: true,
      askingPriceMinor: true,
      collection: true,
      client: true,
      brief: true,
      answers: {
        orderBy: [{ answeredAt: 'asc' }, { rule: 'asc' }],
        select: ruleAnswerColumns,
      },
      pieces: {
        where: notInBin,
        orderBy: { position: 'asc' },
        select: {
          id: true,
          name: true,
          kind: true,
          widthMillimetres: true,
          depthMillimetres: true,
          heightMillimetres: true,
          material: true,
          flaws: true,
          style: true,
          age: true,
          ageKnownBy: true,
          hardware: true,
          liner: true,
          // Ordered here and not by the database: a list of more ids than it takes at once cannot be split then.
          surfaces: {
            where: notInBin,
            select: {
              id: true,
              name: true,
              position: true,
              areaSquareMetres: true,
            },
          },
        },
      },
      photos: {
        where: notInBin,
        orderBy: [{ takenAt: 'asc' }, { fileName: 'asc' }, { id: 'asc' }],
        select: {
          id: true,
          sha256: true,
          fileName: true,
          role: true,
          view: true,
          flaw: true,
          stepId: true,
          cameraId: true,
          takenAt: true,
          takenEarliest: true,
          takenLatest: true,
          takenBasis: true,
          warnings: true,
          quarterTurns: true,
          original: { select: { width: true, height: true } },
          surfaces: { select: { surfaceId: true } },
        },
      },
      steps: {
        where: notInBin,
        orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
        select: {
          id: true,
          kind: true,
          productId: true,
          method: true,
          thinningPercent: true,
          grit: true,
          amount: true,
          amountUnit: true,
          weighedBeforeGrams: true,
          weighedAfterGrams: true,
          startedAt: true,
          finishedAt: true,
          note: true,
          createdAt: true,
          surfaces: { select: { surfaceId: true, coat: true } },
        },
      },
    },
  })
}

function toPiece(row: JobRow['pieces'][number]): Piece {
  const { id, name, kind, surfaces, liner, ...facts } = row
  return {
    id,
    name,
    kind,
    ...present(facts),
    ...(liner === 'removable' || liner === 'permanent' ? { liner } : {}),
    surfaces: surfaces
      .toSorted((one, other) => one.position - other.position)
      .map((surface) => ({
        id: surface.id,
        name: surface.name,
        ...present({ areaSquareMetres: surface.areaSquareMetres }),
      })),
  }
}

/** @param inUse the surfaces that are not in the bin */
function toPhoto(
  row: JobRow['photos'][number],
  inUse: ReadonlySet<string>,
): Photo {
  return {
    id: row.id,
    sha256: row.sha256,
    fileName: row.fileName,
    ...turnedSize(row.original, row.quarterTurns),
    role: photoRoles.find((one) => one === row.role) ?? 'progress',
    ...present({
      view: row.view,
      flaw: row.flaw,
      stepId: row.stepId,
      cameraId: row.cameraId,
    }),
    surfaceIds: row.surfaces
      .map((one) => one.surfaceId)
      .filter((id) => inUse.has(id)),
    taken: {
      earliest: toInstant(row.takenEarliest),
      at: toInstant(row.takenAt),
      latest: toInstant(row.takenLatest),
    },
    basis: timeBases.find((one) => one === row.takenBasis) ?? 'arrival',
    warnings: readWarnings(row.warnings),
  }
}

function readWarnings(json: string): readonly string[] {
  const value: unknown = JSON.parse(json)
  return Array.isArray(value)
    ? value.filter((one): one is string => typeof one === 'string')
    : []
}

/** The ids of the photos of each step, in order of their capture times. */
function photoIdsByStep(
  photos: readonly Photo[],
): ReadonlyMap<string, readonly string[]> {
  const ids = new Map<string, string[]>()
  for (const { id, stepId } of photos) {
    if (stepId === undefined) continue
    const known = ids.get(stepId)
    if (known === undefined) ids.set(stepId, [id])
    else known.push(id)
  }
  return ids
}

function toStep(
  row: JobRow['steps'][number],
  photoIds: readonly string[],
  inUse: ReadonlySet<string>,
): Step {
  const kind = stepKinds.find((one) => one === row.kind)
  if (kind === undefined) {
    throw new RangeError(
      `step ${row.id}: expected a known kind, got ${row.kind}`,
    )
  }
  const method = methods.find((one) => one === row.method)
  return {
    id: row.id,
    kind,
    ...present({
      productId: row.productId,
      thinningPercent: row.thinningPercent,
      grit: row.grit,
      note: row.note,
      method,
    }),
    ...loggedFacts(row),
    ...(row.startedAt === null ? {} : { startedAt: toInstant(row.startedAt) }),
    ...(row.finishedAt === null
      ? {}
      : { finishedAt: toInstant(row.finishedAt) }),
    surfaces: row.surfaces
      .filter((on) => inUse.has(on.surfaceId))
      .map((on) => ({
        surfaceId: on.surfaceId,
        ...present({ coat: on.coat }),
      })),
    photoIds,
    createdAt: toInstant(row.createdAt),
  }
}

function toCamera(row: {
  readonly id: string
  readonly make: string
  readonly model: string
  readonly clockCorrectionSeconds: number | null
  readonly clockUncertaintySeconds: number | null
}): Camera {
  return {
    id: row.id,
    name: cameraName(row.make, row.model),
    ...(row.clockCorrectionSeconds === null
      ? {}
      : {
          clock: {
            correctionSeconds: row.clockCorrectionSeconds,
            uncertaintySeconds: row.clockUncertaintySeconds ?? 0,
          },
        }),
  }
}

/** Make and model as one name; makers often repeat themselves in the model. */
export function cameraName(make: string, model: string): string {
  const starts = model.toLowerCase().startsWith(make.toLowerCase())
  return (starts ? model : `${make} ${model}`).trim()
}
