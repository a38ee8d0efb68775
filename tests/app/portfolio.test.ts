import { readFileSync } from 'node:fs'
import { buffer } from 'node:stream/consumers'
import { afterAll, afterEach, describe, expect, test, vi } from 'vitest'
import { endAlignmentThread } from '#services/alignment/alignment-thread'
import { lanEnvironment } from '#services/devices/lan'
import { unpublishPiece } from '#services/portfolio/publish'
import { changePortfolioSettings } from '#services/portfolio/settings'
import { openStaticCopy } from '#services/portfolio/static-copy'
import { GET as readPreview } from '../../app/jobs/[job]/portfolio/[piece]/preview/route'
import { GET as readPreviewPicture } from '../../app/jobs/[job]/portfolio/[piece]/preview/[file]/route'
import { GET as readZipRoute } from '../../app/api/portfolio.zip/route'
import { POST as postHome } from '../../app/portfolio/route'
import { makePhoto } from '../support/make-photo'
import { readZip } from '../support/read-zip'
import {
  accepted,
  choiceOf,
  makeShownJob,
  publishWith,
} from '../support/shown-job'
import { addressesIn, visit } from '../support/visit'
import { useWorkshop } from '../support/workshop'

useWorkshop()
afterEach(() => {
  vi.unstubAllEnvs()
})
afterAll(async () => {
  await endAlignmentThread()
})

/** A browser on the local network without any token, as the door hands it on. */
const stranger = {
  host: 'workshop.test:3443',
  'x-coatbook-door': 'network',
  'x-coatbook-peer': '192.168.1.77',
}

function openLan() {
  const [[name, value] = ['', '']] = Object.entries(
    lanEnvironment({ hosts: [stranger.host], fingerprint: 'AA' }),
  )
  vi.stubEnv(name, value)
}

async function published() {
  const job = await makeShownJob(
    ['before.jpg', await makePhoto({ width: 400, height: 300 })],
    ['after.jpg', await makePhoto({ width: 401, height: 300 })],
  )
  const slug = await publishWith(job.id, job.pieceId, choiceOf(job))
  return { job, slug }
}

describe('the portfolio is open to strangers', () => {
  test('on the local network, without signing in, and nothing but it is', async () => {
    const { job, slug } = await published()
    openLan()
    for (const address of [
      '/portfolio',
      `/portfolio/${slug}`,
      `/portfolio/${slug}/front-after-720.webp`,
      `/portfolio/${slug}/shared.jpg`,
    ]) {
      expect((await visit(address, stranger)).status, address).toBe(200)
    }
    const ask = { headers: stranger }
    const params = Promise.resolve({
      job: job.id,
      piece: job.pieceId,
      file: 'front-after-720.webp',
    })
    for (const answer of [
      await readPreview(new Request('http://workshop.test/', ask), { params }),
      await readPreviewPicture(new Request('http://workshop.test/', ask), {
        params,
      }),
      await readZipRoute(new Request('http://workshop.test/', ask), {}),
    ]) {
      expect(answer.status).toBe(401)
    }
  })

  test('who follow a link from another site, but not by a name that is not ours, nor to send anything', async () => {
    const { slug } = await published()
    const following = { 'sec-fetch-site': 'cross-site' }
    expect((await visit(`/portfolio/${slug}`, following)).status).toBe(200)
    expect((await visit('/portfolio', { host: 'evil.example' })).status).toBe(
      403,
    )
    const sent = await postHome(
      new Request('http://localhost:3000/portfolio', {
        method: 'POST',
        headers: { host: 'localhost:3000', ...following },
      }),
      {},
    )
    expect(sent.status).toBe(403)
  })
})

describe('what is taken down is gone at once', () => {
  test('pages are kept by nobody, and whoever kept a picture asks before showing it', async () => {
    const { job, slug } = await published()
    const page = await visit(`/portfolio/${slug}`)
    expect(page.headers.get('cache-control')).toBe('no-store')
    expect((await visit('/portfolio')).headers.get('cache-control')).toBe(
      'no-store',
    )
    const address = `/portfolio/${slug}/front-after-720.webp`
    const picture = await visit(address)
    expect(picture.headers.get('cache-control')).toContain('no-cache')
    const tag = { 'if-none-match': picture.headers.get('etag') ?? '' }
    expect((await visit(address, tag)).status).toBe(304)
    accepted(await unpublishPiece(job.id, job.pieceId))
    expect((await visit(address, tag)).status).toBe(404)
    expect((await visit(`/portfolio/${slug}`)).status).toBe(404)
    expect(await (await visit('/portfolio')).text()).not.toContain(slug)
    expect(
      [...(await readZip(await buffer(await openStaticCopy()))).keys()].join(),
    ).not.toContain(slug)
  })

  test('a page that never was and one that is down cannot be told apart', async () => {
    const { job, slug } = await published()
    accepted(await unpublishPiece(job.id, job.pieceId))
    const [down, never] = [
      await visit(`/portfolio/${slug}`),
      await visit('/portfolio/never'),
    ]
    expect(await down.text()).toBe(await never.text())
    expect(down.status).toBe(never.status)
  })
})

