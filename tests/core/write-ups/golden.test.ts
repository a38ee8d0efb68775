import { readFileSync, readdirSync } from 'node:fs'
import path from 'node:path'
import { expect, test } from 'vitest'
import { writeCaption } from '#core/write-ups/write-caption'
import { writeCareCard } from '#core/write-ups/write-care-card'
import { writeListing } from '#core/write-ups/write-listing'
import { writeReport } from '#core/write-ups/write-report'
import type { WriteUp } from '#core/write-ups/write-up'
import { type GoldenJob, goldenJobs } from './golden-jobs.ts'
import { alderYard } from './jobs.ts'

// Kept texts, written for made-up jobs and read aloud until nothing in them jarred; a change of words shows here.
const folder = path.join(import.meta.dirname, 'golden')

const written: Readonly<Record<string, (golden: GoldenJob) => WriteUp>> = {
  listing: ({ job, now, settings = alderYard }) =>
    writeListing({ journal: job, now, settings }),
  care: ({ job, now, settings = alderYard }) =>
    writeCareCard({ journal: job, now, settings }),
  report: ({ job, now, settings = alderYard }) =>
    writeReport({ journal: job, now, settings }),
  caption: ({ job }) => writeCaption({ journal: job, tags: ['Alder Yard'] }),
}

const jobsOf: Readonly<Record<string, readonly string[]>> = {
  listing: Object.keys(goldenJobs),
  care: ['strip-and-oil', 'not-cured', 'flaws', 'us-units', 'unchecked-clock'],
  report: ['commission', 'unchecked-clock'],
  caption: ['not-cured', 'set-of-three', 'missing-facts'],
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
