import type { ChildProcess } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import {
  type Browser,
  type Locator,
  type Page,
  chromium,
} from '@playwright/test'
import { openPicture } from '#services/renditions/open-picture'
import { buildIfChanged } from './build-if-changed'
import { browserOrInstall } from './install-browser'
import { freePort } from './loopback'
import { type PicturedWork, beginWork } from './pictured-work'
import { spawnServer, untilReady } from './spawn-server'

/**
 * Takes a picture of every screen and its main states, on a phone and on a desk, in light and in dark, into the folder
 * `pictures`, which is not kept. Names given to it are those of the only screens to take: `npm run pictures -- shelf`.
 * What the README shows of the demo is kept: each time one of its screens is taken, it is written anew.
 */
const root = process.cwd()
const folder = path.join(root, 'pictures')
const readmeFolder = path.join(root, 'prisma', 'demo', 'screens')
const inReadme = [
  'bench-390-light',
  'snap-again-390-light',
  'photos-390-light',
  'timeline-1280-light',
  'sheets-1280-light',
]
const only = process.argv.slice(2)

type Shot = {
  readonly name: string
  readonly at: string
  /** What is done to the page before its picture is taken. */
  readonly prepare?: (page: Page) => Promise<void>
}

const emptyShots: readonly Shot[] = [
  { name: 'bench-empty', at: '/' },
  { name: 'snap-empty', at: '/snap' },
  { name: 'jobs-empty', at: '/jobs' },
  { name: 'shelf-empty', at: '/shelf' },
  { name: 'bin-empty', at: '/workshop/bin' },
]

/** A workshop in which work is under way. */
function workShots({ job, fresh }: PicturedWork): readonly Shot[] {
  return [
    { name: 'bench-wet', at: '/' },
    { name: 'bin', at: '/workshop/bin' },
    { name: 'timeline-open', at: `/jobs/${job}/timeline` },
    { name: 'photos-unplaced', at: `/jobs/${job}/photos` },
    { name: 'timeline-none', at: `/jobs/${fresh}/timeline` },
    { name: 'photos-none', at: `/jobs/${fresh}/photos` },
    { name: 'materials-none', at: `/jobs/${fresh}/materials` },
    { name: 'sheets-none', at: `/jobs/${fresh}/sheets` },
    { name: 'write-ups-none', at: `/jobs/${fresh}/write-ups` },
    { name: 'money-none', at: `/jobs/${fresh}/money` },
    { name: 'portfolio-none', at: `/jobs/${fresh}/portfolio` },
    {
      name: 'snap-waiting',
      at: '/snap',
      async prepare(page) {
        await page.context().setOffline(true)
        await page
          .getByRole('main')
          .getByLabel('Choose photos')
          .setInputFiles([waitingPhoto, waitingPhoto])
        await page
          .getByRole('region', { name: 'What waits on this phone' })
          .waitFor()
      },
    },
    {
      name: 'page-coming',
      at: '/',
      async prepare(page) {
        // Nobody answers for the page that was asked for.
        await page.route('**/jobs?*', () => undefined)
        await page.getByRole('link', { name: 'Jobs' }).click()
        await page.getByText('The page is coming').waitFor()
      },
    },
  ]
}

const waitingPhoto = path.join(
  root,
  'prisma/demo/photos/job-b/07-paint-1-front.jpg',
)

/** Opens the panel of a step over the drawing of a timeline. */
async function openStep(page: Page): Promise<Locator> {
  await page.getByRole('link', { name: 'Liner' }).first().click()
  const panel = page.getByRole('dialog')
  await panel.getByText('What was done').waitFor()
  return panel
}

