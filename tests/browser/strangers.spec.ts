import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import AxeBuilder from '@axe-core/playwright'
import type {
  APIRequestContext,
  Browser,
  BrowserContext,
  Page,
} from '@playwright/test'
import { expect, test } from '../support/alive-pages'
import { isOpenAddress, openAddresses } from '../../app/_open-addresses'
import { freePort } from '../../lib/commands/loopback'
import { demoPicture } from '../support/demo-picture'
import { movedBy } from '../support/moved-by'

// Another server than that of the other tests: one that lets in the local network. This machine reaches its door by the
// name `localhost`, and stands there as any stranger does.

const root = path.join(import.meta.dirname, '../..')
const title = 'A job that no stranger reads of'

const anyActor = ['signInAction', 'pairAction']

let server: ChildProcess
let folder = ''
let desk = ''
let door = ''
let job = ''
let said = ''
/** What must stand in no line of the server's output, by what it is. */
const secrets = new Map<string, string>()

test.beforeAll(async ({ playwright }) => {
  folder = mkdtempSync(path.join(tmpdir(), 'coatbook-strangers-'))
  const [port, lanPort] = [await freePort(), await freePort()]
  desk = `http://localhost:${port}`
  door = `https://localhost:${lanPort}`
  server = spawn(
    process.execPath,
    [
      '--import',
      'tsx',
      '--conditions=react-server',
      'lib/commands/start-lan.ts',
    ],
    {
      cwd: root,
      env: {
        ...process.env,
        PORT: String(port),
        COATBOOK_LAN_PORT: String(lanPort),
        COATBOOK_DATA: folder,
        COATBOOK_DEMO: 'off',
      },
      stdio: ['ignore', 'pipe', 'pipe'],
    },
  )
  await new Promise<void>((resolve, reject) => {
    const hear = (chunk: Buffer) => {
      said += chunk.toString()
      if (said.includes('Paired phones reach it')) resolve()
    }
    server.stdout?.on('data', hear)
    server.stderr?.on('data', hear)
    server.once('exit', () => {
      reject(new Error(`the server ended: ${said}`))
    })
  })
  const atDesk = await playwright.request.newContext({ baseURL: desk })
  const made = await atDesk.post('/api/jobs', {
    data: {
      title,
      pieces: [{ name: 'bench', kind: 'bench', surfaces: ['top'] }],
    },
  })
  expect(made.status()).toBe(201)
  job = ((await made.json()) as { readonly id: string }).id
  await atDesk.dispose()
})

test.afterAll(async () => {
  if (server.exitCode === null) {
    const ended = new Promise((resolve) => server.once('exit', resolve))
    server.kill('SIGTERM')
    await ended
  }
  rmSync(folder, { recursive: true, force: true })
})

/** The addresses of all that the build serves, a real job in the place of a job's id. */
function builtRoutes(): readonly {
  readonly address: string
  readonly isPage: boolean
}[] {
  const manifest = JSON.parse(
    readFileSync(
      path.join(root, '.next/app-path-routes-manifest.json'),
      'utf8',
    ),
  ) as Readonly<Record<string, string>>
  return Object.entries(manifest)
    .map(([file, pattern]) => ({
      address: addressOf(pattern),
      isPage: file.endsWith('/page'),
    }))
    .filter(({ address }) => !address.startsWith('/_'))
}

/** All server actions of the build, each with its id and a page that has it: by these anybody can call it. */
function builtActions(): readonly {
  readonly id: string
  readonly name: string
  readonly page: string
}[] {
  const manifest = JSON.parse(
    readFileSync(
      path.join(root, '.next/server/server-reference-manifest.json'),
      'utf8',
    ),
  ) as {
    readonly node: Readonly<
      Record<
        string,
        {
          readonly exportedName: string
          readonly workers: Readonly<Record<string, unknown>>
        }
      >
    >
  }
  return Object.entries(manifest.node).map(
    ([id, { exportedName, workers }]) => {
      const page = Object.keys(workers).find((one) => !one.includes('/_')) ?? ''
      return {
        id,
        name: exportedName,
        page: addressOf(
          page
            .replace(/^app/, '')
            .replaceAll(/\/\([^)]*\)/g, '')
            .replace(/\/page$/, '') || '/',
        ),
      }
    },
  )
}

