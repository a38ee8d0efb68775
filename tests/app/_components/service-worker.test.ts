import { readFileSync } from 'node:fs'
import { runInNewContext } from 'node:vm'
import { expect, test } from 'vitest'

type Listener = (event: Record<string, unknown>) => void
type Asked = string | { readonly url: string }

const minute = 60_000

/**
 * The worker with a workshop that lets in or not, and caches that are plain maps, as far as the worker uses them. Every
 * page of the workshop names the build's own files, and says which build it is of.
 */
function startWorker() {
  const caches = new Map<string, Map<string, Response>>()
  const listeners = new Map<string, Listener>()
  const asked: string[] = []
  const workshop = {
    letsIn: false,
    answers: true,
    hasFiles: true,
    build: 'oak',
    now: Date.UTC(2026, 10, 27),
  }
  const pathOf = (request: Asked) =>
    typeof request === 'string' ? request : new URL(request.url).pathname
  function open(name: string) {
    const held = caches.get(name) ?? new Map<string, Response>()
    caches.set(name, held)
    const put = (request: Asked, answer: Response) => {
      const path = pathOf(request)
      // What is kept anew goes to the end.
      held.delete(path)
      held.set(path, answer)
      return Promise.resolve()
    }
    return Promise.resolve({
      match: (request: Asked) =>
        Promise.resolve(held.get(pathOf(request))?.clone()),
      put,
      addAll: async (paths: readonly string[]) => {
        const answers = await Promise.all(paths.map(fetchAny))
        if (answers.some(({ ok }) => !ok)) throw new TypeError('not all there')
        for (const [index, answer] of answers.entries()) {
          await put(paths[index] ?? '', answer)
        }
      },
      keys: () =>
        Promise.resolve(
          [...held.keys()].map((path) => ({
            url: `https://workshop.test${path}`,
          })),
        ),
      delete: (request: Asked) => Promise.resolve(held.delete(pathOf(request))),
    })
  }
  function fetchAny(request: Asked) {
    const path = pathOf(request)
    asked.push(path)
    if (!workshop.answers) return Promise.reject(new TypeError('no network'))
    if (path.startsWith('/_next/static/')) {
      const status = workshop.hasFiles ? 200 : 404
      return Promise.resolve(new Response(path, { status }))
    }
    const { build } = workshop
    const text = `<html lang="en"><script src="/_next/static/${build}.js"></script>`
    const answer = new Response(text, {
      headers: { 'content-type': 'text/html; charset=utf-8' },
    })
    const turned = !workshop.letsIn && !['/sign-in', '/pair'].includes(path)
    Object.defineProperty(answer, 'redirected', { value: turned })
    return Promise.resolve(answer)
  }
  runInNewContext(readFileSync('public/sw.js', 'utf8'), {
    self: {
      addEventListener: (type: string, listener: Listener) =>
        listeners.set(type, listener),
      location: { origin: 'https://workshop.test' },
      skipWaiting: () => Promise.resolve(),
      clients: { claim: () => Promise.resolve() },
    },
    caches: {
      open,
      keys: () => Promise.resolve([...caches.keys()]),
      delete: (name: string) => Promise.resolve(caches.delete(name)),
    },
    fetch: fetchAny,
    URL,
    Headers,
    AbortSignal,
    Date: { now: () => workshop.now },
    // Redirects of the platform's own want a whole address, which a worker need not write.
    Response: class extends Response {
      static override redirect(to: string) {
        return new Response(null, { status: 302, headers: { location: to } })
      }
    },
    setTimeout: () => 0,
  })
  async function tell(type: string, values: Record<string, unknown> = {}) {
    const waits: unknown[] = []
    listeners.get(type)?.({
      ...values,
      waitUntil: (wait: unknown) => waits.push(wait),
      respondWith: (wait: unknown) => waits.push(wait),
    })
    // What is answered may ask to be waited for in turn.
    for (let done = 0; done < waits.length; done++) await waits[done]
    return waits
  }
  return {
    workshop,
    asked,
    install: () => tell('install'),
    say: (data: unknown) => tell('message', { data }),
    visit: (path: string) =>
      tell('fetch', {
        request: {
          method: 'GET',
          mode: 'navigate',
          url: `https://workshop.test${path}`,
        },
      }),
    load: (file: string) =>
      tell('fetch', {
        request: {
          method: 'GET',
          mode: 'cors',
          url: `https://workshop.test/_next/static/${file}`,
        },
      }),
    /** Where a visit ends, and what is shown there. */
    seen: async (path: string) => {
      const [answer] = await tell('fetch', {
        request: {
          method: 'GET',
          mode: 'navigate',
          url: `https://workshop.test${path}`,
        },
      })
      return (await answer) as Response
    },
    keptPages: () => keptIn('pages').sort(),
    keptFiles: () => keptIn('files'),
  }
  function keptIn(which: 'pages' | 'files') {
    return [...caches]
      .filter(([name]) => name.endsWith(`-${which}`))
      .flatMap(([, held]) => [...held.keys()])
  }
}

/** The same in a browser that is let in, with the first pages kept. */
async function startLetIn() {
  const worker = startWorker()
  worker.workshop.letsIn = true
  await worker.install()
  return worker
}

test('a phone that is paired after its first visit gets the first pages kept, once', async () => {
  const worker = startWorker()
  await worker.install()
  await worker.visit('/pair')
  expect(worker.keptPages()).toEqual([])
  worker.workshop.letsIn = true
  await worker.say('keep')
  expect(worker.keptPages()).toEqual(['/', '/snap'])
  const asked = worker.asked.length
  await worker.say('keep')
  expect(worker.asked).toHaveLength(asked)
})

