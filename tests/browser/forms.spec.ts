import AxeBuilder from '@axe-core/playwright'
import { expect, test } from '../support/alive-pages'
import { demoPicture } from '../support/demo-picture'
import { enlargeText, twice } from '../support/enlarge-text'
import { holdBack } from '../support/hold-back'
import { requestCoat, requestJob } from '../support/request-job'

// A phone held upright.
test.use({
  viewport: { width: 390, height: 844 },
  hasTouch: true,
  isMobile: true,
})

test('going back closes the panel over the photos and keeps what was chosen', async ({
  page,
  request,
}) => {
  const { id } = await requestJob(request, 'Chair', 'chair', ['body'])
  await request.post(`/api/jobs/${id}/photos`, {
    multipart: {
      file: demoPicture('01-before-front.jpg'),
    },
  })
  await page.goto('/jobs')
  await page.goto(`/jobs/${id}/photos`)
  const tile = page.locator('button[aria-pressed]')
  const panel = page.getByRole('dialog')
  await tile.tap()
  await page.getByRole('button', { name: 'Say what they show' }).tap()
  // The first photos of a job are its before photos.
  await expect(
    panel.getByRole('radio', { name: 'Before or after' }),
  ).toBeChecked()
  await expect(
    panel.getByRole('radio', { name: 'before', exact: true }),
  ).toBeChecked()
  await page.goBack()
  await expect(panel).toBeHidden()
  await expect(page).toHaveURL(`/jobs/${id}/photos`)
  await expect(tile).toHaveAttribute('aria-pressed', 'true')

  await page.getByRole('button', { name: 'Say what they show' }).tap()
  await panel.getByRole('button', { name: 'Save', exact: true }).tap()
  await expect(panel).toBeHidden()
  await expect(page.getByText('Photos placed.')).toBeVisible()
  // Closing left no step of its own to go back over.
  await page.goBack()
  await expect(page).toHaveURL('/jobs')
})

test('a new job that was left half typed is there again on coming back', async ({
  page,
}) => {
  await page.goto('/jobs')
  await page.goto('/jobs/new')
  await page.getByLabel('Title').fill('Two stools')
  await page.getByRole('button', { name: 'Add another piece' }).tap()
  const second = page.getByRole('region', { name: 'Piece 2' })
  await second.getByLabel('What is it?').fill('stool')
  await second.getByText('legs', { exact: true }).tap()
  await page.goBack()
  await expect(page).toHaveURL('/jobs')
  await page.goForward()
  await expect(page.getByLabel('Title')).toHaveValue('Two stools')
  await expect(second.getByLabel('What is it?')).toHaveValue('stool')
  await expect(second.getByRole('checkbox', { name: 'legs' })).toBeChecked()
})

test('what is tapped before the page has come alive is done once it has, and once', async ({
  browser,
}) => {
  // Files that a service worker keeps are never late.
  const context = await browser.newContext({ serviceWorkers: 'block' })
  const page = await context.newPage()
  // Whichever of the scripts is late, by what it is when all others are there.
  const scripts = new Set<string>()
  page.on('request', (request) => {
    const { pathname } = new URL(request.url())
    if (/^\/_next\/static\/.*\.js$/.test(pathname)) scripts.add(pathname)
  })
  await page.goto('/jobs/new')
  page.removeAllListeners('request')
  expect(scripts.size).toBeGreaterThan(3)
  for (const late of scripts) {
    const script = await holdBack(page, `**${late}`)
    await page.goto('/jobs/new', { waitUntil: 'commit' })
    await expect(() => {
      expect(script.isAsked()).toBe(true)
    }).toPass()
    const another = page.getByRole('button', { name: 'Add another piece' })
    // Nothing happens, so it is tapped again.
    await another.tap()
    await another.tap()
    script.letGo()
    await expect(page.getByRole('region', { name: 'Piece 2' })).toBeVisible()
    await another.tap()
    await expect(page.getByRole('region', { name: 'Piece 3' })).toBeVisible()
    await expect(page.getByRole('region', { name: 'Piece 4' })).toBeHidden()
    await page.unroute(`**${late}`)
    await page.evaluate(() => {
      sessionStorage.clear()
    })
  }
  await context.close()
})

