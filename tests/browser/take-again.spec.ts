import type { APIRequestContext } from '@playwright/test'
import { expect, test } from '../support/alive-pages'
import { demoPicture } from '../support/demo-picture'

// A phone held upright.
test.use({
  viewport: { width: 390, height: 844 },
  hasTouch: true,
  isMobile: true,
})

/** A job with one before photo of its front. */
async function addBefore(
  request: APIRequestContext,
): Promise<{ readonly job: string; readonly title: string }> {
  const title = `Sideboard to be taken again ${Date.now()}`
  const job = (await (
    await request.post('/api/jobs', {
      data: {
        title,
        pieces: [{ name: 'sideboard', kind: 'sideboard', surfaces: ['body'] }],
      },
    })
  ).json()) as { readonly id: string }
  const name = '01-before-front.jpg'
  const sent = await request.post(`/api/jobs/${job.id}/photos`, {
    multipart: {
      role: 'before',
      view: 'front',
      file: demoPicture(name),
    },
  })
  expect(sent.status()).toBe(201)
  return { job: job.id, title }
}

test('the before photo lies over the live camera, and what is taken there is the after of its view', async ({
  page,
  context,
  request,
}) => {
  const { job, title } = await addBefore(request)
  await context.grantPermissions(['camera'])
  await page.goto('/snap')
  await page.getByRole('link', { name: `front ${title}` }).tap()
  await page.getByRole('button', { name: 'Lay it over the camera' }).tap()
  const live = page.getByLabel('The live camera')
  await expect
    .poll(() => live.evaluate((one: HTMLVideoElement) => one.videoWidth))
    .toBeGreaterThan(0)
  await expect(page.getByText('Not the same view yet')).toBeVisible()
  await page.getByLabel('Before photo').fill('80')
  await expect(page.getByAltText('Before: front')).toHaveCSS('opacity', '0.8')
  const answered = page.waitForResponse(`**/api/jobs/${job}/photos`)
  await page.getByRole('button', { name: 'Take it' }).tap()
  expect((await answered).status()).toBe(201)
  await expect(page.getByText('Taken, and kept.')).toBeVisible()
  await page.goto('/snap')
  // The snap bar may name the job still; the view is no longer asked for.
  await expect(
    page.getByRole('main').getByRole('link', { name: title }),
  ).toHaveCount(0)
})

test('without leave to see, the before photo stands beside the phone’s own camera', async ({
  page,
  request,
}) => {
  const { title } = await addBefore(request)
  await page.goto('/snap')
  await page.getByRole('link', { name: `front ${title}` }).tap()
  await page.getByRole('button', { name: 'Lay it over the camera' }).tap()
  await expect(page.getByText('was not given to this page')).toBeVisible()
  await expect(page.getByAltText('Before: front')).toBeVisible()
  await expect(page.getByLabel('Use the phone’s camera')).toHaveAttribute(
    'capture',
    'environment',
  )
})
