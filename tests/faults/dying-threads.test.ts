import { readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import type { WorkerOptions } from 'node:worker_threads'
import { afterEach, expect, test, vi } from 'vitest'
import { database, openDataFolder } from '#services/database/open-database'
import {
  endAlignmentThread,
  withAlignmentThread,
} from '#services/alignment/alignment-thread'
import { decodeHeic } from '#services/renditions/decode-heic'
import { openPicture } from '#services/renditions/open-picture'
import { renditionsIdle } from '#services/renditions/renditions'
import { withComment } from '../../lib/commands/with-comment'
import { callApi, memberOf, textOf } from '../support/api'
import { makeHeic } from '../support/make-heic'
import { makeJob } from '../support/make-job'
import { photoForm } from '../support/send-photos'
import { useWorkshop } from '../support/workshop'

/** What the next threads do in place of their work, one after the other; those after them do their work. */
const fates = vi.hoisted(() => [] as string[])

vi.mock('node:worker_threads', async (original) => {
  const real = await original<typeof import('node:worker_threads')>()
  class Fated extends real.Worker {
    constructor(file: string, options: WorkerOptions) {
      const fate = fates.shift()
      super(fate ?? file, { ...options, eval: fate !== undefined })
    }
  }
  return { ...real, default: { ...real, Worker: Fated }, Worker: Fated }
})

const killed = 'process.exit(137)'
const outOfMemory =
  'const all = []; for (;;) all.push({ more: new Array(1000).fill(all.length) })'
const hanging = 'for (;;) {}'

useWorkshop()
const furniture = readFileSync('prisma/demo/photos/job-a/01-before-front.jpg')
afterEach(async () => {
  fates.length = 0
  await endAlignmentThread()
})

const send = (job: string, bytes: Buffer) =>
  callApi('POST', `/api/jobs/${job}/photos`, {
    body: photoForm([['photo.heic', bytes]]),
  })
const thumbOf = async (sent: Response) =>
  callApi('GET', `/api/photos/${await textOf(sent, 'photos', 0, 'id')}/thumb`)

const warningsOf = async (sent: Response) =>
  JSON.stringify(await memberOf(sent, 'photos', 0, 'warnings'))
const notOpened =
  'The picture is kept, but could not be opened just now. Look at it here before you clear it from your phone.'

/** What is written to the log is asked for here, and forgotten. */
function expectLogged(words: string): void {
  const logged = vi.mocked(console.error)
  expect(logged.mock.calls.flat().map(String).join(' ')).toContain(words)
  logged.mockClear()
}

test('a photo whose decoder is killed is decoded by another one, and nobody need know', async () => {
  const job = await makeJob()
  fates.push(killed)
  const sent = await send(job.id, makeHeic())
  expect(sent.status).toBe(201)
  expect(await warningsOf(sent)).not.toContain(notOpened)
  expect((await thumbOf(sent)).status).toBe(200)
  expect(fates).toEqual([])
})

test('a photo whose decoder is killed each time is kept as it came, its owner told, and shown once it can be', async () => {
  const job = await makeJob()
  const bytes = makeHeic({ turns: 1 })
  // Twice before it is acknowledged, and twice for its renditions afterwards.
  fates.push(killed, killed, killed, killed)
  const sent = await send(job.id, bytes)
  expect(sent.status).toBe(201)
  expect(await warningsOf(sent)).toContain(notOpened)
  await renditionsIdle()
  expect(fates).toEqual([])
  expectLogged('the decoder ended without an answer')
  const id = await textOf(sent, 'photos', 0, 'id')
  const original = await callApi('GET', `/api/photos/${id}/original`)
  expect(Buffer.from(await original.arrayBuffer()).equals(bytes)).toBe(true)
  // The next one, and then this one.
  expect((await thumbOf(await send(job.id, makeHeic()))).status).toBe(200)
  expect((await thumbOf(sent)).status).toBe(200)
  // Nothing is said of flaws that nobody saw.
  const db = await database()
  const kept = await db.photo.findUniqueOrThrow({ where: { id } })
  expect(kept.warnings).not.toContain('flaws')
})

test('a photo whose decoder runs out of memory is refused with the reason, and the next one is taken', async () => {
  const job = await makeJob()
  fates.push(outOfMemory)
  const sent = await send(job.id, makeHeic())
  expect(sent.status).toBe(422)
  expect(await textOf(sent, 'rejected', 0, 'reason')).toBe(
    'The picture needs more memory than there is for one. Send it smaller, or as JPEG.',
  )
  expect((await send(job.id, makeHeic())).status).toBe(201)
})

test('a decoder that hangs is ended when its time is over, and the next one decodes', async () => {
  const { root } = await openDataFolder()
  const file = path.join(root, 'photo.heic')
  writeFileSync(file, makeHeic())
  fates.push(hanging)
  await expect(
    decodeHeic(file, undefined, { milliseconds: 200, bytes: 5e8 }),
  ).rejects.toThrow('too long')
  const decoded = await decodeHeic(file, undefined)
  expect(await openPicture(decoded).metadata()).toMatchObject({ width: 160 })
})

test('a pair whose alignment is killed is kept as it is and told so, and can be aligned again', async () => {
  const job = await makeJob()
  const add = async (name: string) => {
    const bytes = withComment(furniture, name)
    return textOf(await send(job.id, bytes), 'photos', 0, 'id')
  }
  const before = await add('before')
  const after = await add('after')
  await renditionsIdle()
  const pair = () =>
    callApi('POST', `/api/jobs/${job.id}/pairs`, { body: { before, after } })
  fates.push(killed)
  const first = await pair()
  expect(first.status).toBe(201)
  expect(await memberOf(first, 'accepted')).toBe(false)
  expect(await textOf(first, 'reason')).toBe(
    'Aligning them took more time or memory than it may.',
  )
  expectLogged('could not be aligned')
  const second = await pair()
  expect(await memberOf(second, 'accepted')).toBe(true)
})

test('an alignment that dies while it rests is started anew for the next pair', async () => {
  fates.push(`setTimeout(() => process.exit(1), 50)
    const { parentPort } = require('node:worker_threads')
    parentPort.on('message', () => parentPort.postMessage({ matches: new Float64Array() }))`)
  const work = () => withAlignmentThread((thread) => thread.features(100))
  expect(await work()).toEqual([])
  await wait(300)
  // The real one has no picture yet, and says so at once instead of never.
  await expect(work()).rejects.toThrow('the alignment failed')
})
