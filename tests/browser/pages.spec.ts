import { gzipSync } from 'node:zlib'
import AxeBuilder from '@axe-core/playwright'
import type { APIRequestContext, Page, Route } from '@playwright/test'
import { expect, test } from '../support/alive-pages'
import { demoPicture } from '../support/demo-picture'
import { enlargeText, twice } from '../support/enlarge-text'
import { movedBy } from '../support/moved-by'
import { requestJob } from '../support/request-job'

/** The ids of what the pages are about. */
type Made = {
  readonly job: string
  readonly photo: string
  readonly step: string
  readonly product: string
}

/** A job with enough on it that every screen has something to show. */
async function addJob(request: APIRequestContext): Promise<Made> {
  const job = await answerOf(
    request.post('/api/jobs', {
      data: {
        title: 'Sideboard with a title long enough to need more than one line',
        pieces: [
          {
            name: 'sideboard',
            kind: 'sideboard',
            dimensions: { width: 150, depth: 45, height: 80, unit: 'cm' },
            surfaces: ['body', 'top', 'hardware'],
          },
          { name: 'bench', kind: 'bench', surfaces: ['body'] },
        ],
      },
    }),
  )
  const pieces = job['pieces'] as readonly {
    readonly surfaces: readonly { readonly id: string }[]
  }[]
  const surfaces = pieces.map((piece) => piece.surfaces[0]?.id ?? '')
  const product = await answerOf(
    request.post('/api/products', {
      data: {
        name: 'waterborne enamel, deep teal',
        category: 'paint',
        chemistry: 'waterborne-acrylic',
        label: { recoatMinutes: 60, recoatByMinutes: 10_080, cureDays: 30 },
      },
    }),
  )
  let photoId = ''
  let stepId = ''
  for (const [name, fields] of [
    ['01-before-front.jpg', { role: 'before', view: 'front' }],
    ['30-after-front.jpg', { role: 'after', view: 'front' }],
    ['15-paint-1-bench.jpg', { role: 'progress' }],
    ['16-paint-2-bench.jpg', { role: 'progress' }],
    ['09-scuffed-both.jpg', { role: 'progress' }],
  ] as const) {
    const kept = await answerOf(
      request.post(`/api/jobs/${String(job['id'])}/photos`, {
        multipart: {
          ...fields,
          file: demoPicture(name),
        },
      }),
    )
    const [photo] = kept['photos'] as readonly { readonly id: string }[]
    photoId = photo?.id ?? ''
    const coat = name.startsWith('15') ? 1 : name.startsWith('16') ? 2 : 0
    if (coat > 0) {
      const step = await answerOf(
        request.post(`/api/jobs/${String(job['id'])}/steps`, {
          data: {
            kind: 'coat',
            surfaces: [surfaces[1]],
            product: product['id'],
            coat,
            photos: [photo?.id],
            amount: { value: 180, unit: 'ml' },
            method: 'spray',
          },
        }),
      )
      stepId = String(step['id'])
    }
  }
  await answerOf(
    request.post(`/api/jobs/${String(job['id'])}/steps`, {
      data: {
        kind: 'coat',
        surfaces: [surfaces[0]],
        product: product['id'],
        startedAt: new Date(Date.now() - 600_000).toISOString(),
        finishedAt: new Date(Date.now() - 300_000).toISOString(),
      },
    }),
  )
  return {
    job: String(job['id']),
    photo: photoId,
    step: stepId,
    product: String(product['id']),
  }
}

async function answerOf(
  response: ReturnType<APIRequestContext['post']>,
): Promise<Record<string, unknown>> {
  const answer = await response
  expect(answer.status(), await answer.text()).toBe(201)
  return (await answer.json()) as Record<string, unknown>
}

const paths = ({ job, photo, step, product }: Made) => [
  '/',
  '/snap',
  `/snap/again/${photo}`,
  '/jobs',
  '/jobs/new',
  '/jobs/money',
  `/jobs/${job}/timeline`,
  `/jobs/${job}/photos`,
  `/jobs/${job}/materials`,
  `/jobs/${job}/materials?reader=buyer`,
  `/jobs/${job}/money`,
  `/jobs/${job}/sheets`,
  `/jobs/${job}/write-ups`,
  `/jobs/${job}/write-ups/listing`,
  `/jobs/${job}/write-ups/chapters`,
  `/jobs/${job}/details`,
  `/jobs/${job}/photos/${photo}`,
  `/jobs/${job}/steps/new`,
  `/jobs/${job}/steps/${step}`,
  '/shelf',
  '/shelf/new',
  `/shelf/${product}`,
  '/workshop',
  '/workshop/bin',
  '/nowhere',
]

