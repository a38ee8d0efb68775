/** Texts of a job on a phone: the ways to them, how long they may be, what is printed, and what a sale changes in them. */
import type { APIRequestContext, Page } from '@playwright/test'
import { expect, test } from '../support/alive-pages'
import { demoPicture } from '../support/demo-picture'

test.use({
  viewport: { width: 390, height: 844 },
  hasTouch: true,
  isMobile: true,
})

/** A cupboard made for a client, with the work of two days. */
async function addOrdered(request: APIRequestContext): Promise<string> {
  const job = await request.post('/api/jobs', {
    data: {
      title: 'Corner cupboard',
      pieces: [
        {
          name: 'cupboard',
          kind: 'corner cupboard',
          surfaces: ['body', 'top', 'door'],
        },
      ],
    },
  })
  const { id, pieces } = (await job.json()) as {
    readonly id: string
    readonly pieces: readonly {
      readonly surfaces: readonly { readonly id: string }[]
    }[]
  }
  const surfaces = pieces[0]?.surfaces.map((one) => one.id)
  for (const [index, kind] of ['clean', 'scuff', 'prime', 'coat'].entries()) {
    const startedAt = Date.UTC(2026, 2, 1 + index, 9)
    const step = await request.post(`/api/jobs/${id}/steps`, {
      data: {
        kind,
        surfaces,
        startedAt: new Date(startedAt).toISOString(),
        finishedAt: new Date(startedAt + 5_400_000).toISOString(),
      },
    })
    expect(step.ok(), await step.text()).toBe(true)
  }
  return id
}

const textOf = (page: Page, name: string) =>
  page.getByRole('group', { name, exact: true })

/** Writes into fields of a job's details and keeps them. */
async function fillDetails(
  page: Page,
  job: string,
  fields: Readonly<Record<string, string>>,
): Promise<void> {
  await page.goto(`/jobs/${job}/details`)
  for (const [label, value] of Object.entries(fields)) {
    await page.getByLabel(label).fill(value)
  }
  await page.getByRole('button', { name: 'Save the details' }).tap()
  await expect(page.getByText('Saved.')).toBeVisible()
}

test('each text of a job is one tap away, and its heading stands clear of the bars', async ({
  page,
  request,
}) => {
  const job = await addOrdered(request)
  await page.goto(`/jobs/${job}/write-ups`)
  const ways = page.getByRole('navigation', { name: 'Texts on this page' })
  const names = await ways.getByRole('link').allTextContents()
  expect(names).toEqual([
    'Sale listing',
    'Video description',
    'Caption',
    'Care card',
  ])
  for (const name of names) {
    await ways.getByRole('link', { name }).tap()
    const heading = page.getByRole('heading', { name, exact: true })
    await expect(heading).toBeInViewport({ ratio: 1 })
    const isOnTop = await heading.evaluate((element) => {
      const { left, top, height } = element.getBoundingClientRect()
      return element.contains(
        document.elementFromPoint(left + 4, top + height / 2),
      )
    })
    expect(isOnTop, name).toBe(true)
  }
})

test('a text is shortened by whole sentences to the limit that the workshop sets', async ({
  page,
  request,
}) => {
  const job = await addOrdered(request)
  await page.goto(`/jobs/${job}/write-ups`)
  const whole = await textOf(page, 'Sale listing').innerText()
  const limit = String(Math.floor(whole.length * 0.8))
  await page.goto('/workshop#write-ups')
  const listing = page.getByLabel('Listing', { exact: true })
  const caption = page.getByLabel('Caption', { exact: true })
  const before = [await listing.inputValue(), await caption.inputValue()]
  const set = async ([long = '', short = '']: readonly string[]) => {
    await listing.fill(long)
    await caption.fill(short)
    await page.getByRole('button', { name: 'Save for write-ups' }).tap()
    await expect(page.getByText('Saved.')).toBeVisible()
  }
  await set([limit, '60'])
  await page.reload()
  await expect(listing).toHaveValue(limit)
  await page.goto(`/jobs/${job}/write-ups`)
  const short = await textOf(page, 'Sale listing').innerText()
  const little = await textOf(page, 'Caption').innerText()
  const told = await page.getByText(/ of at most /).allTextContents()
  // Other tests write in the same workshop.
  await page.goto('/workshop#write-ups')
  await set(before)
  const lines = short.trim().split(/\n+/)
  expect(lines.length).toBeGreaterThan(2)
  for (const line of lines.slice(1)) expect(whole).toContain(line)
  expect(short.length).toBeLessThan(whole.length)
  expect(little).toMatch(/^A corner cupboard[^.]*\.$/m)
  expect(told[0]).toMatch(
    new RegExp(`^\\d+ of at most ${limit} characters; .* left out to fit\\.$`),
  )
  expect(told.at(-1)).toMatch(/^\d+ of at most 60 characters/)
})

