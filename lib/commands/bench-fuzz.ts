import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs'
import { once } from 'node:events'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { buildIfChanged } from './build-if-changed'
import { type FuzzFigures, fuzzInterface } from './fuzz-interface'
import { toPart } from './fuzz-values'
import { freePort, ipv4Loopback } from './loopback'
import { spawnServer, untilReady } from './spawn-server'
import { withComment } from './with-comment'

const photosFolder = path.join('prisma', 'demo', 'photos', 'job-a')
/** A journal is begun anew after so long, as one that grows without end measures only that it is large. */
const roundMinutes = 10

/**
 * Sends the production server, over HTTP, what nobody should send: for an hour, or for as many minutes as
 * `COATBOOK_FUZZ_MINUTES` says. Prints one line of JSON for each journal that stood it, with the seed that sends the same
 * again (`COATBOOK_FUZZ_SEED`).
 *
 * @param root the folder of this package
 * @throws Error that names the first request after which something was wrong
 */
export async function benchFuzz(root: string): Promise<void> {
  if (!(await buildIfChanged(root))) throw new Error('the build failed')
  const minutes = settingOf('COATBOOK_FUZZ_MINUTES', 60)
  const begin = performance.now()
  const left = () => minutes - (performance.now() - begin) / 60_000
  let seed = settingOf('COATBOOK_FUZZ_SEED', Date.now() % 1_000_000)
  while (left() > 0) {
    const figures = await round(root, Math.min(roundMinutes, left()), seed)
    console.log(
      JSON.stringify({
        bench: 'fuzz',
        target: 'no answer of 500 or above, none missing, nothing half written',
        seed,
        ...figures,
      }),
    )
    seed += 1
  }
}

async function round(
  root: string,
  minutes: number,
  seed: number,
): Promise<FuzzFigures & { readonly closed: number }> {
  // Lines that the server closed before the whole request was out; sent again, it was answered.
  let closed = 0
  const folder = mkdtempSync(path.join(tmpdir(), 'coatbook-fuzz-'))
  const port = await freePort()
  const child = spawnServer('start', root, port, {
    COATBOOK_DATA: folder,
    COATBOOK_DEMO: 'off',
  })
  const url = `http://${ipv4Loopback}:${port}`
  const photos = readdirSync(photosFolder)
    .filter((name) => name.endsWith('.jpg'))
    .slice(0, 3)
    .map((name) => readFileSync(path.join(photosFolder, name)))
  const [first] = photos
  if (first === undefined) throw new Error('the demo has no photos')
  try {
    if (!(await untilReady(child, port))) {
      throw new Error('the server did not start')
    }
    const document = await fetch(`${url}/api/openapi.json`)
    const figures = await fuzzInterface(
      {
        document: toPart(await document.json()),
        send: ({ method, address, headers, body }) => {
          const ask = () =>
            fetch(`${url}${address}`, {
              method,
              headers,
              redirect: 'manual',
              ...(body === undefined ? {} : { body }),
            })
          return ask().catch(async (error: unknown) => {
            // A refusal may come, and the line be closed, before the body is out; a server that is gone stays gone.
            if ((await fetch(`${url}/api/health`)).status !== 200) throw error
            closed += 1
            return ask()
          })
        },
        root: folder,
        photos,
        alike: [withComment(first, 'one'), withComment(first, 'other')],
      },
      { milliseconds: minutes * 60_000, valuesOfAField: Infinity, seed },
    )
    return { ...figures, closed }
  } finally {
    if (child.exitCode === null && child.signalCode === null) {
      const gone = once(child, 'exit')
      child.kill('SIGTERM')
      await gone
    }
    rmSync(folder, { recursive: true, force: true })
  }
}

function settingOf(name: string, otherwise: number): number {
  const text = process.env[name]
  if (text === undefined) return otherwise
  const value = Number(text)
  if (!Number.isFinite(value) || value <= 0) {
    throw new Error(`${name}: expected a number above 0, got ${text}`)
  }
  return value
}