function addressOf(pattern: string): string {
  return pattern
    .replaceAll(/\[\[\.\.\.\w+\]\]/g, 'nothing')
    .replace('[job]', job)
    .replaceAll(/\[\w+\]/g, 'x')
}

function stranger(
  playwright: {
    readonly request: {
      readonly newContext: (options: {
        readonly baseURL: string
        readonly ignoreHTTPSErrors: boolean
      }) => Promise<APIRequestContext>
    }
  },
  baseURL = door,
) {
  return playwright.request.newContext({ baseURL, ignoreHTTPSErrors: true })
}

test('every route of the build turns a stranger on the network away', async ({
  playwright,
}) => {
  const request = await stranger(playwright)
  const routes = builtRoutes()
  expect(routes.filter(({ isPage }) => isPage).length).toBeGreaterThan(15)
  expect(routes.filter(({ isPage }) => !isPage).length).toBeGreaterThan(20)
  for (const { address, isPage } of routes) {
    if (isOpenAddress(address)) continue
    for (const method of ['GET', 'POST', 'PUT', 'PATCH', 'DELETE']) {
      const answer = await request.fetch(address, { method, maxRedirects: 0 })
      const what = `${method} ${address}`
      // Outside the interface what only reads is refused every other method before anybody is asked who it is.
      const isRefused = answer.status() === 405 && !address.startsWith('/api/')
      if (isRefused) expect(method, what).not.toBe('GET')
      else if (!isPage) expect(answer.status(), what).toBe(401)
      else {
        expect(answer.status(), what).toBe(307)
        expect(answer.headers()['location'], what).toBe('/sign-in')
      }
      expect(await answer.text(), what).not.toContain(title)
    }
  }
  for (const address of openAddresses) {
    const answer = await request.get(address)
    expect(answer.status(), address).toBe(200)
    expect(await answer.text(), address).not.toContain(title)
  }
  await request.dispose()
})

test('every action of the build turns a stranger on the network away', async ({
  playwright,
}) => {
  const request = await stranger(playwright)
  const actions = builtActions()
  expect(actions.length).toBeGreaterThan(20)
  for (const { id, name, page } of actions) {
    if (anyActor.includes(name)) continue
    const answer = await request.post(page, {
      headers: {
        'next-action': id,
        origin: door,
        'content-type': 'text/plain;charset=UTF-8',
      },
      data: '[]',
      maxRedirects: 0,
    })
    const what = `${name} at ${page}`
    expect(answer.headers()['x-action-redirect'], what).toMatch(/^\/sign-in/)
    expect(await answer.text(), what).not.toContain(title)
  }
  await request.dispose()
})

/** How another site can make the owner's browser send something, by what the browser then says of it. */
const foreignWays = [
  { origin: 'https://elsewhere.example', 'sec-fetch-site': 'cross-site' },
  { origin: 'http://localhost:1', 'sec-fetch-site': 'same-site' },
  { origin: 'null' },
  { 'sec-fetch-site': 'cross-site' },
] as const

test('no route takes anything from another site, at the desk either', async ({
  playwright,
}) => {
  const request = await stranger(playwright, desk)
  for (const headers of foreignWays) {
    for (const { address, isPage } of builtRoutes()) {
      if (isPage || !address.startsWith('/api/')) continue
      for (const method of ['POST', 'PUT', 'PATCH', 'DELETE']) {
        const what = `${method} ${address} ${JSON.stringify(headers)}`
        const answer = await request.fetch(address, {
          method,
          headers: { ...headers, 'content-type': 'text/plain' },
          data: '{}',
        })
        expect(answer.status(), what).toBe(403)
      }
    }
  }
  // Sent by our own page, the same is looked at.
  const own = await request.post('/api/jobs', {
    headers: { origin: desk, 'sec-fetch-site': 'same-origin' },
    data: {},
  })
  expect(own.status()).toBe(400)
  await request.dispose()
})

