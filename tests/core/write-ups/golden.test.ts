import { readFileSync, readdirSync } from 'node:fs'
import path from 'node:path'
import { expect, test } from 'vitest'
import { finishesText } from '#core/materials/finishes-text'
import { listFinishes } from '#core/materials/list-finishes'
import { listMaterials } from '#core/materials/list-materials'
import { materialsText } from '#core/materials/materials-text'
import { writeCaption } from '#core/write-ups/write-caption'
import { writeCareCard } from '#core/write-ups/write-care-card'
import { writeListing } from '#core/write-ups/write-listing'
import { writePhotoWords } from '#core/write-ups/write-photo-words'
import { writeReport } from '#core/write-ups/write-report'
import { writeVideoDescription } from '#core/write-ups/write-video-description'
import type { WriteUp } from '#core/write-ups/write-up'
import { type GoldenJob, goldenJobs } from './golden-jobs.ts'
import { alderYard } from './jobs.ts'

// Kept texts, written for made-up jobs and read aloud until nothing in them jarred; a change of words shows here.
const folder = path.join(import.meta.dirname, 'golden')

type Text = Pick<WriteUp, 'text' | 'missing'>

const written: Readonly<Record<string, (golden: GoldenJob) => Text>> = {
  listing: ({ job, now, settings = alderYard }) =>
    writeListing({ journal: job, now, settings }),
  short: ({ job, now, settings = alderYard }) =>
    writeListing({ journal: job, now, settings, length: 'short' }),
  medium: ({ job, now, settings = alderYard }) =>
    writeListing({ journal: job, now, settings, length: 'medium' }),
  ...Object.fromEntries(
    [160, 260, 400, 600].map((limit) => [
      `within-${limit}`,
      ({ job, now, settings = alderYard }: GoldenJob) =>
        writeListing({ journal: job, now, settings, limit }),
    ]),
  ),
  care: ({ job, now, settings = alderYard }) =>
    writeCareCard({ journal: job, now, settings }),
  report: ({ job, now, settings = alderYard }) =>
    writeReport({ journal: job, now, settings }),
  caption: ({ job }) => writeCaption({ journal: job, tags: ['Alder Yard'] }),
  video: ({ job, settings = alderYard }) =>
    writeVideoDescription({ journal: job, settings }),
  photos: ({ job }) => writePhotoWords({ journal: job }),
  buyer: ({ job, settings = alderYard }) => ({
    text: finishesText(job.job.title, listFinishes(job), settings),
    missing: [],
  }),
  viewer: ({ job, settings = alderYard }) => ({
    text: materialsText(listMaterials(job), settings, 'viewer'),
    missing: [],
  }),
}

const jobsOf: Readonly<Record<string, readonly string[]>> = {
  listing: Object.keys(goldenJobs),
  short: ['not-cured', 'six-chairs', 'twelve-surfaces'],
  medium: ['not-cured', 'six-chairs', 'toy-chest'],
  'within-160': ['old-paint', 'flaws', 'not-cured', 'paint-only', 'six-chairs'],
  'within-260': ['old-paint', 'flaws', 'not-cured', 'paint-only', 'six-chairs'],
  'within-400': ['old-paint', 'flaws', 'not-cured', 'paint-only', 'toy-chest'],
  'within-600': ['old-paint', 'flaws', 'not-cured', 'six-chairs', 'toy-chest'],
  care: [
    'strip-and-oil',
    'not-cured',
    'flaws',
    'us-units',
    'unchecked-clock',
    'waxed-mirror',
    'metal-cabinet',
    'two-finishes',
  ],
  report: ['commission', 'unchecked-clock', 'twelve-surfaces'],
  caption: ['not-cured', 'set-of-three', 'missing-facts', 'knobs-only'],
  video: ['six-chairs', 'metal-cabinet', 'commission'],
  photos: ['flaws', 'twelve-surfaces', 'metal-cabinet', 'two-finishes'],
  buyer: ['flaws', 'six-chairs', 'metal-cabinet', 'two-finishes'],
  viewer: ['not-cured', 'six-chairs', 'metal-cabinet'],
}

const kept = Object.entries(jobsOf).flatMap(([writeUp, jobs]) =>
  jobs.map((job) => [writeUp, job] as const),
)

test.each(kept)('the %s of %s, and what it asks', (writeUp, name) => {
  const golden = goldenJobs[name]
  const write = written[writeUp]
  if (!golden || !write) throw new Error(`no job ${name}`)
  const { text, missing } = write(golden)
  const asked = missing.map(({ question }) => `- ${question}\n`).join('')
  expect(`${text}\n\n== Asked ==\n${asked}`).toBe(
    readFileSync(path.join(folder, `${writeUp}-${name}.txt`), 'utf8'),
  )
})

test('every kept text belongs to a job', () => {
  expect(readdirSync(folder).toSorted()).toEqual(
    kept.map(([writeUp, job]) => `${writeUp}-${job}.txt`).toSorted(),
  )
})
