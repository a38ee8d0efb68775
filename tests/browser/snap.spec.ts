import { createHash } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { type ChildProcess } from 'node:child_process'
import type { Page } from '@playwright/test'
import { expect, test } from '../support/alive-pages'
import { pageIsAlive } from '../../app/_page-alive'
import { freePort } from '../../lib/commands/loopback'
import { spawnServer, untilReady } from '../../lib/commands/spawn-server'
import { type LossyLine, openLine } from './lossy-line'
import { demoPicture } from '../support/demo-picture'
import { movedBy } from '../support/moved-by'

// A phone held upright.
test.use({
  viewport: { width: 390, height: 844 },
  hasTouch: true,
  isMobile: true,
})

/** A server of the test's own, which it can kill, behind a line that it can cut. */
let server: ChildProcess
let port = 0
let line: LossyLine
let folder = ''
let base = ''

async function startServer(): Promise<void> {
  server = spawnServer('start', process.cwd(), port, {
    COATBOOK_DATA: folder,
    COATBOOK_DEMO: 'off',
    COATBOOK_ZONE: 'Europe/London',
  })
  expect(await untilReady(server, port)).toBe(true)
}

async function killServer(): Promise<void> {
  if (server.exitCode !== null || server.signalCode !== null) return
  const ended = new Promise((resolve) => server.once('close', resolve))
  server.kill('SIGKILL')
  await ended
}

test.beforeEach(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'coatbook-snap-'))
  port = await freePort()
  line = await openLine(port)
  base = `http://127.0.0.1:${line.port}`
  await startServer()
})

test.afterEach(async () => {
  await line.close()
  await killServer()
  rmSync(folder, { recursive: true, force: true })
})

type Outline = {
  readonly id: string
  readonly pieces: readonly {
    readonly name: string
    readonly surfaces: readonly { readonly id: string; readonly name: string }[]
  }[]
}

async function ask<T>(address: string, body?: unknown): Promise<T> {
  const answer = await fetch(`http://127.0.0.1:${port}${address}`, {
    ...(body === undefined
      ? {}
      : {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify(body),
        }),
  })
  expect(answer.ok).toBe(true)
  return (await answer.json()) as T
}

function addJob(): Promise<Outline> {
  return ask('/api/jobs', {
    title: 'Sideboard and bench',
    pieces: [
      { name: 'sideboard', kind: 'sideboard', surfaces: ['body', 'top'] },
      { name: 'bench', kind: 'bench', surfaces: ['body'] },
    ],
  })
}

type LaneStep = {
  readonly id: string
  readonly kind: string
  readonly photos: readonly string[]
}

/** The steps of a job with how many photos each has, by kind. */
async function stepsOf(job: string): Promise<Readonly<Record<string, number>>> {
  const { lanes } = await ask<{
    readonly lanes: readonly { readonly steps: readonly LaneStep[] }[]
  }>(`/api/jobs/${job}/timeline`)
  const steps = new Map(
    lanes.flatMap((lane) => lane.steps.map((step) => [step.id, step] as const)),
  )
  const counts: Record<string, number> = {}
  for (const { kind, photos: shown } of steps.values()) {
    counts[kind] = (counts[kind] ?? 0) + 100 + shown.length
  }
  return counts
}

const bar = (page: Page) => page.getByRole('complementary', { name: 'Snap' })
const list = (page: Page) =>
  page.getByRole('region', { name: 'What waits on this phone' })

async function takeInHand(
  page: Page,
  kind: string,
  surfaces: readonly (readonly [piece: string, surface: string])[],
): Promise<void> {
  await page.getByText('Another step', { exact: true }).tap()
  const form = page.getByRole('region', { name: 'Another step' })
  await form.getByText(kind, { exact: true }).tap()
  for (const [piece, surface] of surfaces) {
    await form
      .getByRole('group', { name: piece, exact: true })
      .getByText(surface, { exact: true })
      .tap()
  }
  await form.getByRole('button', { name: 'Take this step in hand' }).tap()
  await expect(bar(page)).toContainText(kind)
}

