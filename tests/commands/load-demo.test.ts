import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, afterEach, beforeEach, expect, test } from 'vitest'
import { endAlignmentThread } from '#services/alignment/alignment-thread'
import { closeDatabase } from '#services/database/open-database'
import { readJobs } from '#services/jobs/jobs'
import {
  readPublished,
  readPublishedPicture,
} from '#services/portfolio/published'
import { loadDemo } from '../../lib/commands/load-demo'
import { makeJob } from '../support/make-job'

let root = ''

beforeEach(() => {
  root = mkdtempSync(path.join(tmpdir(), 'coatbook-demo-'))
})

afterAll(async () => {
  await endAlignmentThread()
})

afterEach(async () => {
  await closeDatabase()
  delete process.env['COATBOOK_DATA']
  rmSync(root, { recursive: true, force: true })
})

test('after a start that was cut short the demo is loaded whole, and only once', async () => {
  // One start was cut short while it made the demo, another while it moved it into place.
  const half = path.join(root, 'demo-being-made')
  process.env['COATBOOK_DATA'] = half
  await makeJob('half a demo')
  await closeDatabase()
  delete process.env['COATBOOK_DATA']
  mkdirSync(path.join(root, 'originals', 'ab'), { recursive: true })

  expect(await loadDemo(root)).toBe(true)
  expect(readdirSync(root)).not.toContain('demo-being-made')

  process.env['COATBOOK_DATA'] = root
  const { jobs } = await readJobs(undefined, 10)
  expect(jobs.map((job) => [job.title, job.photoCount])).toEqual([
    ['Pine blanket box', 9],
    ['Oak sideboard and bench', 35],
  ])
  // Its portfolio came along, with its pictures.
  const [piece] = await readPublished()
  const picture = await readPublishedPicture(
    piece?.slug ?? '',
    'front-after-720.webp',
  )
  expect(picture?.path.startsWith(root)).toBe(true)
  await closeDatabase()
  expect(await loadDemo(root)).toBe(false)
  // Its pairs are laid on each other, which takes a while on a busy machine.
})
