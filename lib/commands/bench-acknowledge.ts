import { createHash, randomUUID } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { open } from 'node:fs/promises'
import { Agent, request } from 'node:http'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { performance } from 'node:perf_hooks'
import { setTimeout as wait } from 'node:timers/promises'
import { closeDatabase } from '#services/database/open-database'
import { makeBenchJob, makeScene } from './bench-intake'
import { buildIfChanged } from './build-if-changed'
import { formOfPhoto } from './form-of-photo'
import { freePort, ipv4Loopback } from './loopback'
import { spawnServer, untilReady } from './spawn-server'
import { withComment } from './with-comment'

const warmUps = 8
const samples = 40
const restMilliseconds = 200
const target = 3
/** Of the JPEG: it comes to about 4 MB. */
const quality = 93

/**
 * Measures how long one photo of about 4 MB waits for its acknowledgement by the production server on this machine,
 * against writing, flushing and hashing the same bytes: medians, by turns, each when no rendition is being made. Prints
 * one line of JSON.
 *
 * @param root the folder of this package
 */
export async function benchAcknowledge(root: string): Promise<void> {
  if (!(await buildIfChanged(root))) throw new Error('the build failed')
  const folder = mkdtempSync(path.join(tmpdir(), 'coatbook-bench-'))
  const before = process.env['COATBOOK_DATA']
  process.env['COATBOOK_DATA'] = folder
  const job = await makeBenchJob()
  await closeDatabase()
  const port = await freePort()
  const server = spawnServer('start', root, port, { COATBOOK_DATA: folder })
  try {
    if (!(await untilReady(server, port))) {
      throw new Error('the server did not start')
    }
    const url = `http://${ipv4Loopback}:${port}`
    const scene = await makeScene(1, quality)
    const photoOf = (name: string) => withComment(scene, name)
    for (let count = 0; count < warmUps; count += 1) {
      const { id } = await send(port, job, photoOf(`warm ${count}`))
      await untilShown(url, id)
    }
    const times = { server: [] as number[], floor: [] as number[] }
    for (let count = 0; count < samples; count += 1) {
      const bytes = photoOf(`photo ${count}`)
      const { id, milliseconds } = await send(port, job, bytes)
      times.server.push(milliseconds)
      await untilShown(url, id)
      times.floor.push(await writeFlushHash(folder, bytes))
      await wait(restMilliseconds)
    }
    const acknowledged = median(times.server)
    const floor = median(times.floor)
    console.log(
      JSON.stringify({
        bench: 'acknowledge',
        ratio: rounded(acknowledged / floor),
        target,
        megabytes: rounded(scene.byteLength / 1_000_000),
        acknowledgedMilliseconds: rounded(acknowledged),
        writeFlushHashMilliseconds: rounded(floor),
        samples,
      }),
    )
  } finally {
    agent.destroy()
    server.kill('SIGTERM')
    if (before === undefined) delete process.env['COATBOOK_DATA']
    else process.env['COATBOOK_DATA'] = before
    rmSync(folder, { recursive: true, force: true })
  }
}

const agent = new Agent({ keepAlive: true })

/** Sends a photo as a browser does. */
async function send(
  port: number,
  job: string,
  bytes: Buffer,
): Promise<{ readonly id: string; readonly milliseconds: number }> {
  const form = Buffer.concat([formOfPhoto.before, bytes, formOfPhoto.after])
  const start = performance.now()
  const said = await new Promise<string>((resolve, reject) => {
    const posting = request(
      {
        host: ipv4Loopback,
        port,
        path: `/api/jobs/${job}/photos`,
        method: 'POST',
        agent,
        headers: {
          'content-type': formOfPhoto.contentType,
          'content-length': form.byteLength,
        },
      },
      (answer) => {
        let text = ''
        answer.on('data', (chunk: Buffer) => {
          text += chunk.toString()
        })
        answer.on('end', () => {
          resolve(text)
        })
      },
    )
    posting.on('error', reject)
    posting.end(form)
  })
  const milliseconds = performance.now() - start
  const id = /"id":"([^"]+)"/.exec(said)?.[1]
  if (id === undefined) throw new Error(`the photo was not kept: ${said}`)
  return { id, milliseconds }
}

/** Asking for a rendition waits until it is made; then what is read from it is written down, and the machine rests. */
async function untilShown(url: string, id: string): Promise<void> {
  const answer = await fetch(`${url}/api/photos/${id}/thumb`)
  await answer.arrayBuffer()
  await wait(restMilliseconds)
}

async function writeFlushHash(folder: string, bytes: Buffer): Promise<number> {
  const file = path.join(folder, randomUUID())
  const start = performance.now()
  createHash('sha256').update(bytes).digest()
  const handle = await open(file, 'wx')
  await handle.writeFile(bytes)
  await handle.sync()
  await handle.close()
  const spent = performance.now() - start
  rmSync(file)
  return spent
}

function median(values: readonly number[]): number {
  return values.toSorted((one, other) => one - other)[values.length >> 1] ?? NaN
}

function rounded(value: number): number {
  return Math.round(value * 100) / 100
}
