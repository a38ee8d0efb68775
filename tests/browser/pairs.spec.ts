import AxeBuilder from '@axe-core/playwright'
import type { APIRequestContext, Locator, Page } from '@playwright/test'
import { expect, test } from '../support/alive-pages'
import { demoPicture } from '../support/demo-picture'

/** A job with the demo's front before and after; aligning them takes some seconds. */
async function frontJob(
  request: APIRequestContext,
  view = 'front',
): Promise<string> {
  const answer = await request.post('/api/jobs', {
    data: {
      title: 'Sideboard',
      pieces: [{ name: 'sideboard', kind: 'sideboard', surfaces: ['body'] }],
    },
  })
  const { id } = (await answer.json()) as { readonly id: string }
  const photos: string[] = []
  for (const [role, file] of [
    ['before', '01-before-front.jpg'],
    ['after', '30-after-front.jpg'],
  ] as const) {
    const sent = await request.post(`/api/jobs/${id}/photos`, {
      multipart: {
        role,
        view,
        file: demoPicture(file),
      },
    })
    const kept = (await sent.json()) as {
      readonly photos: readonly { readonly id: string }[]
    }
    photos.push(kept.photos[0]?.id ?? '')
  }
  const [before, after] = photos
  await request.post(`/api/jobs/${id}/pairs`, { data: { before, after } })
  return id
}

test('a pair is aligned by hand with keys and the mouse, and by the pictures again', async ({
  page,
  request,
}) => {
  const job = await frontJob(request)
  await page.goto(`/jobs/${job}/sheets`)
  await expect(page.getByText(/^Aligned by the pictures/)).toBeVisible()
  await page.getByRole('link', { name: /^Align by hand.*front/ }).click()
  const point = page.getByRole('button', { name: /^After, point 2:/ })
  const first = (await point.getAttribute('aria-label')) ?? ''
  const undo = page.getByRole('button', { name: 'Undo' })
  await expect(undo).toBeDisabled()
  await point.focus()
  await page.keyboard.press('Shift+ArrowLeft')
  await expect(point).not.toHaveAccessibleName(first)
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([])
  await undo.click()
  await expect(point).toHaveAccessibleName(first)
  // A tap on the photo takes the point that was chosen last to it.
  const photo = page.getByRole('application', { name: /^After photo/ })
  const box = await photo.boundingBox()
  if (box === null) throw new Error('expected a photo')
  await photo.click({ position: { x: box.width * 0.75, y: box.height * 0.2 } })
  await expect(point).toHaveAccessibleName(/75\.\d % from the left, 20\.\d %/)
  // Dragged onto the next point, it stands with it in one line: nothing to keep.
  const other = page.getByRole('button', { name: /^After, point 3:/ })
  await point.dragTo(other, { targetPosition: { x: 24, y: 24 } })
  await expect(page.getByText(/nearly in one line/)).toBeVisible()
  await expect(
    page.getByRole('button', { name: 'Keep this alignment' }),
  ).toBeDisabled()
  await undo.click()
  await page.getByRole('button', { name: 'Keep this alignment' }).click()
  await expect(page.getByText('Aligned by hand.')).toBeVisible()
  await page.getByRole('link', { name: /^Align by hand.*front/ }).click()
  await expect(point).toHaveAccessibleName(/75\.\d % from the left, 20\.\d %/)
  await page
    .getByRole('button', { name: 'Back to what the pictures say' })
    .click()
  await expect(point).toHaveAccessibleName(first, { timeout: 30_000 })
})