let made: Made
test.beforeAll(async ({ playwright, baseURL }) => {
  const request = await playwright.request.newContext({
    ...(baseURL === undefined ? {} : { baseURL }),
  })
  made = await addJob(request)
  await request.dispose()
})

for (const width of [390, 1280]) {
  for (const colorScheme of ['light', 'dark'] as const) {
    test(`every page is sound for a screen reader and fits at ${width} px, ${colorScheme}`, async ({
      browser,
      baseURL,
    }) => {
      const context = await browser.newContext({
        viewport: { width, height: 844 },
        colorScheme,
        ...(baseURL === undefined ? {} : { baseURL }),
      })
      const page = await context.newPage()
      for (const at of paths(made)) {
        await page.goto(at)
        await expect(page.getByRole('heading', { level: 1 })).toHaveCount(1)
        const { violations } = await new AxeBuilder({ page })
          .withTags([
            'wcag2a',
            'wcag2aa',
            'wcag21a',
            'wcag21aa',
            'wcag22aa',
            'best-practice',
          ])
          .analyze()
        expect(
          violations.map((one) => [
            one.id,
            one.nodes.map((node) => node.target.join(' ')),
          ]),
          at,
        ).toEqual([])
        const sideways = await page.evaluate(
          () =>
            document.documentElement.scrollWidth -
            document.documentElement.clientWidth,
        )
        expect(sideways, `${at} scrolls sideways`).toBe(0)
      }
      await context.close()
    })
  }
}

test('the first page does not wait for the font of the app, and the next ones have it', async ({
  browser,
  baseURL,
}) => {
  const context = await browser.newContext({
    ...(baseURL === undefined ? {} : { baseURL }),
  })
  const page = await context.newPage()
  const family = () =>
    page.evaluate(() => getComputedStyle(document.body).fontFamily)
  await page.goto('/shelf')
  expect(await family()).not.toContain('Atkinson')
  await expect
    .poll(async () => (await context.cookies()).map(({ name }) => name))
    .toContain('coatbook-font')
  // As a page gets it that is made anew while it is looked at: a font that comes then moves what is being read.
  await page.evaluate(() => {
    document.documentElement.className = 'own-font'
  })
  expect(await family()).not.toContain('Atkinson')
  await page.goto('/workshop')
  expect(await family()).toContain('Atkinson')
  await expect
    .poll(() =>
      page.evaluate(() => Array.from(document.fonts, ({ status }) => status)),
    )
    .toContain('loaded')
  await context.close()
})

test('the ways of a job take one row on a phone, with the present one in sight and all in reach of the keys', async ({
  browser,
  baseURL,
}) => {
  const context = await browser.newContext({
    viewport: { width: 390, height: 844 },
    ...(baseURL === undefined ? {} : { baseURL }),
  })
  const page = await context.newPage()
  await page.goto(`/jobs/${made.job}/details`)
  const ways = page.getByRole('navigation', { name: 'This job' })
  const links = ways.getByRole('link')
  await expect(links).toHaveCount(8)
  const present = ways.getByRole('link', { name: 'Details' })
  await expect(present).toHaveAttribute('aria-current', 'page')
  await expect(present).toBeInViewport({ ratio: 1 })
  expect((await ways.boundingBox())?.height).toBeLessThan(80)
  // Each comes into sight as the focus reaches it.
  await links.last().focus()
  for (const name of ['Money', 'Portfolio', 'Write-ups']) {
    await page.keyboard.press('Shift+Tab')
    const way = ways.getByRole('link', { name })
    await expect(way).toBeFocused()
    await expect(way).toBeInViewport({ ratio: 1 })
  }
  await context.close()
})

