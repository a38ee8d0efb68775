import type { APIRequestContext, Locator, Page } from '@playwright/test'
import { expect, test } from '../support/alive-pages'
import { demoPicture } from '../support/demo-picture'
import { requestCoat, requestJob } from '../support/request-job'

// A phone held upright.
test.use({
  viewport: { width: 390, height: 844 },
  hasTouch: true,
  isMobile: true,
  serviceWorkers: 'block',
})

/** A job with two pieces and photos of its first two days that nobody has placed. */
async function addCard(request: APIRequestContext): Promise<string> {
  const answer = await request.post('/api/jobs', {
    data: {
      title: 'A card to place',
      pieces: [
        { name: 'sideboard', kind: 'sideboard', surfaces: ['body', 'top'] },
        { name: 'bench', kind: 'bench', surfaces: ['body'] },
      ],
    },
  })
  const { id } = (await answer.json()) as { readonly id: string }
  for (const name of [
    '01-before-front.jpg',
    '08-scuffed-front.jpg',
    '09-scuffed-both.jpg',
    '10-primer-1-front.jpg',
    '11-primer-1-both.jpg',
    '13-primer-2-both.jpg',
  ]) {
    const sent = await request.post(`/api/jobs/${id}/photos`, {
      multipart: {
        file: demoPicture(name),
      },
    })
    expect(sent.status()).toBe(201)
  }
  return id
}

function dayOf(page: Page, day: string) {
  return page.getByRole('form', { name: `Photos of ${day}` })
}

/** What each line of a day says it shows. */
async function saidOf(page: Page, day: string): Promise<string[]> {
  const lists = dayOf(page, day).getByRole('combobox', {
    name: /^What it shows/,
  })
  return lists.evaluateAll((all) =>
    all.map((one) =>
      one instanceof HTMLSelectElement
        ? (one.selectedOptions[0]?.textContent ?? '')
        : '',
    ),
  )
}

test('what is proposed for a day follows what was placed of the day before, and what its owner said stays', async ({
  page,
  request,
}) => {
  const pad = await request.post('/api/products', {
    data: { name: 'scuff pad, grey', category: 'abrasive', chemistry: 'other' },
  })
  expect(pad.status()).toBe(201)
  const job = await addCard(request)
  await page.goto(`/jobs/${job}/photos`)
  // Once the small pictures are made, the page knows it by itself.
  await expect(page.getByText('still being made')).toHaveCount(0, {
    timeout: 30_000,
  })
  const first = dayOf(page, '22 October 2026')
  const second = dayOf(page, '23 October 2026')
  await expect(second).toBeVisible()
  await second
    .getByLabel(/^What it shows/)
    .last()
    .selectOption('After the work')
  const before = await saidOf(page, '23 October 2026')
  // Scuffed, both pieces of it: no step is there yet, so it is put together.
  const scuffed = first.getByRole('listitem').nth(1)
  await scuffed
    .getByLabel(/^What it shows/)
    .selectOption('Another step or surface …')
  await scuffed.getByLabel('What was done').selectOption('Scuff')
  for (const piece of ['sideboard', 'bench']) {
    await scuffed
      .getByRole('group', { name: piece })
      .getByLabel('body')
      .setChecked(true)
  }
  await scuffed.getByLabel('scuff pad, grey').first().setChecked(true)
  // What was put together once can be chosen for the others.
  await first
    .getByLabel(/^What it shows/)
    .nth(2)
    .selectOption('Scuffing, sideboard body, bench body (new step)')
  await first
    .getByRole('button', { name: 'Place the photos of this day' })
    .tap()
  await expect(page.getByText('were placed at')).toBeVisible()
  await expect(first).toHaveCount(0)
  const after = await saidOf(page, '23 October 2026')
  expect(after).not.toEqual(before)
  expect(after.at(-1)).toBe('After the work')
  await page.reload()
  await expect(second).toBeVisible()
  const fresh = await saidOf(page, '23 October 2026')
  expect(after.slice(0, -1)).toEqual(fresh.slice(0, -1))
  await expect(
    page.getByText('sideboard body, bench body', { exact: true }),
  ).toHaveCount(2)
  await page.goto(`/jobs/${job}/materials`)
  await expect(page.getByText('scuff pad, grey').first()).toBeVisible()
})

test('a form of a step says that a surface is not dry where the surface is chosen', async ({
  page,
  request,
}) => {
  const job = await requestJob(request, 'Too soon', 'bench', ['body'])
  await requestCoat(
    request,
    job,
    { name: 'slow enamel', recoatMinutes: 1440 },
    new Date(Date.now() - 600_000).toISOString(),
  )
  await page.goto(`/jobs/${job.id}/steps/new`)
  await page.getByText('Paint', { exact: true }).tap()
  const surface = page.getByText('body', { exact: true })
  await surface.tap()
  const verdict = page.getByText('not dry enough yet')
  await expect(verdict).toBeVisible()
  const top = async (one: Locator) => (await one.boundingBox())?.y ?? NaN
  const products = page.getByLabel('Product')
  expect(await top(verdict)).toBeGreaterThan(await top(surface))
  expect(await top(verdict)).toBeLessThan(await top(products))
})