/**
 * Calls an action of the build with no arguments, and tells how the call was refused for where it came from: by ourselves
 * (403), or by the framework, which names the reason by a digest; undefined when the action was run, well or badly.
 */
async function refusalOfAction(
  request: APIRequestContext,
  { id, page }: { readonly id: string; readonly page: string },
  headers: Readonly<Record<string, string>>,
  frameworksRefusal: string | undefined,
): Promise<string | undefined> {
  const answer = await request.post(page, {
    headers: {
      ...headers,
      'next-action': id,
      'content-type': 'text/plain;charset=UTF-8',
    },
    data: '[]',
    maxRedirects: 0,
  })
  if (answer.status() === 403) return 'by us'
  const [, digest] = /"digest":"(\d+)"/.exec(await answer.text()) ?? []
  if (answer.status() !== 500 || digest === undefined) return undefined
  return frameworksRefusal === undefined || digest === frameworksRefusal
    ? digest
    : undefined
}

test('no action is run for another site, at the desk either', async ({
  playwright,
}) => {
  const request = await stranger(playwright, desk)
  const actions = builtActions()
  const own = { origin: desk, 'sec-fetch-site': 'same-origin' }
  // One that needs no arguments: run for our own page, it answers, so what refuses it below is where it came from.
  const easy = actions.find(({ name }) => name === 'refreshBenchAction')
  if (easy === undefined) throw new Error('there is no action to begin with')
  expect(await refusalOfAction(request, easy, own, undefined)).toBe(undefined)
  const digest = await refusalOfAction(request, easy, foreignWays[0], undefined)
  expect(digest).toMatch(/^\d+$/)
  for (const action of actions) {
    const ask = (headers: Readonly<Record<string, string>>) =>
      refusalOfAction(request, action, headers, digest)
    for (const headers of foreignWays) {
      const what = `${action.name} ${JSON.stringify(headers)}`
      expect([digest, 'by us'], what).toContain(await ask(headers))
    }
    // Without its arguments it may break, but it was run. One that pairs or signs out does something; leave those.
    if (['pairPhoneAction', 'signOutAction'].includes(action.name)) continue
    expect(await ask(own), action.name).toBe(undefined)
  }
  await request.dispose()
})

test('a form of our own on a page of another site changes nothing', async ({
  browser,
}) => {
  // Without script the form goes out as any site can make a browser send it.
  const context = await browser.newContext({ javaScriptEnabled: false })
  const page = await context.newPage()
  const settings = page.getByRole('form', { name: 'Settings' })
  const name = settings.getByLabel('Name of the workshop')
  await page.goto(`${desk}/workshop`)
  const inside = await settings.innerHTML()
  expect(inside).toContain('$ACTION')
  const filled = (value: string) =>
    inside.replace(/name="name"[^>]*>/, `name="name" value="${value}">`)
  const elsewhere = 'http://elsewhere.example/'
  for (const policy of ['no-referrer', 'unsafe-url']) {
    await page.route(elsewhere, (route) =>
      route.fulfill({
        contentType: 'text/html',
        headers: { 'referrer-policy': policy },
        body: `<form method="post" enctype="multipart/form-data" action="${desk}/workshop">${filled('Stolen shed')}</form>`,
      }),
    )
    await page.goto(elsewhere)
    const answered = page.waitForResponse(`${desk}/workshop`)
    await page.getByRole('button', { name: 'Save the settings' }).click()
    expect([403, 500]).toContain((await answered).status())
    await page.unroute(elsewhere)
    await page.goto(`${desk}/workshop`)
    await expect(name).not.toHaveValue('Stolen shed')
  }
  await name.fill('Own shed')
  await page.getByRole('button', { name: 'Save the settings' }).click()
  await page.goto(`${desk}/workshop`)
  await expect(name).toHaveValue('Own shed')
  await context.close()
})

test('a name that is not ours is refused, not a fault', async ({
  playwright,
}) => {
  for (const [base, status] of [
    [desk, 403],
    [door, 421],
  ] as const) {
    const request = await stranger(playwright, base)
    for (const address of ['/', '/jobs', '/sign-in', '/api/jobs']) {
      const answer = await request.get(address, {
        headers: { host: 'elsewhere.example' },
      })
      expect(answer.status(), `${base}${address}`).toBe(status)
    }
    await request.dispose()
  }
})

