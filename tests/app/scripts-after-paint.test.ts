import { type RequestListener, createServer } from 'node:http'
import { afterEach, describe, expect, test } from 'vitest'
import { freePort } from '../../lib/commands/loopback'
import { holdScripts, scriptsAfterPaint } from '../../app/_scripts-after-paint'

// As the framework writes it: what is early in the head, what starts all of it, and what is none of it.
const page = `<!DOCTYPE html><html><head><meta charSet="utf-8"/>\
<link rel="stylesheet" href="/_next/static/chunks/a.css" nonce="bm9uY2U="/>\
<link rel="preload" as="script" fetchPriority="low" nonce="bm9uY2U=" href="/_next/static/chunks/b.js"/>\
<link rel="preload" as="image" imageSrcSet="/api/photos/1/card 800w"/>\
<script src="/_next/static/chunks/c.js" async="" nonce="bm9uY2U="></script>\
<script src="/_next/static/chunks/old.js" noModule="" nonce="bm9uY2U="></script></head>\
<body><header>Bench</header><p>“Prime” 2 &lt; 3, hälf <s>dry</s></p>\
<script nonce="bm9uY2U=">self.f.push("\\u003cscript src=\\"/_next/static/chunks/d.js\\" async=\\"\\">")</script>\
<script src="/_next/static/chunks/b.js" id="_R_" nonce="bm9uY2U=" async=""></script></body></html>`

function changed(pieces: readonly string[]): string {
  const { write, end } = scriptsAfterPaint('bm9uY2U=')
  return pieces.map((piece) => write(piece)).join('') + end()
}

describe('the scripts of a page', () => {
  test('are held, and nothing else of it is changed', () => {
    const whole = changed([page])
    const waking =
      /<head><script nonce="bm9uY2U=">(?:(?!<\/script>)[^])*<\/script>/
    expect(whole).toMatch(waking)
    expect(whole.replace(waking, '<head>')).toBe(
      page
        .replace(/<link rel="preload" as="script"[^>]*>/, '')
        .replace(
          '<script src="/_next/static/chunks/c.js"',
          '<script type="text/after-paint" src="/_next/static/chunks/c.js"',
        )
        .replace(
          '<script src="/_next/static/chunks/b.js"',
          '<script type="text/after-paint" src="/_next/static/chunks/b.js"',
        ),
    )
  })

  test('are held wherever the page is cut on its way', () => {
    const whole = changed([page])
    for (let at = 0; at <= page.length; at += 1) {
      expect(changed([page.slice(0, at), page.slice(at)])).toBe(whole)
    }
    expect(changed(page.split(/(?:)/u))).toBe(whole)
  })

  test('are held in a page without a head, which is not told how to wake them', () => {
    expect(changed(['<p>Only a part'])).toBe('<p>Only a part')
    expect(changed(['<p>Cut <script'])).toBe('<p>Cut <script')
  })
})

describe('a server that holds scripts', () => {
  let stop = (): Promise<void> => Promise.resolve()

  afterEach(() => stop())

  /** Asks a server that answers so; gives what came. */
  async function answerOf(
    listener: RequestListener,
    { compressed = false } = {},
  ): Promise<{ readonly body: Buffer; readonly headers: Headers }> {
    const server = createServer((request, response) => {
      holdScripts(request, response)
      listener(request, response)
    })
    const port = await freePort()
    await new Promise<void>((resolve) => {
      server.listen(port, '127.0.0.1', resolve)
    })
    stop = () =>
      new Promise((resolve) => {
        server.close(() => {
          resolve()
        })
      })
    const answer = await fetch(`http://127.0.0.1:${port}/`, {
      headers: {
        'accept-encoding': compressed ? 'gzip' : 'identity',
        connection: 'close',
      },
    })
    return {
      body: Buffer.from(await answer.arrayBuffer()),
      headers: answer.headers,
    }
  }

  const headers = {
    'content-type': 'text/html; charset=utf-8',
    'content-security-policy': "script-src 'self' 'nonce-bm9uY2U='",
  }

  test('sends a page changed, though its pieces end within a letter', async () => {
    const bytes = Buffer.from(page)
    const { body } = await answerOf((_, response) => {
      for (const [name, value] of Object.entries(headers))
        response.setHeader(name, value)
      response.flushHeaders()
      for (let at = 0; at < bytes.length; at += 1)
        response.write(bytes.subarray(at, at + 1))
      response.end()
    })
    expect(body.toString()).toBe(changed([page]))
  })

  test('sends a page compressed, its last piece with its end', async () => {
    const { body, headers: sent } = await answerOf(
      (_, response) => {
        for (const [name, value] of Object.entries(headers))
          response.setHeader(name, value)
        response.write(page.slice(0, 700))
        response.end(page.slice(700))
      },
      { compressed: true },
    )
    expect(sent.get('content-encoding')).toBe('gzip')
    expect(body.toString()).toBe(changed([page]))
  })

  test.each([
    ['what is no page', { ...headers, 'content-type': 'image/svg+xml' }],
    [
      'a page that runs no scripts',
      { ...headers, 'content-security-policy': "default-src 'none'" },
    ],
    [
      'a page whose length was told',
      { ...headers, 'content-length': String(Buffer.byteLength(page)) },
    ],
  ])('sends %s as it is', async (_, sent) => {
    const { body } = await answerOf((__, response) => {
      for (const [name, value] of Object.entries(sent))
        response.setHeader(name, value)
      response.write(page.slice(0, 300))
      response.end(page.slice(300))
    })
    expect(body.toString()).toBe(page)
  })

  test('may be told twice that a page has ended', async () => {
    const { body } = await answerOf((_, response) => {
      for (const [name, value] of Object.entries(headers))
        response.setHeader(name, value)
      response.write(page)
      response.end()
      response.end()
    })
    expect(body.toString()).toBe(changed([page]))
  })

  test('says so when a piece is sent, as a server does', async () => {
    let wasTold = false
    await answerOf((_, response) => {
      response.setHeader('content-type', 'text/plain')
      response.write('one', () => {
        wasTold = true
      })
      response.end('two')
    })
    expect(wasTold).toBe(true)
  })
})
