/** The timeline on paper: its photos, its words where a photo is not to be had, and pages that are full. */
import { execFileSync, spawnSync } from 'node:child_process'
import type { APIRequestContext, Page } from '@playwright/test'
import { renditionSizes } from '#core/photos/rendition-sizes'
import { expect, test } from '../support/alive-pages'
import { demoPicture } from '../support/demo-picture'

const pictures = [
  '08-scuffed-front.jpg',
  '10-primer-1-front.jpg',
  '13-primer-2-both.jpg',
  '14-paint-1-front.jpg',
  '15-paint-1-bench.jpg',
  '17-paint-2-front.jpg',
  '21-top-sanded.jpg',
  '28-clear-2.jpg',
]
const kinds = ['scuff', 'prime', 'coat', 'coat', 'coat', 'coat', 'coat', 'coat']

/** A job with eight steps on two surfaces, a photo and a wait by a label to each. */
async function longJob(request: APIRequestContext): Promise<string> {
  const read = async (answer: ReturnType<typeof request.post>) => {
    const given = await answer
    expect(given.status(), await given.text()).toBe(201)
    return given.json() as Promise<{
      readonly id: string
      readonly pieces: readonly {
        readonly surfaces: readonly { readonly id: string }[]
      }[]
    }>
  }
  const product = await read(
    request.post('/api/products', {
      data: {
        name: 'waterborne enamel, moss',
        category: 'paint',
        chemistry: 'waterborne-acrylic',
        label: { recoatMinutes: 60, cureDays: 30 },
      },
    }),
  )
  const job = await read(
    request.post('/api/jobs', {
      data: {
        title: 'Long cupboard',
        pieces: [
          { name: 'cupboard', kind: 'cupboard', surfaces: ['body', 'doors'] },
        ],
      },
    }),
  )
  const surfaces = job.pieces[0]?.surfaces.map(({ id }) => id)
  for (const [index, name] of pictures.entries()) {
    const day = String(index + 1).padStart(2, '0')
    const step = await read(
      request.post(`/api/jobs/${job.id}/steps`, {
        data: {
          kind: kinds[index],
          surfaces,
          ...(kinds[index] !== 'scuff' && { product: product.id }),
          startedAt: `2026-10-${day}T09:00:00Z`,
          finishedAt: `2026-10-${day}T09:30:00Z`,
        },
      }),
    )
    const sent = await request.post(`/api/jobs/${job.id}/photos`, {
      multipart: { step: step.id, file: demoPicture(name) },
    })
    expect(sent.status(), await sent.text()).toBe(201)
  }
  return job.id
}

/** The dialogue of the browser is not opened; that it was asked for is told. */
async function withoutDialogue(page: Page): Promise<void> {
  await page.addInitScript(() => {
    window.print = () => {
      document.documentElement.dataset['printed'] = 'yes'
    }
  })
}

/** Counts, while the page is as it was printed, the pictures that paper shows, and those of them that have not come. */
async function countPictures(page: Page): Promise<void> {
  await page.addInitScript(() => {
    window.addEventListener(
      'afterprint',
      () => {
        const shown = [
          ...document.querySelectorAll<HTMLImageElement>(
            'main img:not([data-missing])',
          ),
        ]
        const blank = shown.filter(
          (image) => !image.complete || image.naturalWidth === 0,
        )
        document.documentElement.dataset['shown'] = String(shown.length)
        document.documentElement.dataset['blank'] = String(blank.length)
      },
      { capture: true },
    )
  })
}

async function picturesOnPaper(
  page: Page,
): Promise<{ readonly shown: number; readonly blank: number }> {
  return page.evaluate(() => {
    const { shown, blank } = document.documentElement.dataset
    return { shown: Number(shown), blank: Number(blank) }
  })
}

/** How many pages a PDF of the browser has, and how many photos are kept in it, each once. */
function countsOf(pdf: Buffer): {
  readonly pages: number
  readonly photos: number
} {
  const text = pdf.toString('latin1')
  return {
    pages: text.match(/\/Type\s*\/Page\b/g)?.length ?? 0,
    // Gradients are kept as pictures too, but not in the size of a small photo.
    photos: [...text.matchAll(/\/Width (\d+)\s*\/Height (\d+)/g)].filter(
      ([, width, height]) =>
        Math.max(Number(width), Number(height)) === renditionSizes.thumb,
    ).length,
  }
}

