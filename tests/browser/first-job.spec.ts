import { readFile } from 'node:fs/promises'
import type { Page } from '@playwright/test'
import { parse } from 'csv-parse/sync'
import sharp from 'sharp'
import { expect, test } from '../support/alive-pages'
import { demoPicture } from '../support/demo-picture'

// A phone held upright.
test.use({
  viewport: { width: 390, height: 844 },
  hasTouch: true,
  isMobile: true,
  // It would show a kept page where a busy machine takes seconds to answer; what it does is looked at in snap.spec.ts.
  serviceWorkers: 'block',
})

async function choose(page: Page, names: readonly string[]): Promise<void> {
  for (const name of names) await page.getByRole('button', { name }).tap()
  await page.getByRole('button', { name: 'Say what they show' }).tap()
}

async function addProduct(
  page: Page,
  product: {
    readonly name: string
    readonly category: string
    readonly chemistry: string
    readonly recoatMinutes: string
    readonly cureDays: string
  },
): Promise<void> {
  await page.goto('/shelf/new')
  await page.getByLabel('Name').fill(product.name)
  await page.getByLabel('What it is for').selectOption(product.category)
  await page.getByLabel('How it dries').selectOption(product.chemistry)
  await page
    .getByLabel('Recoat no sooner than', { exact: true })
    .fill(product.recoatMinutes)
  await page.getByLabel('Unit of recoat no sooner than').selectOption('min')
  await page.getByLabel('Full cure after').fill(product.cureDays)
  await page.getByRole('button', { name: 'Put it on the shelf' }).tap()
  await expect(
    page.getByRole('main').getByRole('link', { name: product.name }),
  ).toBeVisible()
}