test('what can be pressed on a phone is at least 44 px high and wide', async ({
  browser,
  baseURL,
}) => {
  const context = await browser.newContext({
    viewport: { width: 390, height: 844 },
    ...(baseURL === undefined ? {} : { baseURL }),
  })
  const page = await context.newPage()
  for (const at of paths(made)) {
    await page.goto(at)
    const small = await page
      .locator(
        'main :is(button, select, summary, a.button, label.choice, input:not([type=checkbox], [type=radio], [type=hidden], [type=file])):visible, header a:visible',
      )
      .evaluateAll((all) =>
        all
          .map((one) => {
            const { width, height } = one.getBoundingClientRect()
            return { name: one.textContent, width, height }
          })
          .filter((box) => box.height < 44 || box.width < 44),
      )
    expect(small, at).toEqual([])
  }
  await context.close()
})

/**
 * WCAG 2.2, success criterion 1.4.4: text at 200 % without loss of content or function. A browser's zoom halves the width
 * that a page has; a larger font, set by the owner or on the page, doubles the root.
 */
for (const [way, zoom] of [
  ['a browser’s zoom of 200 %', { width: 195, rootPercent: undefined }],
  ['a root font twice as large', { width: 390, rootPercent: twice }],
  ['a root font twice as large on a desk', { width: 1280, rootPercent: twice }],
] as const) {
  test(`every page keeps its ways and its fields at ${way}`, async ({
    browser,
    baseURL,
  }) => {
    const context = await browser.newContext({
      viewport: { width: zoom.width, height: 844 },
      ...(baseURL === undefined ? {} : { baseURL }),
    })
    const page = await context.newPage()
    if (zoom.rootPercent !== undefined)
      await enlargeText(page, zoom.rootPercent)
    for (const at of paths(made)) {
      // Each as a browser's first page, in the system's own font, which may be the wider one.
      await context.clearCookies()
      await page.goto(at)
      expect(
        await page.evaluate(() => document.documentElement.style.fontSize),
      ).toBe(zoom.rootPercent === undefined ? '' : `${zoom.rootPercent}%`)
      // The present way of a row comes into sight as the page comes alive.
      await expect
        .poll(() => largeTextFaults(page), { message: at })
        .toEqual([])
    }
    await context.close()
  })
}

test('the figures of an amount stay together at twice the text', async ({
  browser,
  page,
  request,
  baseURL,
}) => {
  const { id } = await requestJob(request, 'Hall chair', 'chair', ['body'])
  await page.goto(`/jobs/${id}/money`)
  await page.getByLabel('What it was (optional)').fill('house clearance')
  await page.getByLabel('Price of one').fill('160.00')
  await page.getByRole('button', { name: 'Add the cost' }).click()
  await expect(page.getByText('Take a cost out')).toBeVisible()
  const context = await browser.newContext({
    viewport: { width: 390, height: 844 },
    ...(baseURL === undefined ? {} : { baseURL }),
  })
  // In the system's own font, which may be the wider one.
  const large = await context.newPage()
  await enlargeText(large, twice)
  await large.goto(`/jobs/${id}/money?price=485&hourly=18`)
  const seen = await large.evaluate(() => {
    for (const fold of document.querySelectorAll('details')) fold.open = true
    const whole: string[] = []
    const parted: string[] = []
    const texts = document.createTreeWalker(
      document.querySelector('main') ?? document.body,
      NodeFilter.SHOW_TEXT,
    )
    for (let text = texts.nextNode(); text !== null; text = texts.nextNode()) {
      const words = text.textContent ?? ''
      for (const { 0: figures, index } of words.matchAll(/£[\d,]+\.\d\d/g)) {
        const range = document.createRange()
        range.setStart(text, index)
        range.setEnd(text, index + figures.length)
        const lines = new Set(
          Array.from(range.getClientRects(), ({ top }) => Math.round(top)),
        )
        if (lines.size > 1) parted.push(figures)
        else whole.push(figures)
      }
    }
    return { whole, parted }
  })
  expect(seen.parted).toEqual([])
  expect(seen.whole).toContain('£485.00')
  expect(seen.whole.filter((one) => one === '£160.00')).not.toEqual([])
  expect(await largeTextFaults(large)).toEqual([])
  await context.close()
})

