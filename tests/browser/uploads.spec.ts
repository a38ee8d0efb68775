/** Photos are taken past the framework: what it would have done for them must be done all the same. */
import { readFile } from 'node:fs/promises'
import { connect } from 'node:net'
import path from 'node:path'
import { type APIRequestContext, expect, test } from '@playwright/test'

const photo = path.join(
  import.meta.dirname,
  '../../prisma/demo/photos/job-a/01-before-front.jpg',
)

async function front() {
  const buffer = await readFile(photo)
  return { name: 'front.jpg', mimeType: 'image/jpeg', buffer }
}

async function jobIn(request: APIRequestContext): Promise<string> {
  const answer = await request.post('/api/jobs', {
    data: {
      title: 'Straight to its route',
      pieces: [{ name: 'stool', kind: 'stool', surfaces: ['seat'] }],
    },
  })
  expect(answer.status()).toBe(201)
  const { id } = (await answer.json()) as { readonly id: string }
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