test('what is typed into a new job before its page has come alive stays', async ({
  page,
}) => {
  const scripts = await holdBack(page, '**/_next/static/**/*.js')
  await page.goto('/jobs/new', { waitUntil: 'commit' })
  await page.getByLabel('Title').fill('Two stools')
  await page.getByText('legs', { exact: true }).tap()
  scripts.letGo()
  await expect(async () => {
    await page.getByRole('button', { name: 'Add another piece' }).tap()
    await expect(page.getByRole('region', { name: 'Piece 2' })).toBeVisible()
  }).toPass()
  await expect(page.getByLabel('Title')).toHaveValue('Two stools')
  await expect(
    page
      .getByRole('region', { name: 'Piece 1' })
      .getByRole('checkbox', { name: 'legs' }),
  ).toBeChecked()
})

test('a product is asked how it dries only where it dries, and a refusal names its field', async ({
  page,
}) => {
  await page.goto('/shelf/new')
  const drying = page.getByLabel('How it dries')
  await expect(drying).toHaveValue('')
  await page.getByLabel('Name').fill('gel stripper')
  await page.getByLabel('Recoat no sooner than', { exact: true }).fill('soon')
  await page.getByRole('button', { name: 'Put it on the shelf' }).tap()
  const summary = page.getByRole('main').getByRole('alert')
  await expect(summary).toContainText('How it dries: Choose how it dries')
  await expect(summary).toContainText('Recoat no sooner than: ')
  const number = await page
    .getByLabel('Recoat no sooner than', { exact: true })
    .boundingBox()
  const unit = await page
    .getByLabel('Unit of recoat no sooner than')
    .boundingBox()
  expect(unit?.y).toBe(number?.y)

  // A roll of paper has no label times; what was typed for a paint is there again when it is one after all.
  const recoat = page.getByLabel('Recoat no sooner than', { exact: true })
  await page.getByLabel('What it is for').selectOption('paper')
  await expect(recoat).toBeHidden()
  await expect(page.getByLabel('Unit of the pack')).toHaveValue('roll')
  await page.getByLabel('What it is for').selectOption('stripper')
  // What is rinsed off again is not coated a second time: its label tells when the wood may be coated.
  await expect(recoat).toHaveCount(0)
  const coat = page.getByLabel('Coat no sooner than', { exact: true })
  await expect(coat).toHaveValue('soon')
  await expect(coat).toHaveAccessibleDescription(/rinsed off/)
  await expect(page.getByLabel('Full cure after')).toBeHidden()
  await expect(drying).toHaveCount(0)
  await coat.fill('')
  await page.getByRole('button', { name: 'Put it on the shelf' }).tap()
  await expect(page).toHaveURL('/shelf')
})

test('a draft of a page that is not saved is not published', async ({
  page,
  request,
}) => {
  const { id } = await requestJob(request, 'Hall chair', 'chair', ['body'])
  await page.goto(`/jobs/${id}/portfolio`)
  await page.getByRole('link', { name: 'Choose what to show' }).click()
  const publish = page.getByRole('button', { name: /^Publish it/ })
  await expect(publish).toBeVisible()
  const story = 'It stood in a hall for years.'
  await page.getByLabel('Story').fill(story)
  await expect(publish).toHaveCount(0)
  await expect(page.getByText('is not saved yet')).toBeVisible()
  await page.getByRole('button', { name: 'Save the draft' }).click()
  await expect(publish).toBeVisible()
  await page.reload()
  await expect(page.getByLabel('Story')).toHaveValue(story)
})

test('a page that takes its time is said to be coming, and nothing moves for it', async ({
  page,
}) => {
  await page.goto('/jobs')
  const coming = page.getByText('The page is coming')
  await page.route('**/shelf**', async (route) => {
    await new Promise((resolve) => setTimeout(resolve, 1500))
    await route.continue()
  })
  const heading = page.getByRole('heading', { level: 1, name: 'Jobs' })
  const before = await heading.boundingBox()
  await page
    .getByRole('navigation', { name: 'Main' })
    .getByRole('link', { name: 'Shelf' })
    .click()
  await expect(coming).toBeVisible()
  expect(await heading.boundingBox()).toEqual(before)
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([])
  await expect(
    page.getByRole('heading', { level: 1, name: 'Shelf' }),
  ).toBeVisible()
  await expect(coming).toBeHidden()
  // One that is there at once needs no words.
  await page.unroute('**/shelf**')
  await page.getByRole('link', { name: 'Jobs', exact: true }).click()
  await expect(heading).toBeVisible()
  await page.waitForTimeout(600)
  await expect(coming).toBeHidden()
})

