import type { ChildProcess } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { now } from '#services/clock'
import { fillBenchJournal } from './bench-journal'
import { buildIfChanged } from './build-if-changed'
import { freePort, ipv4Loopback } from './loopback'
import { spawnServer, untilReady } from './spawn-server'

const target = 1.5
const few = 10
const many = 1000
const warmUps = 15
const samples = 60

/**
 * How much longer the bench takes with 1,000 jobs and 50,000 photos than with 10 and 500: medians of whole answers from
 * two production servers in one run, asked in turn after a warm-up. Prints a line of JSON for the page and one for the
 * interface.
 *
 * @param root the folder of this package
 */
export async function benchBenchPage(root: string): Promise<void> {
  if (!(await buildIfChanged(root))) throw new Error('the build failed')
  const servers: Server[] = []
  try {
    for (const count of [few, many]) servers.push(await serverWith(count, root))
    for (const [bench, address] of [
      ['bench-page', '/'],
      ['bench-api', '/api/bench?size=24'],
    ] as const) {
      const figures = await compare(address, servers)
      console.log(JSON.stringify({ bench, target, ...figures }))
    }
    // All of it grows with the jobs that are on it, so it has no target.
    const figures = await compare('/api/bench', servers)
    console.log(JSON.stringify({ bench: 'bench-api-whole', ...figures }))
  } finally {
    for (const { child, folder } of servers) {
      child.kill('SIGTERM')
      rmSync(folder, { recursive: true, force: true })
    }
  }
}

type Server = {
  readonly child: ChildProcess
  readonly port: number
  readonly folder: string
}

async function serverWith(count: number, root: string): Promise<Server> {
  const folder = mkdtempSync(path.join(tmpdir(), 'coatbook-bench-'))
  process.env['COATBOOK_DATA'] = folder
  await fillBenchJournal(count, now())
  const port = await freePort()
  const child = spawnServer('start', root, port, { COATBOOK_DATA: folder })
  if (!(await untilReady(child, port))) {
    throw new Error('the server did not start')
  }
  return { child, port, folder }
}

async function compare(address: string, servers: readonly Server[]) {
  const times = servers.map((): number[] => [])
  for (let round = 0; round < warmUps + samples; round += 1) {
    for (const [index, { port }] of servers.entries()) {
      const taken = await timeOf(`http://${ipv4Loopback}:${port}${address}`)
      if (round >= warmUps) times[index]?.push(taken)
    }
  }
  const [fewMilliseconds = 0, manyMilliseconds = 0] = times.map(median)
  return {
    ratio: Number((manyMilliseconds / fewMilliseconds).toFixed(2)),
    fewMilliseconds: Number(fewMilliseconds.toFixed(2)),
    manyMilliseconds: Number(manyMilliseconds.toFixed(2)),
  }
}

async function timeOf(url: string): Promise<number> {
  const start = performance.now()
  const answer = await fetch(url)
  await answer.arrayBuffer()
  if (!answer.ok) throw new Error(`${url} answered ${answer.status}`)
  return performance.now() - start
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((one, other) => one - other)
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN
}