const withReader =
  spawnSync('pdftotext', ['-v']).status === 0 &&
  spawnSync('pdftoppm', ['-v']).status === 0

/** How far down each page there is ink, as a share of its height. */
function inkOf(pdf: Buffer): number[] {
  const pages = execFileSync('pdftoppm', ['-gray', '-r', '24', '-'], {
    input: pdf,
    maxBuffer: 100_000_000,
  })
  const shares: number[] = []
  for (let from = 0; from < pages.length;) {
    const header = /^P5\n(\d+) (\d+)\n255\n/.exec(
      pages.toString('latin1', from, from + 40),
    )
    if (header === null) throw new Error('expected a grey picture of a page')
    const across = Number(header[1])
    const down = Number(header[2])
    const start = from + header[0].length
    const pixels = pages.subarray(start, start + across * down)
    const last = pixels.findLastIndex((pixel) => pixel < 160)
    shares.push(Math.floor(last / across) / down)
    from = start + across * down
  }
  return shares
}

for (const [width, format, colorScheme] of [
  [390, 'A4', 'dark'],
  [1280, 'Letter', 'light'],
] as const) {
  test(`a timeline is printed from ${width} px on ${format} with every photo, on full pages`, async ({
    page,
    request,
  }) => {
    await page.setViewportSize({ width, height: 844 })
    await page.emulateMedia({ colorScheme })
    await withoutDialogue(page)
    await countPictures(page)
    const job = await longJob(request)
    await page.goto(`/jobs/${job}/timeline`)
    await page.getByRole('button', { name: 'Print the timeline' }).click()
    await expect(page.locator('html[data-printed]')).toHaveCount(1)
    const pdf = await page.pdf({ format })
    // Each step stands in the lane of both surfaces; the drawing has some, too.
    const { shown, blank } = await picturesOnPaper(page)
    expect(shown).toBeGreaterThan(2 * pictures.length)
    expect(blank).toBe(0)
    const { pages, photos } = countsOf(pdf)
    expect(photos).toBe(pictures.length)
    expect(pages).toBeLessThanOrEqual(4)
    if (!withReader) return
    const words = execFileSync('pdftotext', ['-', '-'], {
      input: pdf,
      encoding: 'utf8',
    })
    expect(words.match(/All 8 steps/g)).toHaveLength(2)
    expect(words).not.toMatch(/\d photos?\n/)
    expect(words).not.toMatch(/Print the timeline|Start a step|Closer/)
    const ink = inkOf(pdf)
    expect(ink).toHaveLength(pages)
    // The largest part that is not torn, a step with the wait before it, is less than a fourth of a page.
    for (const share of ink.slice(0, -1)) expect(share).toBeGreaterThan(0.72)
  })
}

test('a timeline that is printed before its photos came says how many there are, and has no empty boxes', async ({
  page,
  request,
}) => {
  await countPictures(page)
  const job = await longJob(request)
  // Photos are asked for, and no answer comes.
  await page.route(/\/api\/photos\/[^/]+\/thumb$/, () => undefined)
  await page.goto(`/jobs/${job}/timeline`)
  // The page has come alive.
  await expect(
    page.getByRole('button', { name: 'Open the photo' }).first(),
  ).toBeVisible()
  // As the browser’s own command prints, without our button.
  const pdf = await page.pdf({ format: 'A4' })
  expect(await picturesOnPaper(page)).toEqual({ shown: 0, blank: 0 })
  expect(countsOf(pdf).photos).toBe(0)
  const lane = page.getByRole('region', { name: 'cupboard body' })
  await page.emulateMedia({ media: 'print' })
  await expect(lane.locator('img[data-missing]')).toHaveCount(8)
  await expect(lane.getByRole('img')).toHaveCount(0)
  await expect(lane.getByText('1 photo', { exact: true })).toHaveCount(8)
  await expect(lane.getByText('1 photo', { exact: true }).first()).toBeVisible()
})
