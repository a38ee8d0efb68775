import { readFileSync, readdirSync } from 'node:fs'
import path from 'node:path'
import { expect, test } from 'vitest'
import { writeListing } from '#core/write-ups/write-listing'
import { goldenJobs } from './golden-jobs.ts'
import { alderYard } from './jobs.ts'

// Kept texts, written for made-up jobs and read aloud until nothing in them jarred; a change of words shows here.
const folder = path.join(import.meta.dirname, 'golden')

function kept(file: string): string {
  return readFileSync(path.join(folder, file), 'utf8')
}

test.each(Object.entries(goldenJobs))(
  'the listing of %s, and what it asks',
  (name, { job, now, settings = alderYard }) => {
    const { text, missing } = writeListing({ journal: job, now, settings })
    const asked = missing.map(({ question }) => `- ${question}\n`).join('')
    expect(`${text}\n\n== Asked ==\n${asked}`).toBe(kept(`listing-${name}.txt`))
  },
)

test('every kept listing belongs to a job', () => {
  expect(
    readdirSync(folder)
      .filter((file) => file.startsWith('listing-'))
      .toSorted(),
  ).toEqual(
    Object.keys(goldenJobs)
      .map((name) => `listing-${name}.txt`)
      .toSorted(),
  )
})