function demoShots(ids: Ids): readonly Shot[] {
  const job = `/jobs/${ids.job}`
  return [
    { name: 'bench', at: '/' },
    { name: 'snap', at: '/snap' },
    {
      name: 'snap-over',
      at: '/snap',
      async prepare(page) {
        await page.getByText('Last worked on').first().click()
        await page.getByText('Is this a new step?').waitFor()
      },
    },
    { name: 'snap-again', at: `/snap/again/${ids.photo}` },
    { name: 'jobs', at: '/jobs' },
    { name: 'job-new', at: '/jobs/new' },
    {
      name: 'job-new-refused',
      at: '/jobs/new',
      prepare: refused('Start the job'),
    },
    { name: 'timeline', at: `${job}/timeline` },
    {
      name: 'timeline-step',
      at: `${job}/timeline`,
      async prepare(page) {
        await openStep(page)
      },
    },
    {
      name: 'timeline-step-end',
      at: `${job}/timeline`,
      async prepare(page) {
        const panel = await openStep(page)
        await panel.evaluate((box) => {
          box.scrollTo(0, box.scrollHeight)
        })
      },
    },
    {
      name: 'timeline-photo',
      at: `${job}/timeline`,
      async prepare(page) {
        await page.getByRole('button', { name: 'Before', exact: true }).click()
        await page.getByRole('dialog').waitFor()
      },
    },
    { name: 'photos', at: `${job}/photos` },
    {
      name: 'photos-panel',
      at: `${job}/photos`,
      async prepare(page) {
        await page.locator('button[aria-pressed]').first().click()
        await page.getByRole('button', { name: 'Say what they show' }).click()
      },
    },
    {
      name: 'photos-panel-refused',
      at: `${job}/photos`,
      async prepare(page) {
        await page.locator('button[aria-pressed]').first().click()
        await page.getByRole('button', { name: 'Say what they show' }).click()
        await refused('Save the step')(page)
      },
    },
    { name: 'photo', at: `${job}/photos/${ids.photo}` },
    { name: 'materials', at: `${job}/materials` },
    { name: 'sheets', at: `${job}/sheets` },
    { name: 'sheets-by-hand', at: `${job}/sheets/by-hand/${ids.pair}` },
    { name: 'write-ups', at: `${job}/write-ups` },
    { name: 'write-ups-listing', at: `${job}/write-ups/listing` },
    { name: 'write-ups-chapters', at: `${job}/write-ups/chapters` },
    { name: 'write-ups-photos', at: `${job}/write-ups/photos` },
    { name: 'money', at: `${job}/money` },
    { name: 'money-of-all', at: '/jobs/money' },
    { name: 'portfolio', at: `${job}/portfolio` },
    { name: 'portfolio-piece', at: `${job}/portfolio/${ids.piece}` },
    { name: 'portfolio-public', at: '/portfolio' },
    { name: 'portfolio-public-piece', at: ids.page },
    { name: 'details', at: `${job}/details` },
    { name: 'step', at: `${job}/steps/${ids.step}` },
    { name: 'step-new', at: `${job}/steps/new` },
    {
      name: 'step-new-refused',
      at: `${job}/steps/new`,
      prepare: refused('Go on to its photos'),
    },
    { name: 'shelf', at: '/shelf' },
    { name: 'product-new', at: '/shelf/new' },
    {
      name: 'product-new-refused',
      at: '/shelf/new',
      async prepare(page) {
        await page
          .getByLabel('Recoat no sooner than', { exact: true })
          .fill('soon')
        await refused('Put it on the shelf')(page)
      },
    },
    { name: 'product', at: `/shelf/${ids.product}` },
    { name: 'workshop', at: '/workshop' },
    {
      name: 'workshop-refused',
      at: '/workshop',
      prepare: refused('Log the air now'),
    },
    { name: 'sign-in', at: '/sign-in' },
    { name: 'pair', at: '/pair' },
    { name: 'not-found', at: '/nowhere' },
    {
      name: 'bench-offline',
      at: '/',
      async prepare(page) {
        // The worker keeps what it sees from the second look on.
        await page.evaluate(() => navigator.serviceWorker.ready.then(Boolean))
        await page.reload({ waitUntil: 'networkidle' })
        await page.context().setOffline(true)
        await page.reload()
        // What the browser says of notices comes with the page's scripts.
        await page.locator('#notices + p:not(:empty)').waitFor()
      },
    },
  ]
}

/** Sends a form as it stands and waits for what is wrong with it. */
function refused(button: string): (page: Page) => Promise<void> {
  return async (page) => {
    await page.getByRole('button', { name: button }).click()
    await page.locator('form [role=alert]').waitFor()
  }
}