/** What large text spoils: ways off the screen or over each other, a page that goes sideways, a field too narrow to type in. */
function largeTextFaults(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const faults: string[] = []
    const { clientWidth, scrollWidth } = document.documentElement
    if (scrollWidth > clientWidth) {
      faults.push(`sideways by ${scrollWidth - clientWidth} px`)
    }
    for (const nav of document.querySelectorAll('nav')) {
      const boxes = [...nav.querySelectorAll('a')]
        .map((link) => ({
          name: link.textContent,
          box: link.getBoundingClientRect(),
          spills: link.scrollWidth > link.clientWidth + 1,
          // A row that can be pushed sideways brings every way into sight; the present one is there from the start.
          isPushed:
            link.getAttribute('aria-current') === null &&
            ['auto', 'scroll'].includes(
              getComputedStyle(link.closest('ul') ?? nav).overflowX,
            ),
        }))
        .filter(({ box }) => box.width > 0)
      for (const [index, { name, box, spills, isPushed }] of boxes.entries()) {
        if (name.trim() === '') faults.push('a way without a name')
        if (spills) faults.push(`${name} is wider than its place`)
        if (!isPushed && (box.left < -1 || box.right > clientWidth + 1)) {
          faults.push(`${name} is off the screen`)
        }
        if (box.width < 44 || box.height < 44) faults.push(`${name} is small`)
        for (const other of boxes.slice(index + 1)) {
          const across =
            Math.min(box.right, other.box.right) -
            Math.max(box.left, other.box.left)
          const down =
            Math.min(box.bottom, other.box.bottom) -
            Math.max(box.top, other.box.top)
          if (across > 1 && down > 1) {
            faults.push(`${name} lies over ${other.name}`)
          }
        }
      }
    }
    for (const field of document.querySelectorAll<HTMLElement>('.input')) {
      const width = field.getBoundingClientRect().width
      // Three figures and the room around them.
      const least = 3.5 * parseFloat(getComputedStyle(field).fontSize)
      if (width > 0 && width < least) {
        faults.push(
          `${field.getAttribute('name') ?? 'a field'} is ${Math.round(width)} px wide`,
        )
      }
    }
    return faults
  })
}

/** An empty page of the framework, measured with Next 16.4, in bytes after gzip. */
const emptyPage = 135_000
const ours = 40_000

test('no page loads more than 40 kB of script over an empty page of the framework', async ({
  page,
}) => {
  for (const at of paths(made)) {
    const scripts = new Map<string, Promise<number>>()
    page.on('response', (response) => {
      if (response.request().resourceType() !== 'script') return
      scripts.set(
        response.url(),
        response.body().then((body) => gzipSync(body, { level: 9 }).length),
      )
    })
    await page.goto(at, { waitUntil: 'load' })
    await allScriptsOf(page)
    const sizes = await Promise.all(scripts.values())
    const total = sizes.reduce((sum, size) => sum + size, 0)
    expect(total, `${at} loads ${total} bytes`).toBeGreaterThan(0)
    expect(total, `${at} loads ${total} bytes`).toBeLessThanOrEqual(
      emptyPage + ours,
    )
    page.removeAllListeners('response')
  }
})

/** Waits until a page has asked for all of its scripts and has them: they may come after all else is loaded. */
async function allScriptsOf(page: Page): Promise<void> {
  await expect(page.locator('script[type="text/after-paint"]')).toHaveCount(0)
  await page.waitForLoadState('networkidle')
}

/** When the scripts of a page were asked for, in milliseconds of its clock. */
function scriptStarts(page: Page): Promise<readonly number[]> {
  return page.evaluate(() =>
    performance
      .getEntriesByType('resource')
      .filter(({ name }) => /\/_next\/static\/.*\.js$/.test(name))
      .map(({ startTime }) => startTime),
  )
}

for (const width of [390, 1280]) {
  test(`nothing on a page moves while its pictures come late, at ${width} px`, async ({
    browser,
    baseURL,
  }) => {
    const context = await browser.newContext({
      viewport: { width, height: 844 },
      hasTouch: width === 390,
      isMobile: width === 390,
      serviceWorkers: 'block',
      ...(baseURL === undefined ? {} : { baseURL }),
    })
    const page = await context.newPage()
    await page.route('**/api/**', async (route) => {
      await new Promise((resolve) => setTimeout(resolve, 500))
      await route.fallback()
    })
    for (const at of paths(made)) {
      await page.goto(at)
      await allScriptsOf(page)
      expect(await movedBy(page, 300), at).toBe(0)
    }
    await context.close()
  })
}