test('a job goes from an empty journal to its sheet, materials list, listing and video description', async ({
  page,
  request,
}) => {
  // The whole way at once: on a busy machine it takes the better part of a minute.
  await test.step('a job with two pieces', async () => {
    await page.goto('/')
    await expect(page.getByText('An empty bench')).toBeVisible()
    await page.getByRole('link', { name: 'Start the first job' }).tap()
    await page.getByRole('button', { name: 'Start the job' }).tap()
    await expect(page.getByRole('main').getByRole('alert')).toContainText(
      'Give the job a title.',
    )
    await page.getByLabel('Title').fill('Sideboard and bench')
    const first = page.getByRole('region', { name: 'Piece 1' })
    await first.getByLabel('What is it?').fill('sideboard')
    await first.getByText('top', { exact: true }).tap()
    await page.getByRole('button', { name: 'Add another piece' }).tap()
    const second = page.getByRole('region', { name: 'Piece 2' })
    await second.getByLabel('What is it?').fill('bench')
    await page.getByRole('button', { name: 'Start the job' }).tap()
    await expect(
      page.getByRole('heading', { level: 1, name: 'Sideboard and bench' }),
    ).toBeVisible()
    await expect(page.getByText('No photos yet')).toBeVisible()
  })
  const job = /jobs\/([^/]+)\//.exec(page.url())?.[1] ?? ''

  await test.step('photos arrive together, a broken line is mended, a file that is no picture is named', async () => {
    let broken = false
    await page.route('**/api/jobs/*/photos', async (route) => {
      const body = route.request().postDataBuffer()?.toString('latin1') ?? ''
      if (!broken && body.includes('16-paint-2-bench.jpg')) {
        broken = true
        await route.abort('connectionreset')
      } else await route.continue()
    })
    await page.getByLabel('Choose photos').setInputFiles([
      ...[
        '16-paint-2-bench.jpg',
        '01-before-front.jpg',
        '11-primer-1-both.jpg',
        '15-paint-1-bench.jpg',
        '30-after-front.jpg',
        '26-stain-even.jpg',
        '27-clear-1.jpg',
      ].map(demoPicture),
      {
        name: 'notes.jpg',
        mimeType: 'image/jpeg',
        buffer: Buffer.from('These are notes, not a picture.'),
      },
    ])
    const list = page.getByRole('region', { name: 'Photos being sent' })
    // The one that broke is tried again by itself, after a pause.
    await expect(list.getByText('Kept', { exact: true })).toHaveCount(7, {
      timeout: 30_000,
    })
    expect(broken).toBe(true)
    await expect(list.getByText('Not taken', { exact: true })).toHaveCount(1)
    await expect(list).toContainText('not a picture')
    await expect(list.getByRole('button', { name: 'Send again' })).toHaveCount(
      0,
    )
    page.once('dialog', (dialog) => {
      expect(dialog.message()).toContain('chosen from this device')
      void dialog.accept()
    })
    await list.getByRole('button', { name: 'Discard' }).tap()
    await expect(list.getByText('Not taken', { exact: true })).toHaveCount(0)
    await expect(page.getByText('7 photos, in order')).toBeVisible()
    // Local times as the phone recorded them, each with its offset.
    const days = page.getByRole('region', { name: /^\d+ \w+ \d{4}$/ })
    await expect(days.getByText(/^\d\d:\d\d$/)).toHaveText([
      '09:02',
      '09:38',
      '10:25',
      '11:03',
      '09:55',
      '19:01',
      '10:30',
    ])
  })

  await test.step('products with what their labels say', async () => {
    await addProduct(page, {
      name: 'waterborne enamel, deep teal',
      category: 'paint',
      chemistry: 'waterborne-acrylic',
      recoatMinutes: '60',
      cureDays: '30',
    })
    await addProduct(page, {
      name: 'oil stain, dark walnut',
      category: 'stain',
      chemistry: 'oil-stain',
      recoatMinutes: '1440',
      cureDays: '3',
    })
    await addProduct(page, {
      name: 'bonding primer, white',
      category: 'primer',
      chemistry: 'waterborne-acrylic',
      recoatMinutes: '60',
      cureDays: '7',
    })
    await addProduct(page, {
      name: 'waterborne clear coat, satin',
      category: 'clear coat',
      chemistry: 'waterborne-acrylic',
      recoatMinutes: '120',
      cureDays: '21',
    })
  })

  const dialog = page.getByRole('dialog')
  async function placeStep(step: {
    readonly photo: string
    readonly kind: string
    readonly piece: string
    readonly surfaces: readonly string[]
    readonly product: string
    readonly proposed: string
  }): Promise<void> {
    await choose(page, [step.photo])
    await dialog.getByText(step.kind, { exact: true }).tap()
    for (const surface of step.surfaces) {
      await dialog
        .getByRole('group', { name: step.piece, exact: true })
        .getByText(surface, { exact: true })
        .tap()
    }
    await dialog.getByLabel('Product').selectOption(step.product)
    await expect(dialog.getByLabel('Coat number')).toHaveAttribute(
      'placeholder',
      step.proposed,
    )
    await dialog.getByRole('button', { name: 'Save the step' }).tap()
    await expect(
      page.getByRole('status').filter({ hasText: 'Step saved.' }),
    ).toBeVisible()
    await expect(dialog).toBeHidden()
  }

  await test.step('what the photos show is said by choosing and tapping', async () => {
    await page.goto(`/jobs/${job}/photos`)
    await expect(
      page.getByRole('button', { name: 'Choose the 7 not placed yet' }),
    ).toBeVisible()
    for (const [time, role] of [
      ['22 Oct 09:02', 'before'],
      ['27 Oct 10:30', 'after'],
    ] as const) {
      await choose(page, [time])
      await dialog.getByText('Before or after').tap()
      await dialog.getByText(role, { exact: true }).tap()
      await dialog.getByLabel('View').fill('front')
      await dialog.getByRole('button', { name: 'Save', exact: true }).tap()
      await expect(dialog).toBeHidden()
    }
    await placeStep({
      photo: '24 Oct 10:25',
      kind: 'Paint',
      piece: 'bench',
      surfaces: ['body'],
      product: 'waterborne enamel, deep teal',
      proposed: '1',
    })
    await placeStep({
      photo: '24 Oct 11:03',
      kind: 'Paint',
      piece: 'bench',
      surfaces: ['body'],
      product: 'waterborne enamel, deep teal',
      proposed: '2',
    })
    await placeStep({
      photo: '25 Oct 09:55',
      kind: 'Stain',
      piece: 'sideboard',
      surfaces: ['top'],
      product: 'oil stain, dark walnut',
      proposed: '1',
    })
    await placeStep({
      photo: '25 Oct 19:01',
      kind: 'Clear coat',
      piece: 'sideboard',
      surfaces: ['top'],
      product: 'waterborne clear coat, satin',
      proposed: '1',
    })
    await choose(page, ['23 Oct 09:38'])
    await dialog.getByText('Prime', { exact: true }).tap()
    await dialog.getByRole('button', { name: 'Save the step' }).tap()
    await expect(dialog.getByRole('alert')).toContainText(
      'Choose at least one surface.',
    )
    for (const piece of ['sideboard', 'bench']) {
      await dialog
        .getByRole('group', { name: piece, exact: true })
        .getByText('body', { exact: true })
        .tap()
    }
    await dialog.getByLabel('Product').selectOption('bonding primer, white')
    await dialog.getByRole('button', { name: 'Save the step' }).tap()
    await expect(dialog).toBeHidden()
  })

  await test.step('a step is started first, and the photo is snapped into it', async () => {
    await page.goto(`/jobs/${job}/timeline`)
    await page.getByRole('link', { name: 'Start a step' }).tap()
    await page.getByText('Scuff', { exact: true }).tap()
    await page
      .getByRole('group', { name: 'sideboard', exact: true })
      .getByText('body', { exact: true })
      .tap()
    await page.getByText('Method, grit, dilution').tap()
    await page.getByLabel('Grit').fill('180')
    await page.getByLabel('It starts now').uncheck()
    await page.getByRole('button', { name: 'Go on to its photos' }).tap()
    await expect(page.getByText('No photos of this step yet')).toBeVisible()
    await page
      .getByLabel('Take a photo')
      .setInputFiles(demoPicture('08-scuffed-front.jpg'))
    await expect(
      page.getByRole('region', { name: 'Photos of this step' }),
    ).toContainText('Thu 22 Oct 11:15')
  })

  await test.step('the timeline shows the recoats made too soon, with their numbers', async () => {
    await page.goto(`/jobs/${job}/timeline`)
    const look = page.getByRole('region', { name: 'Needs a look' })
    await expect(look.getByText('Too soon')).toHaveCount(2)
    await expect(look).toContainText('38 min between coats')
    const benchLane = page.getByRole('region', {
      name: 'bench body',
      exact: true,
    })
    await expect(benchLane).toContainText('Too soon')
    await expect(benchLane).toContainText('38 min')
    await expect(benchLane).toContainText('60 min')
    const top = page.getByRole('region', {
      name: 'sideboard top',
      exact: true,
    })
    await expect(top).toContainText('Too soon')
    await expect(top).toContainText('9 h 6 min')
  })

  await test.step('a rule that was passed over can be answered, and stays answered', async () => {
    const rules = page.getByRole('region', { name: 'Rules of a sound finish' })
    const stain = rules.getByText('Give an oil or gel stain a day')
    await stain.tap()
    await rules.getByRole('button', { name: 'Meant it' }).tap()
    await expect(rules.getByText('1 answered')).toBeVisible()
    await page.reload()
    await rules.getByText('1 answered').tap()
    await stain.tap()
    // In the row that stays in sight, and in what it unfolds.
    await expect(rules.getByText('Answered: meant it.').first()).toBeVisible()
  })

  await test.step('a time that the owner knows better is typed, and the wait follows', async () => {
    await page.goto(`/jobs/${job}/photos`)
    await page.getByRole('link', { name: /Open .*24 Oct 11:03/ }).tap()
    await expect(
      page.getByText('The camera wrote it with its offset.'),
    ).toBeVisible()
    await page
      .getByLabel('You know better? Type the time')
      .fill('2026-10-24T12:03:25')
    await page.getByRole('button', { name: 'Use this time' }).tap()
    await expect(page.getByText('You typed it.')).toBeVisible()
    await page.goto(`/jobs/${job}/timeline`)
    const lane = page.getByRole('region', { name: 'bench body', exact: true })
    await expect(lane).toContainText('1 h 38 min')
    await expect(lane).not.toContainText('Too soon')
    await page.goBack()
    await page
      .getByRole('button', { name: 'Go by the photo’s own time again' })
      .tap()
    await expect(
      page.getByText('The camera wrote it with its offset.'),
    ).toBeVisible()
  })

  await test.step('the bench shows what is wet and what is ready', async () => {
    const shelf: unknown = await (await request.get('/api/products')).json()
    const product = idOf(shelf, 'products', 'waterborne enamel, deep teal')
    const outline: unknown = await (
      await request.get(`/api/jobs/${job}`)
    ).json()
    const surface = surfaceOf(outline, 'sideboard', 'body')
    const coated = new Date(Date.now() - 5 * 60_000).toISOString()
    const added = await request.post(`/api/jobs/${job}/steps`, {
      data: {
        kind: 'coat',
        surfaces: [surface],
        product,
        startedAt: coated,
        finishedAt: coated,
      },
    })
    expect(added.status()).toBe(201)
    await page.goto('/')
    const wet = page.getByRole('region', { name: 'Still wet' })
    await expect(wet).toContainText('sideboard: body')
    await expect(wet).toContainText('in 55 min')
    const ready = page.getByRole('region', { name: 'Ready now' })
    await expect(ready).toContainText('sideboard: top')
    await expect(ready).toContainText('bench: body')
  })

  await test.step('the sheet holds the before and the after picture', async () => {
    await page.goto(`/jobs/${job}/sheets`)
    for (const [shape, name, width, height] of [
      ['1x1', 'Square', 1080, 1080],
      ['16x9', 'Wide', 1920, 1080],
    ] as const) {
      await page.getByRole('radio', { name }).check()
      const download = page.waitForEvent('download')
      await page
        .getByRole('link', { name: `Download the ${name.toLowerCase()} sheet` })
        .tap()
      const file = await (await download).path()
      const sheet = sharp(file)
      const { width: w, height: h, exif, xmp, iptc } = await sheet.metadata()
      expect([w, h]).toEqual([width, height])
      expect([exif, xmp, iptc]).toEqual([undefined, undefined, undefined])
      // The oak before is orange, the enamel after is teal: red leads on one side, blue on the other. On a square they
      // stand one above the other or side by side, as their shape wants it.
      const splits = [
        ['left', 'right'],
        ...(shape === '1x1' ? [['top', 'bottom'] as const] : []),
      ] as const
      const sides = await Promise.all(
        splits.map(async ([first, second]) => {
          const before = await mostSaturated(file, first)
          const after = await mostSaturated(file, second)
          return {
            redBefore: before.red - before.blue,
            blueAfter: after.blue - after.red,
          }
        }),
      )
      expect(
        sides.some(
          ({ redBefore, blueAfter }) => redBefore > 40 && blueAfter > 20,
        ),
        JSON.stringify(sides),
      ).toBe(true)
    }
  })

  await test.step('the materials list is read back as CSV', async () => {
    await page.goto(`/jobs/${job}/materials`)
    const download = page.waitForEvent('download')
    await page.getByRole('link', { name: 'Download as CSV' }).tap()
    const csv = await readFile(await (await download).path(), 'utf8')
    const rows: Record<string, string>[] = parse(csv, { columns: true })
    const text = rows.map((row) => Object.values(row).join(' | '))
    expect(text.filter((row) => row.includes('bonding primer'))).toHaveLength(1)
    expect(
      text.find((row) => row.includes('waterborne enamel, deep teal')),
    ).toContain('body')
  })

  await test.step('the listing says what the journal knows, and asks for the rest', async () => {
    await page.goto(`/jobs/${job}/details`)
    await page.getByLabel('Width').first().fill('150')
    await page.getByLabel('Depth').first().fill('45')
    await page.getByLabel('Height').first().fill('80')
    await page.getByLabel('Material').first().fill('oak veneer')
    await page.getByLabel('Flaws left').first().fill('a small chip at the back')
    await page.getByLabel('Asking price').fill('450')
    await page.getByRole('button', { name: 'Save the details' }).tap()
    await expect(page.getByText('Details saved.')).toBeVisible()
    await page.getByRole('link', { name: 'Write-ups' }).tap()
    const text = page.getByRole('group', { name: 'Sale listing' })
    await expect(text).toContainText('150 x 45 x 80 cm')
    await expect(text).toContainText('59 x 17 3/4 x 31 1/2 in')
    await expect(text).toContainText('oak veneer')
    await expect(text).toContainText('small chip at the back')
    await expect(text).toContainText('450')
    await expect(text).not.toContainText('undefined')
    await page
      .getByText(/It would say more/)
      .first()
      .tap()
    await expect(page.getByText('How tall is the bench?').first()).toBeVisible()
    const video = page.getByRole('group', { name: 'Video description' })
    await expect(video).toContainText('Waterborne enamel, deep teal')
    await page.context().grantPermissions(['clipboard-read', 'clipboard-write'])
    await page.getByRole('button', { name: 'Copy the sale listing' }).tap()
    await expect(page.getByText('Copied.')).toBeVisible()
    const copied = await page.evaluate(() => navigator.clipboard.readText())
    expect(copied).toContain('150 x 45 x 80 cm')
  })
})

