import type { ChildProcess } from 'node:child_process'
import { createHash } from 'node:crypto'
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { buildIfChanged } from './build-if-changed'
import { freePort, ipv4Loopback } from './loopback'
import { type Acknowledged, countLost } from './lost-photos'
import { spawnServer, untilReady } from './spawn-server'
import { withComment } from './with-comment'

const phones = 20
const readers = 20
const usualSeconds = 180
/** A thumb does not press again at once. */
const pauseMilliseconds = 500
/** How much more the server may hold in the last third of the time than in the second. */
const targetGrowth = 1.25

type Tally = { readonly milliseconds: number[]; readonly faults: string[] }

/**
 * Twenty phones that send photos and twenty people who read, all at once for three minutes (COATBOOK_LOAD_SECONDS), against
 * a production server: how long they wait, whether anything was refused, whether every photo that was acknowledged is
 * there afterwards byte for byte, and what the server's memory did. Prints a line of JSON for each.
 *
 * @param root the folder of this package
 * @throws Error when a request failed or a photo was lost
 */
export async function benchLoad(root: string): Promise<void> {
  if (!(await buildIfChanged(root))) throw new Error('the build failed')
  const seconds = Number(process.env['COATBOOK_LOAD_SECONDS'] ?? usualSeconds)
  const folder = mkdtempSync(path.join(tmpdir(), 'coatbook-load-'))
  const port = await freePort()
  const child = spawnServer('start', root, port, {
    COATBOOK_DATA: folder,
    COATBOOK_DEMO: 'off',
  })
  try {
    if (!(await untilReady(child, port))) {
      throw new Error('the server did not start')
    }
    const url = `http://${ipv4Loopback}:${String(port)}`
    const job = await addJob(url)
    const photos = demoPhotos(root)
    const floor = await floorOf(url)
    const uploads: Tally = { milliseconds: [], faults: [] }
    const reads: Tally = { milliseconds: [], faults: [] }
    const kept: Acknowledged[] = []
    const memory: number[] = []
    const until = performance.now() + seconds * 1000
    await Promise.all([
      watchMemory(child, memory, until),
      ...Array.from({ length: phones }, (_, phone) =>
        send(url, job, photos, phone, until, uploads, kept),
      ),
      ...Array.from({ length: readers }, (_, reader) =>
        read(url, job, kept, reader, until, reads),
      ),
    ])
    const lost = await countLost(url, kept)
    report('load-uploads', phones, uploads, floor)
    report('load-reads', readers, reads, floor)
    const growth = growthOf(memory)
    console.log(
      JSON.stringify({
        bench: 'load',
        seconds,
        acknowledged: kept.length,
        lost,
        faults: uploads.faults.length + reads.faults.length,
        megabytesAtFirst: memory[0] ?? null,
        megabytesAtMost: Math.max(...memory),
        growth: growth ?? null,
        target: targetGrowth,
      }),
    )
    const [fault] = [...uploads.faults, ...reads.faults]
    if (fault !== undefined) throw new Error(fault)
    if (lost > 0) throw new Error(`${String(lost)} photos were lost`)
  } finally {
    await ended(child)
    rmSync(folder, { recursive: true, force: true })
  }
}

async function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return
  const gone = new Promise((resolve) => child.once('exit', resolve))
  child.kill('SIGTERM')
  await gone
}

async function addJob(url: string): Promise<string> {
  const answer = await fetch(`${url}/api/jobs`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({
      title: 'A busy day',
      pieces: [
        { name: 'sideboard', kind: 'sideboard', surfaces: ['body', 'top'] },
      ],
    }),
  })
  return textIn(await answer.json(), 'id')
}

function demoPhotos(root: string): readonly Buffer[] {
  const folder = path.join(root, 'prisma', 'demo', 'photos', 'job-a')
  return readdirSync(folder)
    .filter((name) => name.endsWith('.jpg'))
    .map((name) => readFileSync(path.join(folder, name)))
}

/** The median wait for an answer without work, before the load. */
async function floorOf(url: string): Promise<number> {
  const times: number[] = []
  for (let count = 0; count < 50; count += 1) {
    times.push(await timed(() => fetch(`${url}/api/health`)))
  }
  return share(times, 0.5)
}

async function timed(work: () => Promise<Response>): Promise<number> {
  const since = performance.now()
  await (await work()).arrayBuffer()
  return performance.now() - since
}