for (const [width, ratio, chosen] of [
  [390, 2, '540'],
  [390, 3, '810'],
  [1280, 1, '810'],
  [1280, 2, null],
] as const) {
  test(`a screen of ${width} px at ${ratio} shows a sheet of ${chosen ?? 'its whole'} width`, async ({
    browser,
    baseURL,
  }) => {
    const context = await browser.newContext({
      viewport: { width, height: 844 },
      deviceScaleFactor: ratio,
      ...(baseURL === undefined ? {} : { baseURL }),
    })
    const page = await context.newPage()
    await page.goto(`/jobs/${made.job}/sheets`)
    const sheet = page.locator('img[srcset*="/sheets/"]')
    await expect(sheet).toHaveJSProperty('complete', true)
    const source = await sheet.evaluate(
      (image) => (image as HTMLImageElement).currentSrc,
    )
    expect(new URL(source).searchParams.get('width')).toBe(chosen)
    await context.close()
  })
}

// Source: WICG, Explicit JavaScript Compile Hints (File-Based).
test('every script of a page is marked to be compiled while it comes', async ({
  page,
}) => {
  const marked = new Map<string, Promise<boolean>>()
  page.on('response', (response) => {
    if (response.request().resourceType() !== 'script') return
    marked.set(
      response.url(),
      response
        .text()
        .then((text) => text.startsWith('//# allFunctionsCalledOnLoad\n')),
    )
  })
  await page.goto(`/jobs/${made.job}/timeline`)
  await allScriptsOf(page)
  expect(marked.size).toBeGreaterThan(3)
  for (const [url, isMarked] of marked) expect(await isMarked, url).toBe(true)
})

// When a page was painted is the browser's own word. Source: Paint Timing, W3C.
test('a page is painted before it asks for its scripts', async ({ page }) => {
  for (const at of ['/', '/jobs', `/jobs/${made.job}/timeline`, '/snap']) {
    await page.goto(at)
    await allScriptsOf(page)
    const painted = await page.evaluate(
      () =>
        performance.getEntriesByName('first-contentful-paint')[0]?.startTime,
    )
    const starts = await scriptStarts(page)
    expect(starts.length, at).toBeGreaterThan(3)
    expect(Math.min(...starts), at).toBeGreaterThan(painted ?? Infinity)
  }
})

test('a page asks for its scripts once its main picture is there, and comes alive all the same where it is long in coming', async ({
  page,
}) => {
  const at = `/jobs/${made.job}/photos/${made.photo}`
  const picture = `**/api/photos/${made.photo}/*`
  const asked: Route[] = []
  const comeAlive = () =>
    expect(async () => {
      expect(asked.length).toBeGreaterThan(0)
      expect((await scriptStarts(page)).length).toBeGreaterThan(3)
    }).toPass()
  await page.route(picture, (route) => {
    asked.push(route)
  })
  await page.goto(at, { waitUntil: 'commit' })
  await comeAlive()
  asked.length = 0
  await page.unrouteAll({ behavior: 'ignoreErrors' })

  // So that only the picture can wake them, however slow the machine is.
  await page.addInitScript(() => {
    const later = setTimeout
    Object.defineProperty(globalThis, 'setTimeout', {
      value: (...given: Parameters<typeof setTimeout>) =>
        (given[1] ?? 0) >= 500 ? 0 : later(...given),
    })
  })
  await page.route(picture, (route) => {
    asked.push(route)
  })
  await page.goto(at, { waitUntil: 'commit' })
  await page.waitForFunction(
    () => performance.getEntriesByName('first-contentful-paint').length > 0,
  )
  await page.waitForTimeout(300)
  expect(asked.length).toBeGreaterThan(0)
  expect(await scriptStarts(page)).toEqual([])
  for (const route of asked) await route.continue()
  await comeAlive()
})

