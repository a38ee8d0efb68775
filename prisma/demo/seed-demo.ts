import { createReadStream, readFileSync } from 'node:fs'
import path from 'node:path'
import { z } from 'zod'
import { photoRoles } from '#core/journal/vocabulary'
import type { Result } from '#core/result'
import { type Instant, instant } from '#core/units'
import { addAir } from '#services/air/air'
import { keepPhotos } from '#services/intake/keep-photos'
import { lookAhead } from '#services/intake/look-ahead'
import { uploadLimits } from '#services/intake/receive-upload'
import { finishJob } from '#services/jobs/hand-over-job'
import { type JobOutline, addJob, changeJobFacts } from '#services/jobs/jobs'
import { jobFacts, newJob } from '#services/jobs/schema'
import {
  addCost,
  addWork,
  changeSale,
  correctHours,
} from '#services/money/books'
import { database } from '#services/database/open-database'
import { changeRates } from '#services/money/rates'
import {
  newCost,
  newWork,
  ratesFacts,
  saleFacts,
  stepHours,
} from '#services/money/schema'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import { addProduct } from '#services/shelf/products'
import { newProduct } from '#services/shelf/schema'
import { newStep } from '#services/steps/schema'
import { addStep } from '#services/steps/steps'
import { changeWorkshop } from '#services/workshop/change-workshop'
import { demoAir } from './demo-air'
import { demoJobs, demoRates } from './demo-jobs'
import { demoProducts } from './demo-products'

const folder = path.join(process.cwd(), 'prisma', 'demo')

/** What the photos show. When they were taken is in the photos themselves. */
const photoList = z.array(
  z.object({
    file: z.string(),
    job: z.string(),
    shows: z.array(z.string()),
    step: z.string().nullable(),
    role: z.enum(photoRoles),
    view: z.string(),
  }),
)

type DemoJob = (typeof demoJobs)[number]
type DemoPhoto = z.output<typeof photoList>[number]

/**
 * Fills an empty journal with the jobs of an invented workshop, as its owner would: through the services alone, with
 * every time taken from the photos. The camera whose clock is wrong stays as it came.
 *
 * @param now when the settings and the shelf were written down
 * @throws Error when a service refuses what the demo says
 */
export async function seedDemo(now: Instant): Promise<void> {
  await changeWorkshop(
    {
      name: 'Alder Yard',
      zone: 'Europe/London',
      currency: 'GBP',
      units: 'metric',
    },
    now,
  )
  await changeRates(ratesFacts.parse(demoRates))
  await addAir(demoAir(at('2026-10-22T00:00:00Z'), 6))
  await addAir(demoAir(at('2026-11-14T00:00:00Z'), 3))
  const productIds = new Map<string, string>()
  for (const [key, product] of Object.entries(demoProducts)) {
    const added = await addProduct(newProduct.parse(product), now)
    productIds.set(key, added.id)
  }
  const photos = photoList.parse(
    JSON.parse(readFileSync(path.join(folder, 'photos.json'), 'utf8')),
  )
  for (const demo of demoJobs) {
    const own = photos.filter((photo) => photo.job === demo.name)
    await seedJob(demo, own, productIds)
  }
  // What fills the demo in is no change that somebody would want to undo.
  const db = await database()
  await db.$transaction((transaction) => transaction.change.deleteMany())
}

async function seedJob(
  demo: DemoJob,
  photos: readonly DemoPhoto[],
  productIds: ReadonlyMap<string, string>,
): Promise<void> {
  const startedAt = at(demo.startedAt)
  const job = await addJob(newJob.parse(demo.job), startedAt)
  const surfaceIds = surfacesByName(job)
  const stepIds = new Map<string, string>()
  for (const { name, on, product, ...step } of demo.steps) {
    const added = accepted(
      await addStep(
        job.id,
        newStep.parse({
          ...step,
          surfaces: on.map((surface) => found(surfaceIds, surface)),
          ...(product === undefined
            ? {}
            : { product: found(productIds, product) }),
        }),
        startedAt,
      ),
    )
    stepIds.set(name, added.id)
  }
  for (const photo of photos) {
    await seedPhoto(
      job.id,
      photo,
      surfaceIds,
      stepIds,
      at(demo.photosArrivedAt),
    )
  }
  accepted(await changeJobFacts(job.id, factsOf(demo, job)))
  const { costs, work, minutes, sale } = demo.books
  for (const cost of costs) {
    accepted(await addCost(job.id, newCost.parse(cost), startedAt))
  }
  for (const one of work) {
    accepted(await addWork(job.id, newWork.parse(one), startedAt))
  }
  accepted(
    await correctHours(
      job.id,
      Object.entries(minutes).map(([step, workMinutes]) =>
        stepHours.parse({ step: found(stepIds, step), workMinutes }),
      ),
    ),
  )
  if (sale !== undefined) {
    accepted(await changeSale(job.id, saleFacts.parse(sale)))
  }
  if (demo.finishedAt !== undefined) {
    accepted(await finishJob(job.id, at(demo.finishedAt)))
  }
}

async function seedPhoto(
  jobId: string,
  photo: DemoPhoto,
  surfaceIds: ReadonlyMap<string, string>,
  stepIds: ReadonlyMap<string, string>,
  arrivedAt: Instant,
): Promise<void> {
  const store = await openPhotoStore()
  const file = path.join(folder, 'photos', photo.file)
  const ahead = lookAhead()
  const arrival = await store.arrive(
    createReadStream(file),
    uploadLimits.fileBytes,
    ahead.take,
  )
  if (arrival === 'too-large') throw new Error(`${photo.file} is too large`)
  const { rejected } = accepted(
    await keepPhotos(
      jobId,
      {
        fields: {
          role: photo.role,
          view: photo.view,
          step: photo.step === null ? undefined : found(stepIds, photo.step),
          surfaces: photo.shows.map((surface) => found(surfaceIds, surface)),
        },
        files: [{ name: path.basename(photo.file), arrival, ahead }],
      },
      arrivedAt,
    ),
  )
  for (const file of rejected) throw new Error(`${file.name}: ${file.reason}`)
}

function factsOf(demo: DemoJob, job: JobOutline) {
  return jobFacts.parse({
    title: demo.job.title,
    askingPriceMinor: demo.askingPriceMinor ?? null,
    collection: demo.collection ?? '',
    pieces: job.pieces.map((piece) => ({
      id: piece.id,
      name: piece.name,
      kind: piece.kind,
      dimensions:
        demo.job.pieces.find((one) => one.name === piece.name)?.dimensions ??
        {},
      material: '',
      flaws: '',
      ...demo.told[piece.name],
    })),
  })
}

function surfacesByName(job: JobOutline): ReadonlyMap<string, string> {
  return new Map(
    job.pieces.flatMap((piece) =>
      piece.surfaces.map((surface): [string, string] => [
        `${piece.name}: ${surface.name}`,
        surface.id,
      ]),
    ),
  )
}

function at(text: string): Instant {
  return instant(Date.parse(text))
}

function found(ids: ReadonlyMap<string, string>, name: string): string {
  const id = ids.get(name)
  if (id === undefined) throw new Error(`the demo has no "${name}"`)
  return id
}

function accepted<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.refusal.detail)
  return result.value
}
