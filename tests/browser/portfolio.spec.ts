import { type Server, createServer } from 'node:http'
import type { APIRequestContext, Page } from '@playwright/test'
import { expect, test } from '../support/alive-pages'
import { demoPicture } from '../support/demo-picture'

// A phone held upright.
test.use({
  viewport: { width: 390, height: 844 },
  hasTouch: true,
  isMobile: true,
})
test.describe.configure({ mode: 'serial' })

const piece = `Sideboard in teal ${Date.now()}`
let job = ''
let slug = ''
let embedding: Server | undefined

/** A job with one piece and photos of its front. */
async function addJob(
  request: APIRequestContext,
  title: string,
  kind: string,
  files: readonly (readonly [name: string, role: string])[],
): Promise<string> {
  const made = await request.post('/api/jobs', {
    data: { title, pieces: [{ name: kind, kind, surfaces: ['body'] }] },
  })
  const { id } = (await made.json()) as { readonly id: string }
  for (const [name, role] of files) {
    const sent = await request.post(`/api/jobs/${id}/photos`, {
      multipart: {
        role,
        view: 'front',
        file: demoPicture(name),
      },
    })
    expect(sent.status()).toBe(201)
  }
  return id
}

test.beforeAll(async ({ playwright, baseURL }) => {
  const request = await playwright.request.newContext({
    ...(baseURL === undefined ? {} : { baseURL }),
  })
  job = await addJob(request, piece, 'sideboard', [
    ['01-before-front.jpg', 'before'],
    ['30-after-front.jpg', 'after'],
  ])
  await request.dispose()
})
test.afterAll(() => {
  embedding?.close()
})

/** All that a page says; where its lines break depends on what is loaded. */
async function saidBy(page: Page): Promise<string> {
  const words = await page.locator('main').innerText()
  return words.replaceAll(/\s+/g, ' ')
}

test('a piece is put out from its job, and what is out is what its owner saw', async ({
  page,
}) => {
  await page.goto(`/jobs/${job}/portfolio`)
  await page
    .getByRole('link', { name: /sideboard/i })
    .first()
    .tap()
  await page.waitForURL(/\/portfolio\/[^/]+$/)
  const form = page.getByRole('form', { name: 'What to show' })
  // The pair is found by itself, which takes a while.
  await expect(async () => {
    await page.reload()
    await expect(
      form
        .getByRole('group', { name: 'Before and after' })
        .getByRole('checkbox'),
    ).not.toHaveCount(0, { timeout: 2000 })
  }).toPass({ timeout: 200_000 })
  await form.getByLabel('Title').fill(piece)
  await form.getByLabel('Story').fill('It stood in a damp garage.')
  for (const choice of await form
    .getByRole('group', { name: /^(?:Before and after|Pictures)$/ })
    .getByRole('checkbox')
    .all()) {
    await choice.check()
  }
  await page.getByRole('button', { name: 'Save the draft' }).tap()
  await expect(form.getByRole('status').last()).toHaveText(/.+/)
  await page.reload()
  const [preview] = await Promise.all([
    page.waitForEvent('popup'),
    page.getByRole('link', { name: 'See it as visitors will' }).tap(),
  ])
  await expect(preview.getByText('It stood in a damp garage.')).toBeVisible()
  const seen = await saidBy(preview)
  await preview.close()
  await page.getByRole('button', { name: 'Publish it' }).tap()
  const out = page.getByRole('link', { name: 'See what is out' })
  await expect(out).toBeVisible({ timeout: 60_000 })
  const address = (await out.getAttribute('href')) ?? ''
  slug = address.split('/').filter(Boolean).at(-1) ?? ''
  await page.goto(address)
  expect(await saidBy(page)).toBe(seen)
})

test('a pair is wiped by finger and by keys', async ({ page }) => {
  await page.goto(`/portfolio/${slug}`)
  const line = page.getByRole('slider', { name: /How much of the before/ })
  await expect(line.first()).toBeVisible()
  const value = () => line.first().inputValue()
  expect(await value()).toBe('50')
  const box = await line.first().boundingBox()
  if (box === null) throw new Error('the line is nowhere')
  await page.touchscreen.tap(box.x + box.width * 0.8, box.y + box.height / 2)
  await expect.poll(async () => Number(await value())).toBeGreaterThan(70)
  const touched = Number(await value())
  await line.first().focus()
  await page.keyboard.press('ArrowLeft')
  await page.keyboard.press('ArrowLeft')
  expect(Number(await value())).toBe(touched - 2)
  await page.keyboard.press('Home')
  expect(await value()).toBe('0')
  await expect(line.first()).toHaveAttribute(
    'aria-valuetext',
    '0 % before, 100 % after',
  )
})