test('a job that was just started is photographed from the bench by its one button', async ({
  page,
}) => {
  const job = await addJob()
  await page.goto(base)
  await expect(bar(page)).toContainText('Before photos')
  const camera = bar(page).getByLabel('Snap')
  await expect(camera).toHaveAttribute('capture', 'environment')
  const answered = page.waitForResponse('**/api/jobs/*/photos')
  await camera.setInputFiles(demoPicture('01-before-front.jpg'))
  expect((await answered).status()).toBe(201)
  await page.goto(`${base}/jobs/${job.id}/photos`)
  await expect(page.getByText('Before', { exact: true })).toBeVisible()
})

test('with the line cut in the middle of a batch, answers lost, the tab closed and the server killed, every photo and step arrives once', async ({
  context,
}) => {
  const job = await addJob()
  let page = await context.newPage()
  await page.goto(`${base}/snap`)
  await page.evaluate(() => navigator.serviceWorker.ready)
  await page.reload()

  await test.step('one step over two pieces, whose answer is lost, and whose photos lose the line', async () => {
    await takeInHand(page, 'Prime', [
      ['sideboard', 'body'],
      ['bench', 'body'],
    ])
    // The first answer is the step's; the third is that of its second photo, and takes the line with it.
    line.lose([1, 3], true)
    await page
      .getByLabel('Choose photos')
      .setInputFiles(
        [
          '10-primer-1-front.jpg',
          '11-primer-1-both.jpg',
          '12-primer-2-left.jpg',
          '13-primer-2-both.jpg',
          '14-paint-1-front.jpg',
        ].map(demoPicture),
      )
    await expect(bar(page)).toContainText('waiting for the workshop')
    expect(line.lost()).toBe(2)
  })

  await test.step('without a line the next step is taken in hand and snapped, and the tab is closed', async () => {
    await takeInHand(page, 'Scuff', [['sideboard', 'top']])
    await bar(page)
      .getByLabel('Snap')
      .setInputFiles(demoPicture('08-scuffed-front.jpg'))
    await expect(list(page)).toContainText('08-scuffed-front.jpg')
    await expect(list(page)).toContainText('Scuff: sideboard top')
    await page.close()
    await killServer()
  })

  await test.step('the bench and what waits are still there', async () => {
    page = await context.newPage()
    await page.goto(base)
    await expect(
      page.getByRole('heading', { level: 1, name: 'Bench' }),
    ).toBeVisible()
    await expect(page.getByText('The workshop does not answer.')).toBeVisible()
    await expect(bar(page)).toContainText('waiting for the workshop')
    await page.goto(`${base}/snap`)
    await expect(list(page)).toContainText('08-scuffed-front.jpg')
  })

  await test.step('once the server is up and the line mended, all arrives by itself', async () => {
    await startServer()
    line.mend()
    await expect(list(page).getByText('Waiting')).toHaveCount(0, {
      timeout: 60_000,
    })
    await expect(list(page)).toContainText('Done')
    await expect(list(page).getByText('Here already')).toHaveCount(0)
  })

  // Two steps, one with five photos and one with one: a hundred counts the step.
  expect(await stepsOf(job.id)).toEqual({ prime: 105, scuff: 101 })
  await page.goto(`${base}/jobs/${job.id}/photos`)
  await expect(page.getByText('6 photos, in order')).toBeVisible()
})