test('both pictures of a pair are enlarged together, by buttons, keys and the wheel', async ({
  page,
  request,
}) => {
  const { pair, pictures, transforms, scaleOf } = await openWipe(page, request)
  const farther = pair.getByRole('button', { name: /^Farther/ })
  await expect(farther).toBeDisabled()
  await pair.getByRole('button', { name: /^Closer/ }).click()
  expect(await scaleOf()).toBeCloseTo(1.5)
  await expect(pair.getByText('Both 1.5 times as large')).toBeVisible()
  const slider = pair.getByRole('slider')
  await slider.focus()
  await page.keyboard.press('+')
  expect(await scaleOf()).toBeCloseTo(2.25)
  const still = await transforms()
  await page.keyboard.press('Shift+ArrowRight')
  expect(await transforms()).not.toEqual(still)
  await page.keyboard.press('ArrowRight')
  await expect(slider).toHaveValue('51')
  await page.keyboard.press('0')
  expect(await scaleOf()).toBe(1)
  // A finger or the mouse draws the line while the whole is seen.
  const box = await pictures.first().boundingBox()
  if (box === null) throw new Error('expected a picture')
  await page.mouse.move(box.x + box.width * 0.5, box.y + 40)
  await page.mouse.down()
  await page.mouse.move(box.x + box.width * 0.25, box.y + 40, { steps: 3 })
  await page.mouse.up()
  await expect(slider).toHaveValue('25')
  await page.mouse.wheel(0, -240)
  await expect.poll(scaleOf).toBeCloseTo(1.5)
  // Enlarged, away from the line, it moves the pictures, and the line stays.
  const before = await transforms()
  await page.mouse.move(box.x + box.width * 0.7, box.y + box.height * 0.5)
  await page.mouse.down()
  await page.mouse.move(box.x + box.width * 0.6, box.y + box.height * 0.4)
  await page.mouse.up()
  expect(await transforms()).not.toEqual(before)
  await expect(slider).toHaveValue('25')
  await pair.getByRole('button', { name: /^Whole picture/ }).click()
  expect(await scaleOf()).toBe(1)
})

test('a pair that nobody named can be named where it stands, and its light matched and left again', async ({
  page,
  request,
}) => {
  const job = await frontJob(request, '')
  await page.goto(`/jobs/${job}/sheets`)
  await expect(page.getByRole('heading', { name: 'Sideboard' })).toHaveCount(2)
  await page.getByLabel('Name the view of sideboard').fill('left side')
  await page.getByRole('button', { name: /^Save the name/ }).click()
  const pair = page.getByRole('group', { name: 'Before and after: left side' })
  await expect(pair).toBeVisible()
  const after = pair.getByRole('img', { name: /^After/ })
  const match = pair.getByLabel(/^Match the light to the before/)
  await expect(match).not.toBeChecked()
  await match.check()
  await expect(after).toHaveAttribute('src', /light=matched/)
  await expect(pair.getByText(/^The after is shown \d+ % darker/)).toBeVisible()
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([])
  await match.uncheck()
  await expect(after).not.toHaveAttribute('src', /light=matched/)
  // On the sheet, too, it is as taken until the owner asks.
  const sheet = page.getByRole('group', { name: 'Light of the after' })
  await expect(sheet.getByLabel('As taken')).toBeChecked()
  await sheet.getByLabel('Matched to the before').check()
  await expect(sheet.getByText(/^The after is shown/)).toBeVisible()
  await expect(
    page.getByRole('link', { name: 'Download the square sheet' }),
  ).toHaveAttribute('href', /light=matched/)
  await sheet.getByLabel('As taken').check()
})

test.describe('on a phone', () => {
  test.use({
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
  })

  test('two fingers enlarge both pictures, one draws the line, and the page scrolls under one that goes down', async ({
    page,
    request,
  }) => {
    const { pair, transforms, scaleOf } = await openWipe(page, request)
    const slider = pair.getByRole('slider')
    await expect(slider).toHaveValue('50')
    const { at, touch } = await fingersOn(page, pair)
    const scrolled = () => page.evaluate(() => Math.round(window.scrollY))
    const stood = await scrolled()

    // One finger, along the line: it draws it, and the page stays.
    await touch('touchStart', [at(0.5, 0.5)])
    for (const x of [0.45, 0.38, 0.3]) await touch('touchMove', [at(x, 0.5)])
    await touch('touchEnd', [])
    await expect(slider).toHaveValue('30')
    expect(await scrolled()).toBe(stood)
    expect(await scaleOf()).toBe(1)

    // Two that part to twice as far enlarge both twice; the line stays, and so do the page and its own zoom.
    await touch('touchStart', [at(0.4, 0.5)])
    await touch('touchStart', [at(0.4, 0.5), at(0.6, 0.5)])
    for (const apart of [0.13, 0.16, 0.2]) {
      await touch('touchMove', [at(0.5 - apart, 0.5), at(0.5 + apart, 0.5)])
    }
    await touch('touchEnd', [])
    await expect.poll(scaleOf).toBeCloseTo(2, 1)
    await expect(pair.getByText('Both 2.0 times as large')).toBeVisible()
    await expect(slider).toHaveValue('30')
    expect(await scrolled()).toBe(stood)
    expect(await page.evaluate(() => window.visualViewport?.scale)).toBe(1)

    // Enlarged, one finger away from the line moves the pictures; at the line it still draws it.
    const before = await transforms()
    await touch('touchStart', [at(0.7, 0.5)])
    for (const y of [0.45, 0.35, 0.25]) await touch('touchMove', [at(0.6, y)])
    await touch('touchEnd', [])
    await expect.poll(transforms).not.toEqual(before)
    await expect(slider).toHaveValue('30')
    await touch('touchStart', [at(0.3, 0.5)])
    for (const x of [0.4, 0.5, 0.6]) await touch('touchMove', [at(x, 0.5)])
    await touch('touchEnd', [])
    await expect(slider).toHaveValue('60')
    expect(await scaleOf()).toBeCloseTo(2, 1)

    // Two that close bring the whole back, and then one that goes up scrolls the page and leaves the line.
    await touch('touchStart', [at(0.25, 0.5)])
    await touch('touchStart', [at(0.25, 0.5), at(0.75, 0.5)])
    for (const apart of [0.2, 0.15, 0.1]) {
      await touch('touchMove', [at(0.5 - apart, 0.5), at(0.5 + apart, 0.5)])
    }
    await touch('touchEnd', [])
    await expect.poll(scaleOf).toBe(1)
    await touch('touchStart', [at(0.8, 0.9)])
    for (const y of [0.8, 0.6, 0.3, 0]) await touch('touchMove', [at(0.8, y)])
    await touch('touchEnd', [])
    await expect.poll(scrolled).toBeGreaterThan(stood + 40)
    await expect(slider).toHaveValue('60')
  })
})