test('pictures open over the page, and keys and swipes go from one to the next', async ({
  page,
}) => {
  await page.goto(`/portfolio/${slug}`)
  const links = page.locator('a.gallery-link')
  const count = await links.count()
  expect(count).toBeGreaterThan(0)
  await links.first().tap()
  const viewer = page.getByRole('dialog', { name: 'Picture' })
  const place = viewer.getByRole('status')
  await expect(place).toHaveText(`1 of ${String(count)}`)
  const next = (at: number) => `${String((at % count) + 1)} of ${String(count)}`
  await page.keyboard.press('ArrowRight')
  await expect(place).toHaveText(next(1))
  await page.keyboard.press('ArrowLeft')
  await expect(place).toHaveText(`1 of ${String(count)}`)
  const picture = viewer.getByRole('img')
  await picture.evaluate((target) => {
    const at = (x: number) =>
      new Touch({ identifier: 1, target, clientX: x, clientY: 300 })
    const send = (type: string, x: number, isDown: boolean) =>
      target.dispatchEvent(
        new TouchEvent(type, {
          touches: isDown ? [at(x)] : [],
          changedTouches: [at(x)],
          bubbles: true,
        }),
      )
    send('touchstart', 300, true)
    send('touchend', 100, false)
  })
  await expect(place).toHaveText(next(1))
  await page.keyboard.press('Escape')
  await expect(viewer).toBeHidden()
})

test('pieces are found by kind, and the choice stands in the address', async ({
  page,
  request,
}) => {
  // What all pieces have in common is not asked for: another kind is needed.
  const other = await addJob(request, 'Chest', 'chest', [
    ['16-paint-2-bench.jpg', 'after'],
  ])
  await page.goto(`/jobs/${other}/portfolio`)
  await page.getByRole('link', { name: /chest/i }).first().tap()
  await page.waitForURL(/\/portfolio\/[^/]+$/)
  const form = page.getByRole('form', { name: 'What to show' })
  for (const choice of await form
    .getByRole('group', { name: 'Pictures' })
    .getByRole('checkbox')
    .all()) {
    await choice.check()
  }
  await page.getByRole('button', { name: 'Save the draft' }).tap()
  await expect(form.getByRole('status').last()).toHaveText(/.+/)
  await page.reload()
  await page.getByRole('button', { name: 'Publish it' }).tap()
  await expect(page.getByRole('link', { name: 'See what is out' })).toBeVisible(
    { timeout: 60_000 },
  )
  await page.goto('/portfolio')
  const kind = page.getByRole('combobox', { name: 'Kind' })
  await kind.selectOption('sideboard')
  const shown = page.locator('.card:not([hidden])')
  await expect(shown.getByText(piece)).toBeVisible()
  const count = await shown.count()
  await kind.selectOption('chest')
  await expect(shown.getByText(piece)).toHaveCount(0)
  await kind.selectOption('sideboard')
  await expect(page).toHaveURL(/#kind=sideboard/)
  await page.reload()
  await expect(kind).toHaveValue('sideboard')
  await expect(shown).toHaveCount(count)
})

test('a page of another site shows a pair that it embeds', async ({
  page,
  baseURL,
}) => {
  await page.goto(`/portfolio/${slug}`)
  const pictures = await page
    .locator('.pairs img')
    .evaluateAll((images) => images.map((one) => (one as HTMLImageElement).src))
  expect(pictures.length).toBeGreaterThan(1)
  embedding = createServer((_, answer) => {
    answer.setHeader('content-type', 'text/html')
    answer.end(
      `<!doctype html><title>Another site</title>${pictures.map((src) => `<img src="${src.replace('localhost', '127.0.0.1')}">`).join('')}`,
    )
  })
  const port = await new Promise<number>((resolve) => {
    embedding?.listen(0, '127.0.0.1', () => {
      const at = embedding?.address()
      resolve(typeof at === 'object' && at !== null ? at.port : 0)
    })
  })
  // Another site to the browser, which tells sites apart by name: `localhost` is not `127.0.0.1`.
  expect(baseURL).toContain('localhost')
  await page.goto(`http://localhost:${String(port)}/`)
  await expect
    .poll(() =>
      page
        .locator('img')
        .evaluateAll((images) =>
          images.every((one) => (one as HTMLImageElement).naturalWidth > 0),
        ),
    )
    .toBe(true)
})

test('what is taken down is gone at once, from the browser that has just seen it too', async ({
  page,
}) => {
  await page.goto(`/portfolio/${slug}`)
  const picture = await page.locator('main img').first().getAttribute('src')
  await page.goto(`/jobs/${job}/portfolio`)
  await page
    .getByRole('link', { name: /sideboard/i })
    .first()
    .tap()
  await page.getByRole('button', { name: 'Take it down' }).tap()
  await expect(page.getByText('Not out: nobody but you')).toBeVisible()
  const answer = await page.goto(`/portfolio/${slug}`)
  expect(answer?.status()).toBe(404)
  const gone = await page.goto(picture ?? '')
  expect(gone?.status()).toBe(404)
})
