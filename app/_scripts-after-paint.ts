import type { IncomingMessage, ServerResponse } from 'node:http'
import compression from 'compression'
import { pageIsAlive } from './_page-alive'

/** A type that no browser runs makes an element of a script a block of data. */
const heldType = 'text/after-paint'

/**
 * Wakes the held scripts once the browser says that it has painted the page, and a frame later, as photos at hand are
 * decoded beside the first; where a page has a picture of high priority, once that is there too, if it is not long in
 * coming. A page that nobody sees is not painted, one whose styles do not come is painted late, and some browsers do
 * not tell: none must stay without its scripts. The framework's page of an error has nothing to paint before they run.
 * What the server still had to send when the page was painted is woken when all of it is there. Each is asked for in a
 * task of its own, so that a finger need not wait for all.
 *
 * A page that is seen is tapped: taps on buttons that only a script can answer are kept from everybody until the page is
 * alive, and done then, one after the other; one that was repeated because nothing happened is done once. A page may have
 * made a button anew by then: it is known by its name and its place among those of that name. What was tapped long ago is
 * not meant any more.
 *
 * Source: Paint Timing, W3C.
 */
const waking = `(() => {
  let isAwake = false
  const wake = () => {
    for (const held of document.querySelectorAll('script[type="${heldType}"]')) {
      const script = document.createElement('script')
      for (const { name, value } of held.attributes)
        if (name !== 'type') script.setAttribute(name, value)
      script.nonce = held.nonce
      setTimeout(() => held.replaceWith(script))
    }
  }
  const start = () => {
    if (isAwake) return
    isAwake = true
    wake()
    document.addEventListener('DOMContentLoaded', wake)
  }
  const startAfterFrame = () => requestAnimationFrame(() => setTimeout(start))
  new PerformanceObserver((seen) => {
    if (seen.getEntriesByName('first-contentful-paint').length === 0) return
    const picture = document.querySelector('img[fetchpriority="high"]')
    if (picture === null) startAfterFrame()
    else picture.decode().then(startAfterFrame, startAfterFrame)
  }).observe({ type: 'paint', buffered: true })
  requestAnimationFrame(() => setTimeout(start, 500))
  setTimeout(start, 2000)
  if (document.visibilityState === 'hidden' || document.documentElement.id === '__next_error__')
    start()

  const taps = []
  const nameOf = (button) => button.getAttribute('aria-label') ?? button.textContent
  const named = (name) =>
    [...document.querySelectorAll('button[type="button"]')].filter((one) => nameOf(one) === name)
  const keep = (tap) => {
    const button = tap.target.closest('button[type="button"]')
    if (button === null) return
    tap.stopImmediatePropagation()
    if (taps.at(-1)?.button === button) taps.pop()
    const name = nameOf(button)
    taps.push({ tap, button, name, place: named(name).indexOf(button) })
  }
  addEventListener('click', keep, true)
  addEventListener('${pageIsAlive}', () => {
    removeEventListener('click', keep, true)
    for (const { tap, button, name, place } of taps.splice(0)) {
      if (performance.now() - tap.timeStamp > 10000) continue
      setTimeout(() => {
        const there = button.isConnected ? button : named(name)[place]
        there?.dispatchEvent(new MouseEvent('click', tap))
      })
    }
  })
})()`.replaceAll(/\s*\n\s*/g, '\n')

const head = '<head>'
const script = /<script (src="\/_next\/static\/[^>]* async=""[^>]*)>/g
const preloaded = /<link rel="preload" as="script"[^>]*>/g

/**
 * Holds back the scripts of a page until the browser has painted it. The framework asks for them with `async`: on a network
 * as short as a workshop's own they are there as soon as the styles are, and a phone runs them, for a few tenths of a second,
 * before it shows anything. Held back, the page is seen first and comes alive at about the same time.
 *
 * The page may come in pieces that begin and end anywhere; each is given on but for a tag that it ends within.
 *
 * @param nonce by which the page's policy lets scripts run, in base64
 * Source: HTML Standard, "The script element" (data blocks; render-blocked documents get no animation frame).
 */
export function scriptsAfterPaint(nonce: string): {
  /** The next piece, changed, without what cannot be told yet. */
  readonly write: (piece: string) => string
  /** What was left. */
  readonly end: () => string
} {
  let rest = ''
  let hasHead = false
  const change = (text: string): string => {
    let changed = text
      .replaceAll(script, `<script type="${heldType}" $1>`)
      .replaceAll(preloaded, '')
    if (!hasHead && changed.includes(head)) {
      hasHead = true
      changed = changed.replace(
        head,
        () => `${head}<script nonce="${nonce}">${waking}</script>`,
      )
    }
    return changed
  }
  return {
    write: (piece) => {
      const text = rest + piece
      const tag = text.lastIndexOf('<')
      const whole = tag < 0 || text.includes('>', tag) ? text.length : tag
      rest = text.slice(whole)
      return change(text.slice(0, whole))
    },
    end: () => {
      const text = change(rest)
      rest = ''
      return text
    },
  }
}

const compress = compression()

/**
 * Has a page sent with its scripts held back until it is painted; what is no page, or runs no scripts, is sent as it is.
 * All is compressed where it is worth it, which must come after.
 */
export function holdScripts(
  request: IncomingMessage,
  response: ServerResponse,
): void {
  compress(request, response, () => undefined)
  const write = response.write.bind(response)
  const end = response.end.bind(response)
  const decoder = new TextDecoder()
  let page: ReturnType<typeof scriptsAfterPaint> | undefined
  let isBegun = false
  const changed = (piece: string | Uint8Array): string | Uint8Array => {
    if (!isBegun) {
      isBegun = true
      const nonce = nonceOfPage(response)
      if (nonce !== undefined) page = scriptsAfterPaint(nonce)
    }
    if (page === undefined) return piece
    return page.write(
      typeof piece === 'string'
        ? piece
        : decoder.decode(piece, { stream: true }),
    )
  }
  response.write = ((piece: string | Uint8Array, ...more: never[]) =>
    write(changed(piece), ...more)) as typeof write
  response.end = ((...given: unknown[]) => {
    const [piece, ...more] = given
    if (typeof piece === 'string' || piece instanceof Uint8Array) {
      const last = changed(piece)
      return page === undefined
        ? end(last, ...(more as never[]))
        : end(`${String(last)}${page.end()}`, ...(more as never[]))
    }
    const left = page?.end() ?? ''
    if (left !== '') write(left)
    return end(...(given as never[]))
  }) as typeof end
}

/** The nonce of a page that may be changed on its way. */
function nonceOfPage(response: ServerResponse): string | undefined {
  const type = response.getHeader('content-type')
  const policy = response.getHeader('content-security-policy')
  if (typeof type !== 'string' || !type.startsWith('text/html'))
    return undefined
  // Its length was told already.
  if (response.hasHeader('content-length')) return undefined
  return typeof policy === 'string'
    ? /'nonce-([A-Za-z0-9+/=]+)'/.exec(policy)?.[1]
    : undefined
}