test('nobody passes for the desk by what they send', async ({ playwright }) => {
  const request = await stranger(playwright)
  for (const headers of [
    { 'x-coatbook-door': '' },
    { 'x-forwarded-host': 'localhost:3000', 'x-forwarded-for': '127.0.0.1' },
    { 'x-middleware-subrequest': 'proxy' },
    { cookie: 'coatbook-device=x; __Host-coatbook-device=x' },
    { authorization: 'Bearer x' },
  ]) {
    const answer = await request.get('/api/jobs', { headers })
    expect(answer.status(), JSON.stringify(headers)).toBe(401)
  }
  await request.dispose()
})

/** The cookie that lets a browser in; it is not the only one. */
async function deviceCookie(context: BrowserContext) {
  const all = await context.cookies()
  return all.find(({ name }) => name === '__Host-coatbook-device')
}

async function openPhone(browser: Browser): Promise<Page> {
  const context = await browser.newContext({
    ignoreHTTPSErrors: true,
    viewport: { width: 390, height: 844 },
  })
  return context.newPage()
}

/** A new code, as the desk shows it. */
async function pairingCode(atDesk: Page): Promise<string> {
  await atDesk.goto(`${desk}/workshop`)
  await atDesk.getByRole('button', { name: 'Pair a phone' }).click()
  const code = await atDesk
    .getByText(/^[2-9A-HJ-NP-Z]{4}(?:-[2-9A-HJ-NP-Z]{4}){2}$/)
    .textContent()
  return code ?? ''
}

test('a phone is paired by the code of the desk, once, and is let in until it is revoked', async ({
  browser,
}) => {
  const atDesk = await (await browser.newContext()).newPage()
  const code = await pairingCode(atDesk)
  await expect(atDesk.getByRole('img', { name: /pairing code/ })).toBeVisible()
  secrets.set('pairing code', code)

  const phone = await openPhone(browser)
  await phone.goto(`${door}/pair#${code}`)
  await expect(phone.getByLabel('Code')).toHaveValue(code)
  expect(phone.url()).toBe(`${door}/pair`)
  await phone.getByLabel(/What you call this phone/).fill('Shed phone')
  await phone.getByRole('button', { name: 'Pair this phone' }).click()
  await expect(phone).toHaveURL(`${door}/`)
  const cookie = await deviceCookie(phone.context())
  secrets.set('token of a device', cookie?.value ?? '')
  expect(cookie).toMatchObject({
    name: '__Host-coatbook-device',
    httpOnly: true,
    secure: true,
    sameSite: 'Lax',
    path: '/',
  })
  await phone.goto(`${door}/jobs`)
  await expect(phone.getByRole('link', { name: title }).first()).toBeVisible()

  const other = await (
    await browser.newContext({ ignoreHTTPSErrors: true })
  ).newPage()
  await other.goto(`${door}/pair#${code}`)
  await other.getByRole('button', { name: 'Pair this phone' }).click()
  await expect(other.getByText(/was used or has ended/).first()).toBeVisible()

  await atDesk.reload()
  await atDesk
    .getByRole('form', { name: 'Let Shed phone in no more' })
    .getByRole('button')
    .click()
  await expect(atDesk.getByText('Shed phone')).toHaveCount(0)
  await phone.goto(`${door}/jobs`)
  await expect(phone).toHaveURL(`${door}/sign-in`)
})

/** A page that somebody who is turned away is shown is held to what pages.spec.ts asks of the others. */
async function expectSound(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
    .analyze()
  expect(violations.map(({ id }) => id)).toEqual([])
  expect(await movedBy(page, 300)).toBe(0)
  const scripts = await page.evaluate(() =>
    performance
      .getEntriesByType('resource')
      .filter(({ name }) => name.endsWith('.js'))
      .map((one) => (one as PerformanceResourceTiming).encodedBodySize),
  )
  const bytes = scripts.reduce((sum, size) => sum + size, 0)
  expect(bytes).toBeGreaterThan(0)
  expect(bytes).toBeLessThanOrEqual(135_000 + 40_000)
}