test('a page that is not painted comes alive all the same, unseen or without its styles', async ({
  page,
}) => {
  await page.route('**/_next/static/**/*.css', () => undefined)
  await page.goto('/shelf', { waitUntil: 'commit' })
  await expect(async () => {
    expect((await scriptStarts(page)).length).toBeGreaterThan(3)
  }).toPass()
  await page.unrouteAll({ behavior: 'ignoreErrors' })

  // A page in the background is given no frame.
  await page.addInitScript(() => {
    Object.defineProperty(document, 'visibilityState', {
      get: () => 'hidden',
    })
    Object.defineProperty(globalThis, 'requestAnimationFrame', {
      value: () => 0,
    })
    // So that only what is done for a page in the background can wake its scripts.
    const later = setTimeout
    Object.defineProperty(globalThis, 'setTimeout', {
      value: (...given: Parameters<typeof setTimeout>) =>
        given[1] === 2000 ? 0 : later(...given),
    })
  })
  await page.goto('/shelf')
  await allScriptsOf(page)
  expect((await scriptStarts(page)).length).toBeGreaterThan(3)
})

/** What a page did against its policy, as the browser tells it; filled by a script that runs before any of the page's. */
function violationsOn(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => Reflect.get(globalThis, 'violations') as string[])
}

test('no page does anything against its content security policy', async ({
  page,
}) => {
  await page.addInitScript(() => {
    const violations: string[] = []
    Reflect.set(globalThis, 'violations', violations)
    addEventListener('securitypolicyviolation', (event) => {
      violations.push(
        `${event.violatedDirective} by ${event.blockedURI} ${event.sample}`,
      )
    })
  })
  const nonces = new Set<string>()
  const pages = [...paths(made), '/sign-in', '/pair']
  for (const at of pages) {
    const answer = await page.goto(at, { waitUntil: 'load' })
    const policy = answer?.headers()['content-security-policy'] ?? ''
    const [, scripts = ''] = /script-src ([^;]+)/.exec(policy) ?? []
    expect(scripts, at).toMatch(/^'self' 'nonce-[\w+/]{22}=='$/)
    expect(policy, at).toContain("default-src 'none'")
    expect(answer?.headers(), at).toMatchObject({
      'x-content-type-options': 'nosniff',
      'x-frame-options': 'DENY',
      'referrer-policy': 'same-origin',
      'cross-origin-opener-policy': 'same-origin',
      'cross-origin-resource-policy': 'same-origin',
    })
    expect(answer?.headers()['permissions-policy'], at).toMatch(
      /camera=\(self\).*accelerometer=\(self\), gyroscope=\(self\).*geolocation=\(\)/,
    )
    nonces.add(scripts)
    await page.waitForTimeout(200)
    expect(await violationsOn(page), at).toEqual([])
  }
  expect(nonces.size).toBe(pages.length)
})

test('the portfolio answers with its own policy, under which nothing but its own files is loaded', async ({
  request,
}) => {
  const answer = await request.get('/portfolio')
  const headers = answer.headers()
  expect(headers['content-security-policy']).toContain("script-src 'self';")
  expect(headers['content-security-policy']).toContain("frame-ancestors 'none'")
  expect(headers['content-security-policy']).not.toContain('unsafe')
  expect(headers).toMatchObject({
    'cache-control': 'no-store',
    'x-content-type-options': 'nosniff',
    'x-frame-options': 'DENY',
  })
  expect(headers).not.toHaveProperty('cross-origin-resource-policy')
  const page = await request.get('/jobs')
  expect(page.headers()['cross-origin-resource-policy']).toBe('same-origin')
})

test('a script that somebody writes into a page does not run', async ({
  page,
}) => {
  await page.addInitScript(() => {
    Reflect.set(globalThis, 'violations', [])
    addEventListener('securitypolicyviolation', (event) => {
      const violations = Reflect.get(globalThis, 'violations') as string[]
      violations.push(event.effectiveDirective)
    })
  })
  await page.goto('/jobs')
  await page.evaluate(() => {
    const script = document.createElement('script')
    script.textContent = 'globalThis.ran = true'
    document.body.append(script)
    document.body.insertAdjacentHTML(
      'beforeend',
      '<img src="/nowhere.png" onerror="globalThis.ran = true">',
    )
  })
  await expect
    .poll(() => violationsOn(page))
    .toEqual(['script-src-elem', 'script-src-attr'])
  expect(await page.evaluate(() => 'ran' in globalThis)).toBe(false)
})