test('what a stranger is shown is never kept, whoever asks for it', async () => {
  const worker = startWorker()
  await worker.install()
  await worker.say('keep')
  for (const path of ['/', '/snap', '/sign-in', '/pair']) {
    await worker.visit(path)
  }
  expect(worker.keptPages()).toEqual([])
})

test('signing out drops the kept pages', async () => {
  const worker = await startLetIn()
  await worker.visit('/shelf')
  expect(worker.keptPages()).toEqual(['/', '/shelf', '/snap'])
  await worker.say('drop')
  expect(worker.keptPages()).toEqual([])
})

test('a visit that ends at the page for signing in drops the kept pages', async () => {
  const worker = await startLetIn()
  await worker.visit('/shelf')
  worker.workshop.letsIn = false
  await worker.visit('/sign-in')
  expect(worker.keptPages()).toEqual([])
})

test('no page of the portfolio is kept: what its owner takes down must be gone here too', async () => {
  const worker = await startLetIn()
  for (const path of ['/portfolio', '/portfolio/oak-sideboard']) {
    await worker.visit(path)
  }
  expect(worker.keptPages()).toEqual(['/', '/snap'])
  // A page of the journal that only begins alike is.
  await worker.visit('/portfolios')
  expect(worker.keptPages()).toEqual(['/', '/portfolios', '/snap'])
})

test('without a network a page that is not kept is named as missing, not passed off as the bench', async () => {
  const worker = await startLetIn()
  worker.workshop.answers = false
  const end = await worker.seen('/jobs/new')
  expect(end.headers.get('location')).toBe('/?instead')
  const bench = await worker.seen('/?instead')
  expect(await bench.text()).toContain('data-kept="instead"')
})

test('a page that is kept says only that it is kept', async () => {
  const worker = await startLetIn()
  worker.workshop.answers = false
  const shown = await worker.seen('/snap')
  expect(await shown.text()).toContain('data-kept=""')
})

test('what is kept of the first pages is renewed once it is older than a minute', async () => {
  const worker = await startLetIn()
  const asked = worker.asked.length
  worker.workshop.now += minute - 1
  await worker.say('keep')
  expect(worker.asked).toHaveLength(asked)
  // The bench is asked for whole and is new; only what the owner went past by links is kept anew.
  await worker.visit('/')
  worker.workshop.now += minute - 1
  worker.workshop.build = 'ash'
  await worker.say('keep')
  expect(worker.asked.slice(asked)).toEqual([
    '/',
    '/snap',
    '/_next/static/ash.js',
  ])
  worker.workshop.answers = false
  const shown = await worker.seen('/snap')
  expect(await shown.text()).toContain('ash.js')
})

test('a clock that was set back does not make what is kept new for ever', async () => {
  const worker = await startLetIn()
  const asked = worker.asked.length
  worker.workshop.now -= 60 * minute
  await worker.say('keep')
  expect(worker.asked.slice(asked)).toEqual(['/', '/snap'])
})

test('a page that was come to by a link is kept as it was then, also where an older copy is there', async () => {
  const worker = await startLetIn()
  await worker.visit('/shelf')
  worker.workshop.now += 1
  worker.workshop.build = 'ash'
  const come = { seen: '/shelf', since: worker.workshop.now }
  await worker.say(come)
  const asked = worker.asked.length
  await worker.say(come)
  await worker.say({ ...come, seen: '/portfolio/pine-bench' })
  await worker.say({ ...come, seen: '/sign-in' })
  expect(worker.asked).toHaveLength(asked)
  worker.workshop.answers = false
  await worker.say({ ...come, since: worker.workshop.now + 1 })
  expect(await (await worker.seen('/shelf')).text()).toContain('ash.js')
})

test('files that are kept are not fetched anew with a page that is', async () => {
  const worker = await startLetIn()
  const asked = worker.asked.length
  worker.workshop.now += minute
  await worker.say('keep')
  expect(worker.asked.slice(asked)).toEqual(['/', '/snap'])
})

test.each([
  ['nobody answers', { answers: false }],
  ['a file that it names is not there', { hasFiles: false }],
  ['this phone is turned away', { letsIn: false }],
])('a kept page stays as it is when %s', async (_when, change) => {
  const worker = await startLetIn()
  worker.workshop.now += minute
  Object.assign(worker.workshop, change, { build: 'ash' })
  await worker.say('keep')
  worker.workshop.answers = false
  const shown = await worker.seen('/snap')
  expect(await shown.text()).toContain('oak.js')
  expect(worker.keptFiles()).toEqual(['/_next/static/oak.js'])
})

test('a page that comes after the kept ones were dropped is not kept', async () => {
  const worker = startWorker()
  worker.workshop.letsIn = true
  const keeping = worker.say('keep')
  await worker.say('drop')
  await keeping
  expect(worker.keptPages()).toEqual([])
})

test('a file that a kept page names outlasts any number of newer ones', async () => {
  const worker = startWorker()
  worker.workshop.letsIn = true
  await worker.load('elm.js')
  await worker.install()
  for (let count = 0; count < 250; count++) {
    await worker.load(`page-${count}.js`)
  }
  const kept = worker.keptFiles()
  expect(kept).toContain('/_next/static/oak.js')
  // Others go, the oldest first.
  expect(kept).not.toContain('/_next/static/elm.js')
  expect(kept).not.toContain('/_next/static/page-49.js')
  expect(kept).toContain('/_next/static/page-50.js')
})