async function send(
  url: string,
  job: string,
  photos: readonly Buffer[],
  phone: number,
  until: number,
  tally: Tally,
  kept: Acknowledged[],
): Promise<void> {
  for (let count = 0; performance.now() < until; count += 1) {
    const name = `${String(phone)}-${String(count)}`
    const photo = photos[(phone + count) % photos.length]
    if (photo === undefined) throw new Error('there is no photo to send')
    const bytes = withComment(photo, name)
    const form = new FormData()
    form.append('file', new Blob([new Uint8Array(bytes)]), `${name}.jpg`)
    await tried(tally, async () => {
      const answer = await fetch(`${url}/api/jobs/${job}/photos`, {
        method: 'POST',
        body: form,
        headers: { 'idempotency-key': `load-${name}` },
      })
      const told: unknown = await answer.json()
      if (answer.status !== 201) return `upload: ${String(answer.status)}`
      const sha256 = createHash('sha256').update(bytes).digest('hex')
      kept.push({ id: textIn(told, 'photos', '0', 'id'), sha256 })
      return undefined
    })
    await wait(pauseMilliseconds)
  }
}

async function read(
  url: string,
  job: string,
  kept: readonly Acknowledged[],
  reader: number,
  until: number,
  tally: Tally,
): Promise<void> {
  for (let count = 0; performance.now() < until; count += 1) {
    const photo = kept[(reader * 7 + count) % Math.max(1, kept.length)]
    const addresses = [
      '/',
      `/jobs/${job}/timeline`,
      '/api/bench',
      `/api/jobs/${job}/timeline`,
      '/jobs',
      ...(photo === undefined ? [] : [`/api/photos/${photo.id}/thumb`]),
    ]
    const address = addresses[(reader + count) % addresses.length] ?? '/'
    await tried(tally, async () => {
      const answer = await fetch(`${url}${address}`)
      await answer.arrayBuffer()
      return answer.ok ? undefined : `${address}: ${String(answer.status)}`
    })
    await wait(pauseMilliseconds)
  }
}

async function tried(
  { milliseconds, faults }: Tally,
  work: () => Promise<string | undefined>,
): Promise<void> {
  const since = performance.now()
  try {
    const fault = await work()
    if (fault === undefined) milliseconds.push(performance.now() - since)
    else faults.push(fault)
  } catch (error) {
    faults.push(error instanceof Error ? error.message : String(error))
  }
}

/** The memory of the server each second, in megabytes; none where the system does not tell. */
async function watchMemory(
  child: ChildProcess,
  memory: number[],
  until: number,
): Promise<void> {
  while (performance.now() < until) {
    try {
      const status = readFileSync(`/proc/${String(child.pid)}/status`, 'utf8')
      const [, kilobytes] = /^VmRSS:\s+(\d+) kB$/m.exec(status) ?? []
      if (kilobytes !== undefined) memory.push(Math.round(+kilobytes / 1000))
    } catch {
      // Only Linux has it.
      return
    }
    await wait(1000)
  }
}

/** The median of the last third over that of the second. */
function growthOf(memory: readonly number[]): number | undefined {
  const third = Math.floor(memory.length / 3)
  if (third === 0) return undefined
  const second = share(memory.slice(third, 2 * third), 0.5)
  return rounded(share(memory.slice(2 * third), 0.5) / second)
}

function report(
  bench: string,
  people: number,
  { milliseconds, faults }: Tally,
  floor: number,
): void {
  const at = (part: number) => rounded(share(milliseconds, part))
  console.log(
    JSON.stringify({
      bench,
      people,
      count: milliseconds.length,
      faults: faults.length,
      p50: at(0.5),
      p95: at(0.95),
      p99: at(0.99),
      most: at(1),
      floor: rounded(floor),
      p95OverFloor: rounded(share(milliseconds, 0.95) / floor),
    }),
  )
}

function share(values: readonly number[], part: number): number {
  const sorted = values.toSorted((one, other) => one - other)
  return sorted[Math.ceil(part * sorted.length) - 1] ?? NaN
}

function rounded(value: number): number {
  return Math.round(value * 100) / 100
}

function textIn(value: unknown, ...keys: readonly string[]): string {
  const found = keys.reduce<unknown>(
    (inner, key) =>
      typeof inner === 'object' && inner !== null
        ? Reflect.get(inner, key)
        : undefined,
    value,
  )
  if (typeof found !== 'string') throw new Error(`no ${keys.join('.')}`)
  return found
}
