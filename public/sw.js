/*
 * The service worker: what was seen last can be seen without a network.
 *
 * Hashed files never change, so the kept copy answers. Pages are asked for first and kept for when nobody answers; then
 * the page says so (`data-kept` on its root element; `instead` where another page was asked for). Everything else goes by: above all what is sent, which must never
 * pass through here. A browser that is let in no more keeps no pages: the files are the program's own and stay.
 */
const version = 'coatbook-2'
const files = `${version}-files`
const pages = `${version}-pages`
/** What is kept before anybody looks at it, once this browser is let in. */
const first = ['/', '/snap']
/** Where whoever is not let in ends; never kept. */
const strangers = ['/sign-in', '/pair']
/** The bench has this behind its address where it is shown in place of a page that is not kept. */
const instead = '?instead'
const mostFiles = 200
const mostPages = 40
/** A server that takes longer on a local network is as good as gone, when there is a kept page. */
const patienceMilliseconds = 6000

self.addEventListener('install', (event) => {
  event.waitUntil(
    keepFirst()
      // Without them the first visit still works.
      .catch(() => undefined)
      .then(() => self.skipWaiting()),
  )
})

self.addEventListener('message', (event) => {
  if (event.data === 'keep') {
    event.waitUntil(keepFirst().catch(() => undefined))
  } else if (event.data === 'drop') {
    event.waitUntil(dropPages())
  }
})

/** Keeps of the first pages those that are not kept yet: a phone that is just being paired had none to keep before. */
async function keepFirst() {
  const cache = await caches.open(pages)
  await Promise.all(
    first.map(async (path) => {
      if ((await cache.match(path)) === undefined) await keepWhole(path)
    }),
  )
}

/** What waits to be sent lies elsewhere and stays. */
function dropPages() {
  return caches.delete(pages)
}

/** Keeps a page that nobody has looked at yet, with all the files that it names. */
async function keepWhole(path) {
  const answer = await fetch(path)
  if (!answer.ok || !isPage(answer)) return
  const text = await answer.clone().text()
  await (await caches.open(pages)).put(path, answer)
  const named = text.match(/\/_next\/static\/[\w./~-]+/g) ?? []
  await (await caches.open(files)).addAll([...new Set(named)])
}

self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) =>
        Promise.all(
          names
            .filter((name) => !name.startsWith(version))
            .map((name) => caches.delete(name)),
        ),
      )
      .then(() => self.clients.claim()),
  )
})

self.addEventListener('fetch', (event) => {
  const { request } = event
  const url = new URL(request.url)
  if (request.method !== 'GET' || url.origin !== self.location.origin) return
  if (url.pathname.startsWith('/_next/static/')) {
    event.respondWith(fileFirst(request))
  } else if (request.mode === 'navigate' && !neverKept(url.pathname)) {
    event.respondWith(networkFirst(event, url))
  }
})

/** What is no page of the journal, and the portfolio: what its owner takes down must be gone at once, here too. */
function neverKept(path) {
  return path.startsWith('/api/') || /^\/portfolio(?:\/|$)/.test(path)
}

async function fileFirst(request) {
  const cache = await caches.open(files)
  const kept = await cache.match(request)
  if (kept !== undefined) return kept
  const answer = await fetch(request)
  if (answer.ok) {
    await cache.put(request, answer.clone())
    await trim(cache, mostFiles)
  }
  return answer
}

async function networkFirst(event, url) {
  const cache = await caches.open(pages)
  const kept = await cache.match(url.pathname)
  try {
    const answer = await (kept === undefined
      ? fetch(event.request)
      : Promise.race([fetch(event.request), impatience()]))
    if (url.pathname === '/sign-in' && answer.ok) {
      event.waitUntil(dropPages())
    } else if (
      answer.ok &&
      isPage(answer) &&
      !strangers.includes(url.pathname)
    ) {
      event.waitUntil(
        cache
          .put(url.pathname, answer.clone())
          .then(() => trim(cache, mostPages)),
      )
    }
    return answer
  } catch (error) {
    const shown = kept ?? (await cache.match('/'))
    if (shown === undefined) throw error
    // Another page than the one that was asked for belongs at its own address, and says that it is another.
    return kept === undefined && url.pathname !== '/'
      ? Response.redirect(`/${instead}`, 302)
      : marked(shown, url.search === instead ? 'instead' : '')
  }
}

function isPage(answer) {
  return (
    !answer.redirected &&
    (answer.headers.get('content-type') ?? '').startsWith('text/html')
  )
}

function impatience() {
  return new Promise((_resolve, reject) => {
    setTimeout(() => {
      reject(new Error('no answer'))
    }, patienceMilliseconds)
  })
}

/** A kept page, with a mark on it by which its style shows that it is one. */
async function marked(page, how) {
  const text = await page.text()
  return new Response(text.replace('<html ', `<html data-kept="${how}" `), {
    headers: page.headers,
  })
}

/** What was kept first goes first. */
async function trim(cache, most) {
  const keys = await cache.keys()
  await Promise.all(
    keys
      .slice(0, Math.max(0, keys.length - most))
      .map((key) => cache.delete(key)),
  )
}