type Ids = {
  readonly job: string
  readonly photo: string
  readonly step: string
  readonly product: string
  readonly piece: string
  /** Of its before and after. */
  readonly pair: string
  /** The address of the piece's page in the portfolio. */
  readonly page: string
}

async function readIds(browser: Browser, address: string): Promise<Ids> {
  const { jobs } = (await ask(`${address}/api/jobs`)) as {
    readonly jobs: readonly { readonly id: string }[]
  }
  const { products } = (await ask(`${address}/api/products`)) as {
    readonly products: readonly { readonly id: string }[]
  }
  // The oldest of the demo's jobs is the finished one, with something on every screen.
  const job = jobs.at(-1)?.id ?? ''
  const { pieces } = (await ask(`${address}/api/jobs/${job}`)) as {
    readonly pieces: readonly { readonly id: string }[]
  }
  const piece = pieces[0]?.id ?? ''
  const pair = await firstPair(`${address}/api/jobs/${job}/pairs`)
  const { lanes } = (await ask(`${address}/api/jobs/${job}/timeline`)) as {
    readonly lanes: readonly {
      readonly steps: readonly {
        readonly id: string
        readonly photos: readonly string[]
      }[]
    }[]
  }
  const step = lanes
    .flatMap((lane) => lane.steps)
    .find(({ photos }) => photos.length > 0)
  return {
    job,
    step: step?.id ?? '',
    photo: step?.photos[0] ?? '',
    product: products[0]?.id ?? '',
    piece,
    pair,
    page: await published(browser, `${address}/jobs/${job}/portfolio/${piece}`),
  }
}

/** Pairs are found by themselves, which takes a while. */
async function firstPair(url: string): Promise<string> {
  for (;;) {
    const { pairs, finding } = (await ask(url)) as {
      readonly pairs: readonly { readonly id: string }[]
      readonly finding: boolean
    }
    if (!finding) return pairs[0]?.id ?? ''
    await wait(1000)
  }
}

/** Publishes a piece with all that may be shown of it; returns the path of its page. */
async function published(browser: Browser, url: string): Promise<string> {
  const page = await browser.newPage()
  await page.goto(url, { waitUntil: 'networkidle' })
  const form = page.getByRole('form', { name: 'What to show' })
  for (const choice of await form.getByRole('checkbox').all()) {
    await choice.check()
  }
  await page.getByRole('button', { name: 'Save the draft' }).click()
  await form.getByRole('status').last().filter({ hasText: /./ }).waitFor()
  await page.reload({ waitUntil: 'networkidle' })
  await page.getByRole('button', { name: 'Publish it' }).click()
  const out = page.getByRole('link', { name: 'See what is out' })
  const path = await out.getAttribute('href', { timeout: 60_000 })
  await page.close()
  return path ?? ''
}

async function ask(url: string): Promise<unknown> {
  const answer = await fetch(url)
  if (!answer.ok) throw new Error(`${url} answered ${answer.status}`)
  return answer.json()
}

async function takeAll(
  browser: Browser,
  address: string,
  shots: readonly Shot[],
): Promise<number> {
  let failed = 0
  for (const width of [390, 1280]) {
    for (const colorScheme of ['light', 'dark'] as const) {
      for (const shot of shots) {
        if (only.length > 0 && !only.includes(shot.name)) continue
        const context = await browser.newContext({
          baseURL: address,
          viewport: { width, height: width === 390 ? 844 : 900 },
          hasTouch: width === 390,
          isMobile: width === 390,
          colorScheme,
          locale: 'en-GB',
        })
        const name = `${shot.name}-${width}-${colorScheme}.png`
        try {
          // As every page but the very first looks.
          await context.addCookies([
            { name: 'coatbook-font', value: 'here', url: address },
          ])
          const page = await context.newPage()
          await page.goto(shot.at, { waitUntil: 'networkidle' })
          await shot.prepare?.(page)
          const hasPanel = (await page.locator('dialog[open]').count()) > 0
          await useOwnFont(page)
          await showPhotos(page)
          if (inReadme.includes(path.parse(name).name)) {
            await writeForReadme(await page.screenshot(), name)
          }
          // A panel fills the screen, and what lies under it is not part of it.
          if (!hasPanel) await showWhole(page, width)
          await page.screenshot({ path: path.join(folder, name) })
        } catch (error) {
          failed += 1
          console.error(`${name}: ${String(error)}`)
        }
        await context.close()
      }
    }
  }
  return failed
}

