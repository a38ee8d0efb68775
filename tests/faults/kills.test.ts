import { type ChildProcess, fork } from 'node:child_process'
import { once } from 'node:events'
import { readFileSync } from 'node:fs'
import path from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { closeDatabase, openDataFolder } from '#services/database/open-database'
import { type Victim, killUploads } from '../../lib/commands/kill-uploads'
import { makeJob } from '../support/make-job'
import { makePhoto } from '../support/make-photo'
import { closeWorkshop, openWorkshop } from '../support/workshop'

const kills = 40
let root = ''
let waiting: ChildProcess | undefined
beforeAll(() => {
  root = openWorkshop()
})
afterAll(async () => {
  waiting?.kill('SIGKILL')
  await closeWorkshop(root)
})

/** Loads the program in a process that waits to be told to serve: the next one loads while this one is being killed. */
function load(): ChildProcess {
  return fork(path.join('tests', 'support', 'upload-server.ts'), [], {
    execArgv: ['--import', 'tsx', '--conditions=react-server'],
    stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
    env: { ...process.env, COATBOOK_DATA: root },
  })
}

async function start(): Promise<Victim> {
  const child = waiting ?? load()
  const ready = waiting === undefined ? once(child, 'message') : loaded
  await Promise.race([ready, diedOf(child)])
  child.send('serve')
  const answer: readonly unknown[] = await Promise.race([
    once(child, 'message'),
    diedOf(child),
  ])
  waiting = load()
  loaded = once(waiting, 'message')
  return {
    url: `http://127.0.0.1:${String(answer[0])}`,
    kill: async () => {
      const gone = once(child, 'exit')
      child.kill('SIGKILL')
      await gone
    },
  }
}
/** A server that dies before it is killed is a fault of its own, and not to be waited for. */
async function diedOf(child: ChildProcess): Promise<never> {
  await once(child, 'exit')
  throw new Error('the server died before it was killed')
}
let loaded: Promise<unknown> = Promise.resolve()

test(
  `no photo that was acknowledged is lost when the program is killed ${kills} times`,
  { timeout: 1_200_000 },
  async () => {
    const job = await makeJob()
    await openDataFolder()
    await closeDatabase()
    const photos = [
      readFileSync('prisma/demo/photos/job-a/01-before-front.jpg'),
      readFileSync('prisma/demo/photos/job-a/10-primer-1-front.jpg'),
      await makePhoto({ width: 300, height: 200 }),
    ]
    const figures = await killUploads(root, job.id, kills, photos, start)
    expect(figures).toEqual({
      kills,
      acknowledged: figures.acknowledged,
      lost: 0,
      recordsOfNothing: 0,
      leftovers: 0,
    })
    // That there was something to lose.
    expect(figures.acknowledged).toBeGreaterThan(kills)
  },
)
