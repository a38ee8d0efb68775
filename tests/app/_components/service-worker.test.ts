import { readFileSync } from 'node:fs'
import { runInNewContext } from 'node:vm'
import { expect, test } from 'vitest'

type Listener = (event: Record<string, unknown>) => void

/** The worker with a workshop that lets in or not, and caches that are plain maps, as far as the worker uses them. */
function startWorker() {
  const caches = new Map<string, Map<string, Response>>()
  const listeners = new Map<string, Listener>()
  const asked: string[] = []
  const workshop = { letsIn: false, answers: true }
  const pathOf = (request: string | { readonly url: string }) =>
    typeof request === 'string' ? request : new URL(request.url).pathname
  function open(name: string) {
    const held = caches.get(name) ?? new Map<string, Response>()
    caches.set(name, held)
    return Promise.resolve({
      match: (path: string) => Promise.resolve(held.get(path)),
      put: (path: string, answer: Response) =>
        Promise.resolve(void held.set(path, answer)),
      addAll: () => Promise.resolve(),
      keys: () => Promise.resolve([...held.keys()]),
      delete: (path: string) => Promise.resolve(held.delete(path)),
    })
  }
  function fetchPage(request: string | { readonly url: string }) {
    const path = pathOf(request)
    asked.push(path)
    if (!workshop.answers) return Promise.reject(new TypeError('no network'))
    const answer = new Response('<html lang="en">', {
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
    fetch: fetchPage,
    URL,
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
    say: (data: string) => tell('message', { data }),
    visit: (path: string) =>
      tell('fetch', {
        request: {
          method: 'GET',
          mode: 'navigate',
          url: `https://workshop.test${path}`,
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
    keptPages: () =>
      [...caches]
        .filter(([name]) => name.endsWith('-pages'))
        .flatMap(([, held]) => [...held.keys()])
        .sort(),
  }
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
  const worker = startWorker()
  worker.workshop.letsIn = true
  await worker.install()
  await worker.visit('/shelf')
  expect(worker.keptPages()).toEqual(['/', '/shelf', '/snap'])
  await worker.say('drop')
  expect(worker.keptPages()).toEqual([])
})

test('a visit that ends at the page for signing in drops the kept pages', async () => {
  const worker = startWorker()
  worker.workshop.letsIn = true
  await worker.install()
  await worker.visit('/shelf')
  worker.workshop.letsIn = false
  await worker.visit('/sign-in')
  expect(worker.keptPages()).toEqual([])
})

test('no page of the portfolio is kept: what its owner takes down must be gone here too', async () => {
  const worker = startWorker()
  worker.workshop.letsIn = true
  await worker.install()
  for (const path of ['/portfolio', '/portfolio/oak-sideboard']) {
    await worker.visit(path)
  }
  expect(worker.keptPages()).toEqual(['/', '/snap'])
  // A page of the journal that only begins alike is.
  await worker.visit('/portfolios')
  expect(worker.keptPages()).toEqual(['/', '/portfolios', '/snap'])
})

test('without a network a page that is not kept is named as missing, not passed off as the bench', async () => {
  const worker = startWorker()
  worker.workshop.letsIn = true
  await worker.install()
  worker.workshop.answers = false
  const end = await worker.seen('/jobs/new')
  expect(end.headers.get('location')).toBe('/?instead')
  const bench = await worker.seen('/?instead')
  expect(await bench.text()).toContain('data-kept="instead"')
})

test('a page that is kept says only that it is kept', async () => {
  const worker = startWorker()
  worker.workshop.letsIn = true
  await worker.install()
  worker.workshop.answers = false
  const shown = await worker.seen('/snap')
  expect(await shown.text()).toContain('data-kept=""')
})