/** Draws a page in the app's own font though it came late: a browser has it from its second page on. */
async function useOwnFont(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const rules = [...document.styleSheets].flatMap(({ cssRules, href }) =>
      [...cssRules].flatMap((rule) =>
        rule instanceof CSSFontFaceRule ? [{ style: rule.style, href }] : [],
      ),
    )
    for (const { style, href } of rules) {
      const [, file = ''] =
        /url\("?([^")]+)/.exec(style.getPropertyValue('src')) ?? []
      const face = new FontFace(
        style.getPropertyValue('font-family').replaceAll('"', ''),
        `url(${new URL(file, href ?? location.href).href})`,
        {
          weight: style.getPropertyValue('font-weight'),
          unicodeRange: style.getPropertyValue('unicode-range'),
        },
      )
      // Without a network it stays as it came.
      await face.load().then(
        () => document.fonts.add(face),
        () => undefined,
      )
    }
  })
}

/** Has all photos of a page drawn, those below the screen as well. */
async function showPhotos(page: Page): Promise<void> {
  await page.evaluate(() =>
    Promise.all(
      Array.from(document.images, (one) => {
        one.loading = 'eager'
        return one.decode().catch(() => undefined)
      }),
    ),
  )
}

/**
 * Makes the screen as tall as the page, so that nothing lies behind the bars at its foot. A picture of more than the screen
 * would be of a page for a mouse.
 */
async function showWhole(page: Page, width: number): Promise<void> {
  let height = page.viewportSize()?.height ?? 0
  // What is as tall as a share of the screen grows with it.
  for (let round = 0; round < 4; round += 1) {
    const needed = await page.evaluate(
      () => document.documentElement.scrollHeight,
    )
    if (needed <= height) return
    height = needed
    await page.setViewportSize({ width, height })
  }
}

/** What the screen holds, as small as it can be looked at. */
async function writeForReadme(screen: Buffer, name: string): Promise<void> {
  mkdirSync(readmeFolder, { recursive: true })
  await openPicture(screen)
    .webp({ quality: 80 })
    .toFile(path.join(readmeFolder, `${path.parse(name).name}.webp`))
}

async function serverOver(data: string): Promise<[ChildProcess, string]> {
  const port = await freePort()
  const child = spawnServer('start', root, port, { COATBOOK_DATA: data })
  if (!(await untilReady(child, port))) {
    throw new Error('the server did not start')
  }
  // The worker that keeps pages runs on this name without a certificate.
  return [child, `http://localhost:${port}`]
}

async function takePictures(program: string): Promise<number> {
  const data = ['empty', 'demo'].map((name) =>
    mkdtempSync(path.join(tmpdir(), `coatbook-pictures-${name}-`)),
  )
  const children: ChildProcess[] = []
  const browser = await chromium.launch({
    executablePath: program,
    // A browser that runs as root cannot have its own sandbox.
    args: process.getuid?.() === 0 ? ['--no-sandbox'] : [],
  })
  try {
    const [emptyData = '', demoData = ''] = data
    const { loadDemo } = await import('./load-demo')
    await loadDemo(demoData)
    const [emptyServer, empty] = await serverOver(emptyData)
    children.push(emptyServer)
    const [demoServer, demo] = await serverOver(demoData)
    children.push(demoServer)
    mkdirSync(folder, { recursive: true })
    const ids = await readIds(browser, demo)
    const failed = [
      await takeAll(browser, empty, emptyShots),
      await takeAll(browser, empty, workShots(await beginWork(empty))),
      await takeAll(browser, demo, demoShots(ids)),
    ]
    return failed.reduce((sum, one) => sum + one)
  } finally {
    await browser.close()
    for (const child of children) child.kill('SIGTERM')
    for (const one of data) rmSync(one, { recursive: true, force: true })
  }
}

const program = await browserOrInstall()
if (program === undefined || !(await buildIfChanged(root))) {
  process.exitCode = 1
} else {
  const failed = await takePictures(program)
  console.log(`The pictures are in ${folder}.`)
  process.exitCode = failed === 0 ? 0 : 1
}