test('the report prints alone, in dark ink whatever the screen is', async ({
  page,
  request,
}) => {
  await page.addInitScript(() => {
    window.print = () => {
      document.documentElement.dataset['printed'] = 'yes'
    }
  })
  const job = await addOrdered(request)
  await fillDetails(page, job, { 'Made for': 'The Rowans' })
  await page.emulateMedia({ colorScheme: 'dark' })
  await page.goto(`/jobs/${job}/write-ups`)
  const shown = (name: string) =>
    page.getByRole('heading', { name, exact: true })
  await page.getByRole('button', { name: 'Print the report' }).tap()
  await expect(page.locator('html[data-printed]')).toHaveCount(1)
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' })
  await expect(shown('Job report')).toBeVisible()
  await expect(textOf(page, 'Job report')).toContainText('Rowans')
  for (const name of ['Sale listing', 'Video description', 'Care card']) {
    await expect(shown(name)).toBeHidden()
  }
  await expect(page.getByRole('button')).toHaveCount(0)
  await expect(page.getByRole('navigation')).toHaveCount(0)
  const ink = await textOf(page, 'Job report').evaluate(
    (element) => getComputedStyle(element).color,
  )
  const [red = 255, green = 255, blue = 255] = (ink.match(/\d+/g) ?? []).map(
    Number,
  )
  expect(Math.max(red, green, blue)).toBeLessThan(64)
  await page.evaluate(() => window.dispatchEvent(new Event('afterprint')))
  await expect(shown('Sale listing')).toBeVisible()
})

test('what is sold is offered no more, and what it earned is told once its price is written down', async ({
  page,
  request,
}) => {
  const job = await addOrdered(request)
  await fillDetails(page, job, { 'Asking price': '240' })
  await page.goto(`/jobs/${job}/write-ups`)
  await expect(textOf(page, 'Sale listing')).toContainText('Price: £240.')
  await page.goto(`/jobs/${job}/details`)
  await page.getByLabel('Sold on').fill('2026-03-20')
  await page.getByRole('button', { name: 'Save the dates' }).tap()
  await expect(page.getByText('Saved.')).toBeVisible()
  await page.goto(`/jobs/${job}/write-ups`)
  await expect(textOf(page, 'Sale listing')).toContainText('Sold.')
  await expect(textOf(page, 'Sale listing')).not.toContainText('£240')

  await page.goto(`/jobs/${job}/money`)
  await page.getByRole('link', { name: 'Write down what for' }).tap()
  await page.getByLabel('Sold for').fill('225')
  await page.getByRole('button', { name: 'Save the sale' }).tap()
  const earned = page.getByRole('region', {
    name: 'Sold: what was really earned',
  })
  await expect(earned).toContainText('£225.00')
  await expect(page.getByText('It was sold on')).toHaveCount(0)
  await page.goto('/jobs/money')
  await expect(
    page.getByRole('row', { name: /^corner cupboard 1 6 h/ }).first(),
  ).toBeVisible()
})

test('fields of a clock follow it when it is set and when that is undone', async ({
  page,
  request,
}) => {
  const job = await addOrdered(request)
  const kept = await request.post(`/api/jobs/${job}/photos`, {
    multipart: { file: demoPicture('01-before-front.jpg') },
  })
  expect(kept.ok(), await kept.text()).toBe(true)
  await page.goto('/workshop#cameras')
  const camera = page
    .getByRole('listitem')
    .filter({ has: page.getByRole('heading', { name: 'Example Phone A' }) })
  await camera.getByText('Type how far it is off').tap()
  const minutes = camera.getByLabel('Off by, in minutes')
  const direction = camera.getByLabel('Direction')
  await expect(minutes).toHaveValue('')
  await minutes.fill('7')
  await direction.selectOption('fast')
  await camera.getByRole('button', { name: 'Set the clock' }).tap()
  await expect(camera.getByText(/^Its clock .*7 min/)).toBeVisible()
  await camera.getByRole('button', { name: 'Undo it' }).tap()
  await expect(camera.getByText(/^Its clock /)).toHaveCount(0)
  await expect(minutes).toHaveValue('')
  await expect(direction).toHaveValue('slow')
})