test('a step on a surface that is not dry is warned of where it is taken in hand, and no photo goes to the step before it', async ({
  page,
}) => {
  const job = await addJob()
  const surface = job.pieces[0]?.surfaces[0]?.id
  const product = await ask<{ readonly id: string }>('/api/products', {
    name: 'bonding primer, white',
    category: 'primer',
    chemistry: 'waterborne-acrylic',
    label: { recoatMinutes: 60 },
  })
  await ask(`/api/jobs/${job.id}/steps`, {
    kind: 'prime',
    surfaces: [surface],
    product: product.id,
    finishedAt: new Date(Date.now() - 5 * 60_000).toISOString(),
  })
  await page.goto(`${base}/snap`)
  const wet = page.getByText('Sideboard body: not dry enough yet.')
  await expect(bar(page)).toContainText('Prime, coat 1: sideboard body')
  await expect(wet).toBeHidden()
  await takeInHand(page, 'Prime', [['sideboard', 'body']])
  await expect(wet.first()).toBeInViewport()
  await expect(bar(page)).toContainText('Sideboard body: not dry enough yet.')
  await takeInHand(page, 'Scuff', [['sideboard', 'top']])
  await expect(wet).toHaveCount(0)

  // As soon as enough is said, the photo is of what stands in the form, and is warned of as well.
  await page.getByText('Another step', { exact: true }).tap()
  const form = page.getByRole('region', { name: 'Another step' })
  await form.getByText('Paint', { exact: true }).tap()
  const body = form
    .getByRole('group', { name: 'sideboard', exact: true })
    .getByText('body', { exact: true })
  await body.tap()
  await expect(bar(page)).toContainText('Paint: sideboard body')
  await expect(bar(page)).toContainText('Sideboard body: not dry enough yet.')
  await body.tap()
  await form.getByText('Clean', { exact: true }).tap()
  await form
    .getByRole('group', { name: 'bench', exact: true })
    .getByText('body', { exact: true })
    .tap()
  await expect(bar(page)).toContainText('Clean: bench body')
  await bar(page)
    .getByLabel('Snap')
    .setInputFiles(demoPicture('08-scuffed-front.jpg'))
  await expect
    .poll(() => stepsOf(job.id), { timeout: 30_000 })
    .toEqual({ prime: 100, clean: 101 })
  await form.getByRole('button', { name: 'Take this step in hand' }).tap()
  // What is in hand is offered once.
  await expect(page.getByRole('radio', { name: 'Clean' })).toHaveCount(1)
})

test('a step that is begun by its form is in hand on this phone, goes by its name of now, and each photo of it is told to be kept', async ({
  page,
}) => {
  // Not by the line: forms go by the address at which the server itself listens.
  const desk = `http://127.0.0.1:${port}`
  const job = await addJob()
  const [body] = job.pieces[0]?.surfaces ?? []
  await ask(`/api/jobs/${job.id}/steps`, {
    kind: 'coat',
    surfaces: [body?.id],
    startedAt: new Date(Date.now() - 600_000).toISOString(),
  })
  await page.goto(desk)
  await expect(bar(page)).toContainText('Paint, coat 1')
  const snap = bar(page).getByLabel('Snap')
  await snap.setInputFiles(demoPicture('14-paint-1-front.jpg'))
  await expect(bar(page)).toContainText('1 kept')

  await page.goto(`${desk}/jobs/${job.id}/steps/new`)
  await page.getByText('Stain', { exact: true }).tap()
  await page.getByText('top', { exact: true }).first().tap()
  await page.getByRole('button', { name: 'Go on to its photos' }).tap()
  await expect(page).toHaveURL(/\/steps\/(?!new)[^/]+$/)
  await expect(bar(page)).toContainText('Stain')
  // In hand wherever its owner goes on to.
  await page
    .getByRole('navigation', { name: 'Main' })
    .getByRole('link', { name: 'Bench' })
    .tap()
  await expect(bar(page)).toContainText('Stain')
  await snap.setInputFiles(demoPicture('10-primer-1-front.jpg'))
  await expect(bar(page)).toContainText('1 kept')
  expect(await stepsOf(job.id)).toEqual({ coat: 101, stain: 101 })

  const { lanes } = await ask<{
    readonly lanes: readonly { readonly steps: readonly LaneStep[] }[]
  }>(`/api/jobs/${job.id}/timeline`)
  const stain = lanes
    .flatMap(({ steps }) => steps)
    .find(({ kind }) => kind === 'stain')
  await page.goto(`${desk}/jobs/${job.id}/steps/${stain?.id ?? ''}`)
  await page.getByLabel('Coat number').fill('4')
  await page.getByRole('button', { name: 'Save the step' }).tap()
  await expect(bar(page)).toContainText('Stain, coat 4')
  await page.goto(desk)
  await expect(bar(page)).toContainText('Stain, coat 4')
})

