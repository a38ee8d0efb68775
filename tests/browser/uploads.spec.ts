/** Photos are taken past the framework: what it would have done for them must be done all the same. */
import { readFile } from 'node:fs/promises'
import { connect } from 'node:net'
import path from 'node:path'
import type { APIRequestContext } from '@playwright/test'
import { expect, test } from '../support/alive-pages'
import { requestJob } from '../support/request-job'

const photo = path.join(
  import.meta.dirname,
  '../../prisma/demo/photos/job-a/01-before-front.jpg',
)

async function front() {
  const buffer = await readFile(photo)
  return { name: 'front.jpg', mimeType: 'image/jpeg', buffer }
}

async function jobIn(request: APIRequestContext): Promise<string> {
  const { id } = await requestJob(request, 'Straight to its route', 'stool', [
    'seat',
  ])
  return `/api/jobs/${id}/photos`
}

test('an upload is answered under the same headers as everything else', async ({
  request,
}) => {
  const photos = await jobIn(request)
  const direct = await request.post(photos, {
    multipart: { file: await front() },
  })
  expect(direct.status()).toBe(201)
  // The same route, by a method that it has not: this one comes through the framework.
  const framework = await request.put(photos)
  expect(framework.status()).toBe(405)
  const ofConnection = ['date', 'connection', 'keep-alive', 'content-length']
  const ofItsContent = [
    'content-type',
    'content-encoding',
    'allow',
    'transfer-encoding',
    'vary',
  ]
  const told = Object.entries(framework.headers()).filter(
    ([name]) => ![...ofConnection, ...ofItsContent].includes(name),
  )
  expect(told.length).toBeGreaterThan(5)
  expect(direct.headers()).toMatchObject(Object.fromEntries(told))
})

test('a date that stands in XMP alone is read by the built program too', async ({
  request,
}) => {
  const photos = await jobIn(request)
  const { name, mimeType, buffer } = await front()
  const xmp =
    'http://ns.adobe.com/xap/1.0/\0<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description xmlns:exif="http://ns.adobe.com/exif/1.0/" exif:DateTimeOriginal="2026-10-22T09:00:00.5+05:30"/></rdf:RDF></x:xmpmeta>'
  const length = Buffer.alloc(2)
  length.writeUInt16BE(xmp.length + 2)
  // What there is of Exif is made a segment that nobody reads (APP15), and the XMP stands in front of it.
  const exif = buffer.indexOf(Buffer.from([0xff, 0xe1]))
  buffer[exif + 1] = 0xef
  const start = buffer.subarray(0, 2)
  const segment = [Buffer.from([0xff, 0xe1]), length, Buffer.from(xmp)]
  const dated = Buffer.concat([start, ...segment, buffer.subarray(2)])
  const answer = await request.post(photos, {
    multipart: { file: { name, mimeType, buffer: dated } },
  })
  expect(await answer.json()).toMatchObject({
    photos: [{ taken: { at: '2026-10-22T03:30:00.500Z', basis: 'offset' } }],
  })
})

test('a method that does nothing at an address is refused as a problem, and the server is not broken by it', async ({
  request,
}) => {
  const script = /\/_next\/static\/[^"]+\.js/.exec(
    await (await request.get('/shelf')).text(),
  )
  const files = ['/sw.js', '/portfolio/portfolio.css', '/apple-icon.png']
  const asked = [
    ...[...files, '/sw%2Ejs?v=1', script?.[0] ?? ''].flatMap((address) =>
      ['POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS', 'TRACE'].map(
        (method) => [method, address, 'GET, HEAD'] as const,
      ),
    ),
    ...['/', '/shelf', '/jobs/none', '/nothing-here'].flatMap((address) =>
      ['PUT', 'PATCH', 'DELETE', 'OPTIONS', 'TRACE', 'PROPFIND'].map(
        (method) => [method, address, 'GET, HEAD, POST'] as const,
      ),
    ),
    ['TRACE', '/api/jobs', 'GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS'],
  ] as const
  for (const [method, address, allow] of asked) {
    const what = `${method} ${address}`
    const answer = await request.fetch(address, { method })
    expect(answer.status(), what).toBe(405)
    expect(answer.headers()['content-type'], what).toBe(
      'application/problem+json',
    )
    expect(answer.headers()['allow'], what).toBe(allow)
    expect(await answer.json(), what).toMatchObject({ status: 405 })
  }
  for (const file of files) {
    expect((await request.head(file)).status(), file).toBe(200)
  }
  expect((await request.get('/api/health')).status()).toBe(200)
})

test('an upload from a page of another site, or that breaks off, keeps nothing and leaves the server at work', async ({
  request,
  baseURL,
}) => {
  const photos = await jobIn(request)
  const foreign = await request.post(photos, {
    headers: { origin: 'https://elsewhere.example' },
    multipart: { file: await front() },
  })
  expect(foreign.status()).toBe(403)

  const { host, hostname, port } = new URL(baseURL ?? '')
  // The second names a host that is none at all.
  for (const named of [host, 'a host%%[']) {
    await breakOff(Number(port), hostname, [
      `POST ${photos} HTTP/1.1`,
      `Host: ${named}`,
      'Content-Type: multipart/form-data; boundary=edge',
      'Content-Length: 1000000',
      '',
      '--edge',
      'Content-Disposition: form-data; name="file"; filename="half.jpg"',
      '',
      'the first words of it',
    ])
  }
  const burstsKept = async () => {
    const answer = await request.get(photos.replace(/photos$/, 'placing'))
    expect(answer.status()).toBe(200)
    const { bursts } = (await answer.json()) as {
      readonly bursts: readonly unknown[]
    }
    return bursts.length
  }
  expect(await burstsKept()).toBe(0)
  await request.post(photos, { multipart: { file: await front() } })
  expect(await burstsKept()).toBe(1)
})

/** Sends the beginning of a request, and is gone. */
function breakOff(
  port: number,
  hostname: string,
  lines: readonly string[],
): Promise<void> {
  return new Promise((resolve, reject) => {
    const socket = connect(port, hostname, () => {
      socket.write(lines.join('\r\n'), () => {
        // Late enough for what it says to be looked at.
        setTimeout(() => {
          socket.destroy()
        }, 200)
      })
    })
    socket.on('close', () => {
      resolve()
    })
    socket.on('error', reject)
  })
}
