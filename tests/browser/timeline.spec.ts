import type { APIRequestContext } from '@playwright/test'
import AxeBuilder from '@axe-core/playwright'
import { expect, test } from '../support/alive-pages'
import { requestJob } from '../support/request-job'

/** A job with three coats of paint on its top: the third was put in between the others. */
async function paintedJob(request: APIRequestContext): Promise<string> {
  const { id, surfaces } = await requestJob(request, 'Chair', 'chair', [
    'seat',
    'legs',
  ])
  for (const hour of ['08', '18', '13']) {
    await request.post(`/api/jobs/${id}/steps`, {
      data: {
        kind: 'coat',
        surfaces: surfaces.slice(0, 1),
        startedAt: `2026-10-24T${hour}:00:00Z`,
        finishedAt: `2026-10-24T${hour}:30:00Z`,
      },
    })
  }
  return id
}

for (const width of [390, 1280]) {
  test(`a coat is mended over the drawing, which keeps its place and zoom, at ${width} px`, async ({
    page,
    request,
  }) => {
    await page.setViewportSize({ width, height: 844 })
    const job = await paintedJob(request)
    await page.goto(`/jobs/${job}/timeline`)
    const drawing = page.getByRole('group', { name: /^Drawing of/ })
    await page.getByRole('button', { name: 'Closer' }).click()
    await page.getByRole('button', { name: 'Closer' }).click()
    await drawing.evaluate((element) => {
      element.scrollTo({ left: 200 })
    })
    const placeOf = () =>
      drawing.evaluate(({ scrollLeft, scrollWidth }) => ({
        scrollLeft,
        scrollWidth,
      }))
    const mark = drawing.getByRole('link', { name: /^Paint, coat/ }).last()
    await mark.click()
    const panel = page.getByRole('dialog', { name: /^Paint, coat/ })
    await expect(panel.getByText('On which surfaces')).toBeVisible()
    await expect(page.getByText('The page is coming')).toBeHidden()
    // The click itself may have brought the mark into view.
    const place = await placeOf()
    expect(place.scrollLeft).toBeGreaterThan(0)
    expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([])
    await panel.getByText('legs', { exact: true }).click()
    // However long the form is, what saves it is in sight.
    await expect(
      panel.getByRole('button', { name: 'Save the step' }),
    ).toBeInViewport({ ratio: 1 })
    await panel.getByRole('button', { name: 'Save the step' }).click()
    await expect(panel).toBeHidden()
    // The drawing was not left, so the way back comes to it.
    const bar = page.getByRole('region', { name: 'Just now' })
    await expect(bar.getByText('Step saved.')).toBeInViewport()
    await expect(page.getByText(/^Last change: .*was changed/)).toBeVisible()
    expect(await placeOf()).toEqual(place)
    expect(new URL(page.url()).pathname).toBe(`/jobs/${job}/timeline`)
    await bar.getByRole('button', { name: 'Undo it' }).click()
    await expect(bar.getByText('Undone.')).toBeVisible()
    // What was changed before that is offered next, but not beside the drawing.
    await expect(page.getByText(/was added/)).toBeVisible()
    await expect(bar.getByRole('button', { name: 'Undo it' })).toHaveCount(0)
    await bar.getByRole('button', { name: 'Close' }).click()
    await page.getByRole('button', { name: 'Number them anew' }).click()
    await expect(page.getByText(/numbered anew, /)).toBeVisible()
    await expect(
      page.getByRole('button', { name: 'Number them anew' }),
    ).toHaveCount(0)
  })
}

test('by keys alone a mark opens, closes and has the focus again', async ({
  page,
  request,
}) => {
  const job = await paintedJob(request)
  await page.goto(`/jobs/${job}/timeline`)
  const mark = page.getByRole('link', { name: /^Paint, coat/ }).first()
  const several = page.getByRole('button', { name: /^\d+ steps$/ }).first()
  await expect(mark.or(several).first()).toBeVisible()
  while (!(await mark.isVisible())) await several.press('Enter')
  await mark.press('Enter')
  const panel = page.getByRole('dialog')
  await expect(panel.getByText('On which surfaces')).toBeVisible()
  await page.keyboard.press('Escape')
  await expect(panel).toBeHidden()
  await expect(mark).toBeFocused()
})

test('a step that was forgotten is put at an empty place of the drawing', async ({
  page,
  request,
}) => {
  await page.setViewportSize({ width: 390, height: 844 })
  const job = await paintedJob(request)
  await page.goto(`/jobs/${job}/timeline`)
  const lane = page.getByRole('group', { name: 'chair legs, drawn' })
  await lane.click({ position: { x: 160, y: 60 } })
  const here = lane.getByRole('link', { name: /^Add a step, Sat 24 Oct/ })
  const [, time = ''] = /(\d\d:\d[05])$/.exec(await here.innerText()) ?? []
  expect(time).not.toBe('')
  await expect(here).toBeInViewport({ ratio: 1 })
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([])
  await here.click()
  await expect(page.getByLabel('legs', { exact: true })).toBeChecked()
  await page.getByText('Scuff', { exact: true }).click()
  await page.getByRole('button', { name: 'Go on to its photos' }).click()
  // A page that is left at once takes its form with it.
  await page.waitForURL(/\/steps\/(?!new)/)
  await page.goto(`/jobs/${job}/timeline`)
  await expect(lane.getByRole('link', { name: 'Scuff' })).toBeVisible()
  await expect(
    page.getByRole('region', { name: 'chair legs', exact: true }),
  ).toContainText(time)
})