test('a note without a line waits on the phone, and reaches its step once there is one', async ({
  page,
}) => {
  const job = await addJob()
  const surface = job.pieces[0]?.surfaces[0]?.id
  const { id } = await ask<{ readonly id: string }>(
    `/api/jobs/${job.id}/steps`,
    { kind: 'prime', surfaces: [surface] },
  )
  await page.goto(`${base}/snap`)
  await page.evaluate(() => navigator.serviceWorker.ready)
  await page.reload()
  line.cut()
  const note = page.getByRole('region', { name: 'Note for this step' })
  await note.getByRole('textbox').fill('The back edge went on thin.')
  await note.getByRole('button', { name: 'Add the note' }).tap()
  await expect(list(page)).toContainText('Note: The back edge went on thin.')
  await page.reload()
  await expect(list(page)).toContainText('Note: The back edge went on thin.')
  line.mend()
  await expect(list(page).getByText('Waiting')).toHaveCount(0, {
    timeout: 60_000,
  })
  await page.goto(`${base}/jobs/${job.id}/steps/${id}`)
  await expect(page.getByLabel('Note')).toHaveValue(
    'The back edge went on thin.',
  )
})

test('a kept page stays while something is typed into it, and is shown as it is now once nothing is in hand', async ({
  page,
}) => {
  const job = await addJob()
  const surface = job.pieces[0]?.surfaces[0]?.id
  await ask(`/api/jobs/${job.id}/steps`, { kind: 'prime', surfaces: [surface] })
  await page.goto(`${base}/snap`)
  await page.evaluate(() => navigator.serviceWorker.ready)
  await page.reload()
  const kept = page.getByText('The workshop does not answer.')
  const note = page
    .getByRole('region', { name: 'Note for this step' })
    .getByRole('textbox')
  const isOnlineAgain = async () => {
    await page.evaluate(() => dispatchEvent(new Event('online')))
    // It asks the workshop first.
    await page.waitForTimeout(1000)
  }

  line.cut()
  await page.reload()
  await expect(kept).toBeVisible()
  await isOnlineAgain()
  await expect(kept).toBeVisible()
  await note.fill('Half a')
  line.mend()
  await isOnlineAgain()
  await expect(note).toHaveValue('Half a')
  await expect(kept).toBeVisible()
  await page.getByRole('button', { name: 'Look whether it answers' }).tap()
  await expect(kept).toBeHidden()

  line.cut()
  await page.reload()
  await expect(kept).toBeVisible()
  line.mend()
  await page
    .getByRole('navigation', { name: 'Main' })
    .getByRole('link', { name: 'Shelf' })
    .tap()
  await expect(
    page.getByRole('heading', { level: 1, name: 'Shelf' }),
  ).toBeVisible()
  await expect(kept).toBeHidden()
  await page.goto(`${base}/snap`)

  line.cut()
  await page.reload()
  await expect(kept).toBeVisible()
  await page
    .getByLabel('Choose photos')
    .setInputFiles(demoPicture('08-scuffed-front.jpg'))
  const gone = list(page).getByText('If the workshop is gone for good')
  await gone.tap()
  const saved = page.waitForEvent('download')
  await list(page)
    .getByRole('button', { name: 'Save the photo that waits' })
    .tap()
  expect((await saved).suggestedFilename()).toBe('08-scuffed-front.jpg')
  line.mend()
  await isOnlineAgain()
  await expect(kept).toBeHidden()
})

test('what the workshop does not take stays on the phone until its owner decides', async ({
  page,
}) => {
  await addJob()
  await page.goto(`${base}/snap`)
  await page.getByLabel('Choose photos').setInputFiles([
    {
      name: 'notes.jpg',
      mimeType: 'image/jpeg',
      buffer: Buffer.from('These are notes, not a picture.'),
    },
    demoPicture('01-before-front.jpg'),
  ])
  await expect(list(page).getByText('Not taken')).toBeVisible()
  await expect(list(page).getByText('Kept')).toBeVisible()
  await expect(bar(page)).toContainText('1 not sent')
  await page.reload()
  await expect(list(page).getByText('not a picture')).toBeVisible()
  const saved = page.waitForEvent('download')
  await list(page).getByRole('button', { name: 'Save a copy' }).tap()
  const stream = await (await saved).createReadStream()
  const hash = createHash('sha256')
  for await (const chunk of stream) hash.update(chunk as Buffer)
  expect(hash.digest('hex')).toBe(
    createHash('sha256')
      .update('These are notes, not a picture.')
      .digest('hex'),
  )
  page.on('dialog', (dialog) => void dialog.accept())
  await list(page).getByRole('button', { name: 'Discard' }).tap()
  await expect(list(page)).toBeHidden()
})