test('the preview is the page, with pictures of its own address', async () => {
  const { job, slug } = await published()
  const params = Promise.resolve({
    job: job.id,
    piece: job.pieceId,
    file: 'front-after-720.webp',
  })
  const here = new Request('http://localhost:3000/', {
    headers: { host: 'localhost:3000' },
  })
  const preview = await readPreview(here, { params })
  const page = await (await visit(`/portfolio/${slug}`)).text()
  const address = `/jobs/${job.id}/portfolio/${job.pieceId}/preview/`
  expect(
    (await preview.text()).replaceAll(address, `/portfolio/${slug}/`),
  ).toBe(page)
  const picture = await readPreviewPicture(here, { params })
  expect(Buffer.from(await picture.arrayBuffer())).toEqual(
    Buffer.from(
      await (
        await visit(`/portfolio/${slug}/front-after-720.webp`)
      ).arrayBuffer(),
    ),
  )
})

test('everything that a page names is there, and may be shown by its own policy', async () => {
  const { slug } = await published()
  for (const address of ['/portfolio', `/portfolio/${slug}`]) {
    const page = await visit(address)
    expect(page.headers.get('content-security-policy')).toContain(
      "script-src 'self'",
    )
    const named = addressesIn(await page.text())
    expect(named.length).toBeGreaterThan(3)
    for (const one of named) {
      const file = /^\/portfolio\/([\w-]+\.(?:css|js|svg))$/.exec(one)?.[1]
      if (file !== undefined) readFileSync(`public/portfolio/${file}`)
      else expect((await visit(one)).status, one).toBe(200)
    }
  }
})

describe('feed and sitemap', () => {
  test('are there once there is a public address for their links', async () => {
    const { slug } = await published()
    for (const file of ['feed.xml', 'sitemap.xml']) {
      expect((await visit(`/portfolio/${file}`)).status).toBe(404)
    }
    await changePortfolioSettings({
      publicAddress: 'https://alder-yard.example',
      introduction: '',
      contact: '',
    })
    for (const [file, type] of [
      ['feed.xml', 'application/atom+xml; charset=utf-8'],
      ['sitemap.xml', 'application/xml; charset=utf-8'],
    ] as const) {
      const answer = await visit(`/portfolio/${file}`)
      expect(answer.headers.get('content-type')).toBe(type)
      expect(await answer.text()).toContain(
        `https://alder-yard.example/${slug}/`,
      )
    }
  })
})

test('the copy holds all pages, their files and pictures, and names nothing that it does not hold', async () => {
  const { slug } = await published()
  await changePortfolioSettings({
    publicAddress: 'https://alder-yard.example',
    introduction: '',
    contact: '',
  })
  const answer = await readZipRoute(
    new Request('http://localhost:3000/api/portfolio.zip', {
      headers: { host: 'localhost:3000' },
    }),
    {},
  )
  expect(answer.headers.get('content-type')).toBe('application/zip')
  const files = await readZip(Buffer.from(await answer.arrayBuffer()))
  expect([...files.keys()].filter((name) => !name.includes('/'))).toEqual([
    'index.html',
    'portfolio.css',
    'portfolio.js',
    'icon.svg',
    'feed.xml',
    'sitemap.xml',
  ])
  for (const name of ['index.html', `${slug}/index.html`]) {
    const page = files.get(name)?.toString() ?? ''
    const named = [...page.matchAll(/\b(?:href|src|srcset)="([^"]*)"/g)]
      .flatMap(([, value = '']) => value.split(', '))
      .map((value) => value.replace(/ \d+w$/, ''))
      .filter((value) => !/^(?:https:|#)/.test(value))
    expect(named.length).toBeGreaterThan(4)
    for (const one of named) {
      const target = new URL(
        one,
        `https://copy.example/${name}`,
      ).pathname.slice(1)
      expect(files.has(target), `${name}: ${one}`).toBe(true)
    }
  }
})