test('a phone that is let in no more says what waits on it, and sends it at once when it is paired again', async ({
  browser,
}) => {
  const atDesk = await (await browser.newContext()).newPage()
  const phone = await openPhone(browser)
  const pair = async () => {
    const code = await pairingCode(atDesk)
    await phone.getByLabel('Code').fill(code)
    await phone.getByLabel(/What you call this phone/).fill('Yard phone')
    await phone.getByRole('button', { name: 'Pair this phone' }).click()
    await expect(phone).toHaveURL(`${door}/`)
    await expect(
      phone.getByRole('heading', { level: 1, name: 'Bench' }),
    ).toBeVisible()
  }
  await phone.goto(`${door}/pair`)
  await expect(phone.getByText(/waits? on this phone/)).toHaveCount(0)
  await pair()
  await atDesk.reload()
  await atDesk
    .getByRole('form', { name: 'Let Yard phone in no more' })
    .getByRole('button')
    .click()
  await expect(atDesk.getByText('Yard phone')).toHaveCount(0)

  let uploads = 0
  phone.on('request', (request) => {
    if (request.method() === 'POST' && request.url().endsWith('/photos'))
      uploads += 1
  })
  const bar = phone.getByRole('complementary', { name: 'Snap' })
  await bar.getByLabel('Snap').setInputFiles(demoPicture('30-after-front.jpg'))
  await expect(bar).toContainText('Pair again to send 1')
  const turnedAway = phone.waitForResponse('**/api/changes')
  await phone.evaluate(() => dispatchEvent(new Event('online')))
  expect((await turnedAway).status()).toBe(401)
  await phone.goto(`${door}/jobs`)
  await expect(phone).toHaveURL(`${door}/sign-in`)
  const waits = '1 photo waits on this phone and goes out once it is'
  await expect(phone.getByText(`${waits} let in.`)).toBeVisible()
  await expectSound(phone)
  await phone.goto(`${door}/pair`)
  await expect(phone.getByText(`${waits} paired.`)).toBeVisible()
  await expectSound(phone)
  const answered = phone.waitForResponse(`**/api/jobs/${job}/photos`)
  await pair()
  expect((await answered).status()).toBe(201)
  // Between the time it was turned away and the time it was kept, it was asked without it whether it would be.
  expect(uploads).toBe(2)
  await phone.goto(`${door}/pair`)
  await expect(phone.getByText(waits)).toHaveCount(0)
  await phone.context().close()
})

test('a passphrase of the desk signs in over the network', async ({
  browser,
}) => {
  const passphrase = 'oak tin lamp river'
  secrets.set('passphrase', passphrase)
  const atDesk = await (await browser.newContext()).newPage()
  await atDesk.goto(`${desk}/workshop`)
  await atDesk.getByLabel('New passphrase').fill(passphrase)
  await atDesk.getByRole('button', { name: 'Set a passphrase' }).click()
  await expect(
    atDesk.getByRole('button', { name: 'Change the passphrase' }),
  ).toBeVisible({ timeout: 60_000 })
  // Who sets it stays signed in; whoever sits down at another browser has to type it.
  await atDesk.goto(`${desk}/jobs`)
  await expect(atDesk.getByRole('link', { name: title }).first()).toBeVisible()
  await atDesk.goto(`${desk}/workshop`)
  await atDesk.getByText('See the bench in a calendar').click()
  await atDesk.getByRole('button', { name: 'Make an address' }).click()
  const address = atDesk.getByText(/shown this once: https:/)
  const [, feed = ''] =
    /feed=(\S+)/.exec((await address.textContent()) ?? '') ?? []
  secrets.set('address of a calendar', feed)
  await atDesk.getByText('For a program of your own').click()
  await atDesk.getByLabel('What it is').fill('A lamp')
  await atDesk.getByRole('button', { name: 'Make a token' }).click()
  const told = await atDesk
    .getByText(/Its token, shown this once:/)
    .textContent()
  secrets.set('token of a program', told?.split(': ')[1]?.trim() ?? '')
  const another = await (await browser.newContext()).newPage()
  await another.goto(`${desk}/jobs`)
  await expect(another).toHaveURL(`${desk}/sign-in`)

  const tablet = await (
    await browser.newContext({ ignoreHTTPSErrors: true })
  ).newPage()
  await tablet.goto(`${door}/jobs`)
  await tablet
    .getByRole('textbox', { name: 'Passphrase' })
    .fill('oak tin lamp rivers')
  await tablet.getByRole('button', { name: 'Sign in' }).click()
  await expect(tablet.getByText('That is not the passphrase.')).toBeVisible({
    timeout: 60_000,
  })
  await tablet.getByRole('textbox', { name: 'Passphrase' }).fill(passphrase)
  await tablet.getByRole('button', { name: 'Sign in' }).click()
  await expect(tablet).toHaveURL(`${door}/`, { timeout: 60_000 })
  const session = await deviceCookie(tablet.context())
  secrets.set('token of a session', session?.value ?? '')
})