test('a step that begins now is not told that its times leave out a photo of no step', async ({
  page,
  request,
}) => {
  const { id } = await requestJob(request, 'Stool', 'stool', ['seat'])
  // Taken weeks before the step, as before photos are.
  await request.post(`/api/jobs/${id}/photos`, {
    multipart: { role: 'before', file: demoPicture('01-before-front.jpg') },
  })
  await page.goto(`/jobs/${id}/steps/new`)
  await page.getByText('Strip', { exact: true }).tap()
  await page.getByText('seat', { exact: true }).tap()
  await expect(page.getByText('Before you go on')).toBeVisible()
  await expect(
    page.getByText('Test an old or unknown finish for lead'),
  ).toBeVisible()
  await expect(
    page.getByText('The typed times leave out a photo of this step.'),
  ).toBeHidden()
})

test('an amount that is none is marked at its field, to which the summary leads', async ({
  page,
  request,
}) => {
  const { id } = await requestJob(request, 'Crate', 'crate', ['body'])
  await page.goto(`/jobs/${id}/steps/new`)
  await page.getByText('Paint', { exact: true }).tap()
  await page.getByText('body', { exact: true }).tap()
  await page.getByText('Method, grit, dilution').tap()
  const amount = page.getByLabel('Amount used')
  await amount.fill('0')
  await page.getByRole('button', { name: 'Go on to its photos' }).tap()
  await expect(amount).toHaveAttribute('aria-invalid', 'true')
  const way = page.getByRole('alert').getByRole('link', {
    name: 'Amount used: An amount is more than nothing.',
  })
  expect((await way.boundingBox())?.height).toBeGreaterThanOrEqual(44)
  await way.tap()
  await expect(amount).toBeFocused()
})

test('text twice as large leaves the number of a stepper its room and the table of what pays on the screen', async ({
  page,
  request,
}) => {
  const made = await requestJob(request, 'Chest', 'chest', ['body'])
  const { id } = made
  const hoursAgo = (hours: number) =>
    new Date(Date.now() - hours * 3_600_000).toISOString()
  // Dry by now, so that its next coat is offered with its steppers.
  await requestCoat(
    request,
    made,
    { name: 'waterborne enamel, slate', recoatMinutes: 60 },
    hoursAgo(12),
    hoursAgo(10),
  )
  await request.post(`/api/jobs/${id}/photos`, {
    multipart: {
      role: 'before',
      view: 'left three-quarter',
      file: demoPicture('01-before-front.jpg'),
    },
  })
  await page.goto(`/jobs/${id}/money`)
  await page.getByLabel('Sold for').fill('180')
  await page.getByRole('button', { name: 'Save the sale' }).tap()
  await expect(page.getByText('Sold: what was really earned')).toBeVisible()

  // WCAG 2.2, success criterion 1.4.4: text at 200 % without loss of content or function.
  await enlargeText(page, twice)
  const sideways = () =>
    page.evaluate(
      () =>
        document.documentElement.scrollWidth -
        document.documentElement.clientWidth,
    )
  await page.goto(`/snap?job=${id}`)
  await page.getByRole('radio', { name: /Paint, coat 2: chest body/ }).check()
  const number = page.getByRole('textbox', { name: 'Amount used, in ml' })
  await expect(number).toBeVisible()
  expect(await sideways()).toBe(0)
  const room = await number.evaluate((field) => {
    const style = getComputedStyle(field)
    const inner =
      field.clientWidth -
      parseFloat(style.paddingLeft) -
      parseFloat(style.paddingRight)
    return inner / parseFloat(style.fontSize)
  })
  // Four figures, of half an em each.
  expect(room).toBeGreaterThan(2)

  await page.goto('/jobs/money')
  await expect(page.getByRole('table').first()).toBeVisible()
  expect(await sideways()).toBe(0)
})
