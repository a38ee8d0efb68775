/** The start of a chapter is put right over what was said: with a finger on a phone, a mouse at a desk, and the keyboard. */
import type { APIRequestContext, Locator, Page } from '@playwright/test'
import { expect, test } from '../support/alive-pages'

test.use({
  viewport: { width: 390, height: 844 },
  hasTouch: true,
  isMobile: true,
})

const said = [
  'Hello, this is an old pine box that I was given.',
  'First of all I wash it down with sugar soap.',
  'The water goes brown in no time.',
  'I rinse it and leave it overnight.',
  'Next up is the primer, one thin coat of it.',
  'It keeps the knots from coming through.',
  'That dries in an hour or so.',
  'And now the first coat of paint, the green one.',
  'I brush it along the grain.',
  'It looks patchy, and that is as it should be.',
  'So that is it, thanks for watching.',
]
/** Each line of it begins so many seconds after the one before. */
const every = 8

const captions = [
  'WEBVTT',
  ...said.map(
    (text, index) =>
      `${timeOf(index * every)} --> ${timeOf((index + 1) * every - 1)}\n${text}`,
  ),
].join('\n\n')

function timeOf(seconds: number): string {
  return `00:0${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}.000`
}

/** A job whose captions tell of its three steps. */
async function addTold(request: APIRequestContext): Promise<string> {
  const answerOf = async (response: ReturnType<APIRequestContext['post']>) => {
    const answer = await response
    expect(answer.ok(), await answer.text()).toBe(true)
    return (await answer.json()) as Record<string, unknown>
  }
  const job = await answerOf(
    request.post('/api/jobs', {
      data: {
        title: 'Pine box',
        pieces: [{ name: 'box', kind: 'box', surfaces: ['body'] }],
      },
    }),
  )
  const id = String(job['id'])
  const pieces = job['pieces'] as readonly {
    readonly surfaces: readonly { readonly id: string }[]
  }[]
  for (const [index, kind] of ['clean', 'prime', 'coat'].entries()) {
    const start = Date.UTC(2026, 2, 1 + index, 9)
    await answerOf(
      request.post(`/api/jobs/${id}/steps`, {
        data: {
          kind,
          surfaces: [pieces[0]?.surfaces[0]?.id],
          startedAt: new Date(start).toISOString(),
          finishedAt: new Date(start + 600_000).toISOString(),
        },
      }),
    )
  }
  await answerOf(
    request.post(`/api/jobs/${id}/captions`, {
      multipart: {
        file: {
          name: 'box.vtt',
          mimeType: 'text/vtt',
          buffer: Buffer.from(captions),
        },
      },
    }),
  )
  return id
}

/** The chapters of a job that was told on film. */
async function openTold(page: Page, request: APIRequestContext): Promise<void> {
  const job = await addTold(request)
  await page.goto(`/jobs/${job}/write-ups/chapters`)
}

const startOf = (page: Page, title: string) =>
  page.getByRole('slider', { name: `Start of the chapter “${title}”` })

/** Where the handle of a slider is to be seen, CSS pixels, once it has been brought into view. */
async function handleOf(slider: Locator): Promise<{
  readonly from: number
  readonly y: number
  readonly box: { readonly x: number; readonly width: number }
}> {
  // Clear of the bar at the foot of the screen.
  await slider.evaluate((input) => {
    input.scrollIntoView({ block: 'center' })
  })
  const box = await slider.boundingBox()
  if (box === null) throw new Error('the slider is not to be seen')
  const { at, most } = await slider.evaluate((input) => ({
    at: Number((input as HTMLInputElement).value),
    most: Number((input as HTMLInputElement).max),
  }))
  // The handle is 48 px wide, so its middle stays 24 px within either end.
  const from = box.x + 24 + ((box.width - 48) * at) / most
  return { from, y: box.y + box.height / 2, box }
}

/** A finger is put on the handle of a slider and drawn along by a share of its width. */
async function drag(page: Page, slider: Locator, share: number): Promise<void> {
  const { from, y, box } = await handleOf(slider)
  const session = await page.context().newCDPSession(page)
  const touch = (
    type: 'touchStart' | 'touchMove' | 'touchEnd',
    x: number,
  ): Promise<unknown> =>
    session.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: type === 'touchEnd' ? [] : [{ x, y }],
    })
  await touch('touchStart', from)
  for (const part of [0.25, 0.5, 0.75, 1]) {
    await touch('touchMove', from + box.width * share * part)
  }
  await touch('touchEnd', 0)
}