test('what lets somebody in stands in no line that the server writes, whatever goes wrong', async ({
  playwright,
}) => {
  const session = secrets.get('token of a session') ?? ''
  const request = await playwright.request.newContext({
    baseURL: door,
    ignoreHTTPSErrors: true,
    extraHTTPHeaders: { authorization: `Bearer ${session}` },
  })
  // A photo whose original is no picture any more, so that the server has something to write down.
  const sent = await request.post(`/api/jobs/${job}/photos`, {
    multipart: {
      file: {
        name: 'bench.jpg',
        mimeType: 'image/jpeg',
        buffer: demoPicture('01-before-front.jpg').buffer,
      },
    },
  })
  expect(sent.status()).toBe(201)
  const [photo] = (
    (await sent.json()) as {
      readonly photos: readonly {
        readonly id: string
        readonly sha256: string
      }[]
    }
  ).photos
  const { id = '', sha256 = '' } = photo ?? {}
  writeFileSync(
    path.join(folder, 'originals', sha256.slice(0, 2), sha256),
    'no picture',
  )
  rmSync(path.join(folder, 'renditions'), { recursive: true, force: true })
  const before = said.length
  const failing = await request.get(`/api/photos/${id}/screen?token=${session}`)
  expect(failing.status()).toBe(500)
  await request.get(`/api/bench.ics?calendar=${session}`)
  const stranger = await playwright.request.newContext({
    baseURL: door,
    ignoreHTTPSErrors: true,
  })
  const feed = `/api/bench.ics?feed=${secrets.get('address of a calendar') ?? ''}`
  expect((await stranger.get(feed)).status()).toBe(200)
  // Wrong in every way that the server may have words for.
  expect((await stranger.post(feed)).status()).toBe(405)
  expect((await stranger.get(`${feed}%ff`)).status()).toBe(400)
  expect((await stranger.get(`${feed}&feed=2`)).status()).toBe(200)
  for (const secret of secrets.values()) {
    const shown = encodeURIComponent(secret)
    await stranger.get(`/${shown}`)
    await stranger.get(`/api/${shown}?q=${shown}`)
    await stranger.get(`/api/photos/${id}/${shown}`, {
      headers: { authorization: `Bearer ${secret}`, 'next-action': shown },
    })
    await stranger.post(`/sign-in?passphrase=${shown}`, {
      headers: { 'next-action': 'f'.repeat(42), origin: door },
      data: secret,
    })
  }
  await stranger.dispose()
  await request.post('/api/jobs', {
    headers: { 'content-type': 'application/json' },
    data: `{"title": "${session}`,
  })
  await request.dispose()
  // It does write something down.
  await expect.poll(() => said.length).toBeGreaterThan(before)
  expect([...secrets.keys()]).toEqual([
    'pairing code',
    'token of a device',
    'passphrase',
    'address of a calendar',
    'token of a program',
    'token of a session',
  ])
  for (const [what, secret] of secrets) {
    expect(secret.length, what).toBeGreaterThan(8)
    expect(said.includes(secret), what).toBe(false)
  }
})
