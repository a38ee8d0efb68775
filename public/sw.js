/*
 * The service worker: what was seen last can be seen without a network.
 *
 * Hashed files never change, so the kept copy answers. Pages are asked for first and kept for when nobody answers; then
 * the page says so (`data-kept` on its root element; `instead` where another page was asked for). Everything else goes
 * by: above all what is sent, which must never pass through here. A browser that is let in no more keeps no pages: the
 * files are the program's own and stay.
 */
const version = 'coatbook-2'
const files = `${version}-files`
const pages = `${version}-pages`
/** What is kept before anybody looks at it, once this browser is let in, and kept anew as the journal goes on. */
const first = ['/', '/snap']
/** So long a kept page is new enough. */
const freshMilliseconds = 60_000
/** A kept page says in this header of its own when it was kept, by the clock that it is held against later. */
const keptAt = 'coatbook-kept-at'
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
  } else if (typeof event.data?.seen === 'string') {
    event.waitUntil(keepSeen(event.data).catch(() => undefined))
  }
})

/**
 * Keeps of the first pages those that are not kept yet, for a phone that is just being paired had none to keep before, and
 * anew those that are no longer fresh: by its links the app goes from page to page without asking for a whole one. A page
 * that cannot be had stays as it was kept.
 */
async function keepFirst() {
  // Opened before anything is asked for: once the pages are dropped, what comes late goes into what was dropped.
  const cache = await caches.open(pages)
  await Promise.allSettled(
    first.map(async (path) => {
      if (!isFresh(await cache.match(path))) await keepWhole(cache, path)
    }),
  )
}

function isFresh(kept) {
  const age = Date.now() - timeOf(kept)
  return age >= 0 && age < freshMilliseconds
}

/** When a page was kept, in milliseconds since 1970; no number where it was not. */
function timeOf(kept) {
  return Number(kept?.headers.get(keptAt) ?? NaN)
}

/** Keeps a page as its owner saw it, who came to it by a link of the app at `since`: its copy may be from before. */
async function keepSeen({ seen, since }) {
  if (neverKept(seen) || strangers.includes(seen) || first.includes(seen))
    return
  const cache = await caches.open(pages)
  const keptSince = timeOf(await cache.match(seen))
  if (keptSince >= since && keptSince <= Date.now()) return
  await keepWhole(cache, seen)
  await trim(cache, mostPages)
}

/** What waits to be sent lies elsewhere and stays. */
function dropPages() {
  return caches.delete(pages)
}

/** Keeps a page that nobody has looked at, once all the files that it names are kept. */
async function keepWhole(cache, path) {
  // Nobody waits for it; on a dead line it must not take the place of what somebody does wait for.
  const answer = await fetch(path, {
    signal: AbortSignal.timeout(patienceMilliseconds),
  })
  if (!answer.ok || !isPage(answer)) return
  const text = await answer.text()
  const fileCache = await caches.open(files)
  const named = filesNamedIn(text)
  const isMissing = await Promise.all(
    named.map(async (file) => (await fileCache.match(file)) === undefined),
  )
  await fileCache.addAll(named.filter((_file, index) => isMissing[index]))
  await cache.put(path, withTime(answer, text))
  await trimFiles(fileCache)
}

function filesNamedIn(text) {
  return [...new Set(text.match(/\/_next\/static\/[\w./~-]+/g) ?? [])]
}

/** A page as it is kept: it says when that was. */
function withTime({ headers, status }, body) {
  const kept = new Headers(headers)
  kept.set(keptAt, String(Date.now()))
  return new Response(body, { status, headers: kept })
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
    event.respondWith(fileFirst(event))
  } else if (request.mode === 'navigate' && !neverKept(url.pathname)) {
    event.respondWith(networkFirst(event, url))
  }
})

/** What is no page of the journal, and the portfolio: what its owner takes down must be gone at once, here too. */
function neverKept(path) {
  return path.startsWith('/api/') || /^\/portfolio(?:\/|$)/.test(path)
}

async function fileFirst(event) {
  const { request } = event
  const cache = await caches.open(files)
  const kept = await cache.match(request)
  if (kept !== undefined) return kept
  const answer = await fetch(request)
  if (answer.ok) {
    await cache.put(request, answer.clone())
    // The page waits for the file, not for this.
    event.waitUntil(trimFiles(cache))
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
          .put(url.pathname, withTime(answer, answer.clone().body))
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
async function trim(cache, most, stays = () => false) {
  await Promise.all(
    (await tooMany(cache, most))
      .filter((key) => !stays(key))
      .map((key) => cache.delete(key)),
  )
}

async function tooMany(cache, most) {
  const keys = await cache.keys()
  return keys.slice(0, Math.max(0, keys.length - most))
}

/** What a kept page names stays as long as the page: without its styles and scripts it is of no use. */
async function trimFiles(cache) {
  if ((await tooMany(cache, mostFiles)).length === 0) return
  const pageCache = await caches.open(pages)
  const kept = await Promise.all(
    (await pageCache.keys()).map((key) => pageCache.match(key)),
  )
  // A page may have been dropped meanwhile.
  const texts = await Promise.all(kept.map((page) => page?.text() ?? ''))
  const named = new Set(texts.flatMap(filesNamedIn))
  await trim(cache, mostFiles, (key) => named.has(new URL(key.url).pathname))
}