/** The mean of the most colourful fifth of a half of a picture: the furniture, not the wall. */
async function mostSaturated(
  file: string,
  half: 'left' | 'right' | 'top' | 'bottom',
): Promise<{ red: number; green: number; blue: number }> {
  const { width, height } = await sharp(file).metadata()
  const across = half === 'left' || half === 'right'
  const region = {
    left: half === 'right' ? Math.floor(width / 2) : 0,
    top: half === 'bottom' ? Math.floor(height / 2) : 0,
    width: across ? Math.floor(width / 2) : width,
    height: across ? height : Math.floor(height / 2),
  }
  const { data, info } = await sharp(file)
    .extract(region)
    .resize(120)
    .raw()
    .toBuffer({ resolveWithObject: true })
  const pixels: { red: number; green: number; blue: number }[] = []
  for (let index = 0; index < data.length; index += info.channels) {
    pixels.push({
      red: data[index] ?? 0,
      green: data[index + 1] ?? 0,
      blue: data[index + 2] ?? 0,
    })
  }
  const chroma = (pixel: { red: number; green: number; blue: number }) =>
    Math.max(pixel.red, pixel.green, pixel.blue) -
    Math.min(pixel.red, pixel.green, pixel.blue)
  const vivid = pixels
    .sort((one, other) => chroma(other) - chroma(one))
    .slice(0, Math.ceil(pixels.length / 20))
  const mean = (channel: 'red' | 'green' | 'blue') =>
    vivid.reduce((sum, pixel) => sum + pixel[channel], 0) / vivid.length
  return { red: mean('red'), green: mean('green'), blue: mean('blue') }
}

function idOf(answer: unknown, list: string, name: string): string {
  const found = itemsOf(answer, list).find((item) => item['name'] === name)
  return String(found?.['id'])
}

function surfaceOf(job: unknown, piece: string, surface: string): string {
  const found = itemsOf(job, 'pieces').find((item) => item['name'] === piece)
  return idOf(found, 'surfaces', surface)
}

function itemsOf(answer: unknown, list: string): Record<string, unknown>[] {
  const items: unknown =
    typeof answer === 'object' && answer !== null
      ? Reflect.get(answer, list)
      : undefined
  return Array.isArray(items) ? (items as Record<string, unknown>[]) : []
}