test('what the workshop failed at time after time is sent again by one tap', async ({
  page,
}) => {
  await addJob()
  await page.goto(`${base}/snap`)
  let fails = true
  await page.route('**/api/jobs/*/photos', (route) =>
    fails ? route.fulfill({ status: 500 }) : route.continue(),
  )
  await page
    .getByLabel('Choose photos')
    .setInputFiles([
      demoPicture('01-before-front.jpg'),
      demoPicture('04-before-top.jpg'),
    ])
  const all = list(page).getByRole('button', { name: 'Send all 2 again' })
  await expect(all).toBeVisible({ timeout: 60_000 })
  await expect(bar(page)).toContainText('2 not sent')
  fails = false
  await all.tap()
  await expect(list(page)).toContainText('Done: all 2 sent')
})

test('a tab that alone holds a photo, since the phone keeps nothing, asks before it goes and sends it', async ({
  page,
}) => {
  await addJob()
  await page.addInitScript(() => {
    IDBFactory.prototype.open = () => {
      throw new DOMException('no room', 'QuotaExceededError')
    }
  })
  await page.goto(`${base}/snap`)
  // What was never touched may go without a word, in every browser.
  await page.getByText('What it is of').tap()
  const asked: string[] = []
  page.on('dialog', (dialog) => {
    asked.push(dialog.type())
    void dialog.dismiss()
  })
  line.cut()
  await page
    .getByLabel('Choose photos')
    .setInputFiles(demoPicture('01-before-front.jpg'))
  await expect(list(page)).toContainText('leave it open until they are sent')
  await page.close({ runBeforeUnload: true })
  await expect.poll(() => asked).toEqual(['beforeunload'])
  line.mend()
  await expect(list(page)).toContainText('Done: 1 sent', {
    timeout: 60_000,
  })
  const closed = page.waitForEvent('close')
  await page.close({ runBeforeUnload: true })
  await closed
  expect(asked).toEqual(['beforeunload'])
})

test('the snap button changes its side, and nothing moves while a page loads', async ({
  page,
}) => {
  await addJob()
  await page.goto(`${base}/workshop`)
  const right = await bar(page).getByText('Snap', { exact: true }).boundingBox()
  expect(right?.x).toBeGreaterThan(195)
  await page.getByText('Left hand').tap()
  await page.getByRole('button', { name: 'Put it there' }).tap()
  await expect(page.getByText('The snap button is on the left.')).toBeVisible()
  for (const at of ['/', '/snap']) {
    await page.goto(base + at)
    const left = await bar(page)
      .getByText('Snap', { exact: true })
      .boundingBox()
    expect(left?.x).toBeLessThan(195)
    expect(await movedBy(page, 1000), at).toBe(0)
  }
})

test('a browser that writes down no speech says what does, and nothing moves', async ({
  page,
}) => {
  const { id, pieces } = await addJob()
  await ask(`/api/jobs/${id}/steps`, {
    kind: 'prime',
    surfaces: [pieces[0]?.surfaces[0]?.id],
  })
  await page.goto(`${base}/snap`)
  await expect(
    page.getByRole('button', { name: 'Speak the note' }),
  ).toBeVisible()
  await expect(page.getByText('use the microphone')).toBeHidden()
  await page.addInitScript(() => {
    for (const name of ['SpeechRecognition', 'webkitSpeechRecognition'])
      Reflect.deleteProperty(globalThis, name)
  })
  await page.reload()
  await expect(page.getByText('use the microphone')).toBeVisible()
  await expect(
    page.getByRole('button', { name: 'Speak the note' }),
  ).toBeHidden()
  expect(await movedBy(page, 1000)).toBe(0)
})