test('the owner’s own words for a photo are those of the picture that is wiped', async ({
  page,
  request,
}) => {
  const job = await frontJob(request)
  await page.goto(`/jobs/${job}/write-ups/photos`)
  const own = 'The sideboard as it came out of the barn, orange and scratched.'
  const line = page.getByRole('listitem').filter({
    has: page.getByRole('img', { name: /before the work/ }),
  })
  await line.getByLabel('Your words').fill(own)
  await line.getByRole('button', { name: 'Keep these words' }).click()
  await expect(page.getByText('In your words.')).toBeVisible()
  await page.goto(`/jobs/${job}/sheets`)
  const pair = page.getByRole('group', { name: 'Before and after: front' })
  await expect(
    pair.getByRole('img', { name: `Before: ${own}`, exact: true }),
  ).toBeVisible()
  // Of the other nothing was written, so the journal tells it.
  await expect(
    pair.getByRole('img', { name: /^After: / }),
  ).not.toHaveAccessibleName(/barn/)
})

/** The wipe of a job with one pair, and how large its two pictures are. */
async function openWipe(page: Page, request: APIRequestContext) {
  const job = await frontJob(request)
  await page.goto(`/jobs/${job}/sheets`)
  const pair = page.getByRole('group', { name: 'Before and after: front' })
  const pictures = pair.getByRole('img')
  const transforms = () =>
    pictures.evaluateAll((all) => all.map((one) => one.style.transform))
  return {
    pair,
    pictures,
    transforms,
    /** How many times as large as the whole; the same of both. */
    scaleOf: async () => {
      const [one, other] = await transforms()
      expect(one).toBe(other)
      return Number(/scale\(([\d.]+)\)/.exec(one ?? '')?.[1])
    },
  }
}

type Finger = { readonly x: number; readonly y: number }

/** Fingers that the browser takes for real ones, on a wipe in the middle of the screen. */
async function fingersOn(
  page: Page,
  pair: Locator,
): Promise<{
  /** A place on the pictures, as shares of their width and height. */
  readonly at: (x: number, y: number) => Finger
  /** What is on the screen from now on; the same finger has the same place in the list. */
  readonly touch: (
    type: 'touchStart' | 'touchMove' | 'touchEnd',
    fingers: readonly Finger[],
  ) => Promise<unknown>
}> {
  await pair.evaluate((element) => {
    element.scrollIntoView({ block: 'center' })
  })
  const picture = pair.getByRole('img').first()
  await expect
    .poll(() =>
      picture.evaluate((image) => (image as HTMLImageElement).naturalWidth),
    )
    .toBeGreaterThan(0)
  const box = await picture.boundingBox()
  if (box === null) throw new Error('expected a picture')
  const session = await page.context().newCDPSession(page)
  return {
    at: (x, y) => ({ x: box.x + box.width * x, y: box.y + box.height * y }),
    touch: (type, fingers) =>
      session.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: fingers.map((finger, id) => ({ ...finger, id })),
      }),
  }
}