test('a finger drags a start over the captions, and it is kept', async ({
  page,
  request,
}) => {
  await openTold(page, request)
  const primer = startOf(page, 'Primer')
  await expect(primer).toHaveAttribute('aria-valuetext', /^0:32, Next up/)
  await drag(page, primer, 0.5)
  await expect(primer).not.toHaveAttribute('aria-valuetext', /^0:32/)
  const later = (await primer.getAttribute('aria-valuetext')) ?? ''
  const [time = '', words = ''] = later.split(/, (.*)/)
  expect(Number(time.slice(2))).toBeGreaterThan(32)
  await expect(page.getByText(`“${words}”`)).toBeVisible()
  // The page stays where it is under a finger that goes sideways.
  expect(await page.evaluate(() => window.scrollX)).toBe(0)
  await page.getByRole('button', { name: 'Save the chapters' }).tap()
  // To load the page anew before its answer is there would break the saving off.
  await expect(page.getByText('As you set them.')).toBeVisible()
  await page.reload()
  await expect(startOf(page, 'Primer')).toHaveAttribute('aria-valuetext', later)
})

test.describe('at a desk', () => {
  test.use({
    viewport: { width: 1280, height: 900 },
    hasTouch: false,
    isMobile: false,
  })

  test('a mouse draws a start along by its handle, and it is kept', async ({
    page,
    request,
  }) => {
    await openTold(page, request)
    const primer = startOf(page, 'Primer')
    await expect(primer).toHaveAttribute('aria-valuetext', /^0:32, Next up/)
    const { from, box, y } = await handleOf(primer)
    await page.mouse.move(from, y)
    await page.mouse.down()
    await page.mouse.move(box.x + 4, y, { steps: 6 })
    await expect(primer).toHaveAttribute('aria-valuetext', /^0:16, The water/)
    await page.mouse.up()
    await expect(page.getByText('Moved from 0:32')).toBeVisible()
    await page.getByRole('button', { name: 'Save the chapters' }).click()
    await expect(page.getByText('As you set them.')).toBeVisible()
    await page.reload()
    await expect(startOf(page, 'Primer')).toHaveAttribute(
      'aria-valuetext',
      /^0:16, The water/,
    )
  })
})

test('a start between neighbours that leave it no other caption is said to be fixed, not shown as a handle', async ({
  page,
  request,
}) => {
  await openTold(page, request)
  await expect(startOf(page, 'First coat')).toBeVisible()
  await page.getByText('Type the chapters').tap()
  await page
    .getByLabel('A line each: time, then title')
    .fill('0:00 Hello\n0:20 Washing\n0:32 Waiting\n0:45 Primer')
  await page.getByRole('button', { name: 'Use these chapters' }).tap()
  await expect(page.getByText('As you set them.')).toBeVisible()
  await expect(startOf(page, 'Primer')).toBeVisible()
  // At 0:32, the caption of 0:24 is less than ten seconds from 0:20, and that of 0:40 from 0:45.
  await expect(startOf(page, 'Waiting')).toHaveCount(0)
  await expect(page.getByText('It stays here')).toHaveCount(1)
  // Between 0:00 and 0:32 only the caption at 0:16 is far enough from both.
  await expect(startOf(page, 'Washing')).toHaveCount(0)
  await page.getByRole('button', { name: /Begin “Washing” .* earlier/ }).tap()
  await expect(page.getByText('Moved from 0:20')).toBeVisible()
})

test('arrow keys go from caption to caption and stop a chapter short of the next', async ({
  page,
  request,
}) => {
  await openTold(page, request)
  const primer = startOf(page, 'Primer')
  await primer.focus()
  await page.keyboard.press('ArrowRight')
  await expect(primer).toHaveAttribute('aria-valuetext', /^0:40, It keeps/)
  await page.keyboard.press('ArrowLeft')
  await page.keyboard.press('ArrowLeft')
  await expect(primer).toHaveAttribute('aria-valuetext', /^0:24, I rinse/)
  // The next begins at 0:56: of the captions, 0:40 is the last that leaves it ten seconds.
  await page.keyboard.press('End')
  await expect(primer).toHaveAttribute('aria-valuetext', /^0:40/)
  await expect(primer).toBeFocused()
  await expect(
    page.getByRole('button', { name: /Begin “Primer” .* later/ }),
  ).toBeDisabled()
  await page.getByRole('button', { name: /Begin “Primer” .* earlier/ }).tap()
  await expect(primer).toHaveAttribute('aria-valuetext', /^0:32, Next up/)
})