/** What the phone keeps of a page; empty while it keeps none. */
async function keptPage(page: Page, path: string): Promise<string> {
  return page.evaluate(async (at) => {
    const kept = await caches.match(at)
    return kept === undefined ? '' : await kept.text()
  }, path)
}

/** Makes what the phone keeps of its pages an hour older. */
async function ageKeptPages(page: Page): Promise<void> {
  await page.evaluate(async () => {
    for (const name of await caches.keys()) {
      const cache = await caches.open(name)
      for (const key of await cache.keys()) {
        const kept = await cache.match(key)
        const time = kept?.headers.get('coatbook-kept-at') ?? undefined
        if (kept === undefined || time === undefined) continue
        const headers = new Headers(kept.headers)
        headers.set('coatbook-kept-at', String(Number(time) - 3_600_000))
        await cache.put(key, new Response(await kept.text(), { headers }))
      }
    }
  })
}

test('without a line Snap knows of a job that was started since its page was last asked for whole', async ({
  page,
}) => {
  await addJob()
  await page.goto(`${base}/jobs`)
  await expect
    .poll(() => keptPage(page, '/snap'), { timeout: 20_000 })
    .toContain('Sideboard and bench')
  await ageKeptPages(page)
  await ask('/api/jobs', {
    title: 'Hall chair',
    pieces: [{ name: 'chair', kind: 'chair', surfaces: ['seat'] }],
  })
  const ways = page.getByRole('navigation', { name: 'Main' })
  await ways.getByRole('link', { name: 'Shelf' }).tap()
  await expect(
    page.getByRole('heading', { level: 1, name: 'Shelf' }),
  ).toBeVisible()
  await expect
    .poll(() => keptPage(page, '/snap'), { timeout: 20_000 })
    .toContain('Hall chair')
  line.cut()
  await bar(page).getByRole('link').tap()
  await expect(page.getByText('The workshop does not answer.')).toBeVisible()
  await expect(
    page.getByRole('heading', { level: 1, name: 'Snap' }),
  ).toBeVisible()
  await expect(page.getByText('Hall chair').first()).toBeVisible()
})

test('the phone is asked to renew what it keeps once a page has come to rest, never while the owner goes on', async ({
  page,
}) => {
  type Note = readonly [what: string, at: number]
  await page.addInitScript((alive) => {
    const notes: Note[] = []
    Reflect.set(globalThis, 'notes', notes)
    addEventListener(alive, () => notes.push(['page', performance.now()]))
    for (const [owner, name, what] of [
      [History.prototype, 'pushState', 'page'],
      [ServiceWorker.prototype, 'postMessage', 'keep'],
    ] as const) {
      const real = Reflect.get(owner, name) as (...given: unknown[]) => unknown
      Reflect.set(owner, name, function (this: unknown, ...given: unknown[]) {
        notes.push([what, performance.now()])
        return real.apply(this, given)
      })
    }
  }, pageIsAlive)
  const notes = () =>
    page.evaluate(() => Reflect.get(globalThis, 'notes') as Note[])
  await addJob()
  await page.goto(base)
  await page.evaluate(() => navigator.serviceWorker.ready)
  await page.reload()
  const ways = page.getByRole('navigation', { name: 'Main' })
  for (const name of ['Jobs', 'Shelf', 'Jobs', 'Workshop']) {
    await ways.getByRole('link', { name }).tap()
    await expect(page.getByRole('heading', { level: 1, name })).toBeVisible()
  }
  await expect
    .poll(async () => (await notes()).at(-1)?.[0], { timeout: 20_000 })
    .toBe('keep')
  let restedSince = 0
  for (const [what, at] of await notes()) {
    // The timer may be set a moment before the address is changed.
    if (what === 'keep') expect(at - restedSince).toBeGreaterThan(2900)
    else restedSince = at
  }
  const pages = (await notes()).filter(([what]) => what === 'page')
  expect(pages.length).toBeGreaterThanOrEqual(5)
})
