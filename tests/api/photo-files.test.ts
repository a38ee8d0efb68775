import { describe, expect, test } from 'vitest'
import { GET as getSheet } from '../../app/api/jobs/[job]/sheets/[file]/route'
import { POST as postPhotos } from '../../app/api/jobs/[job]/photos/route'
import { GET as getPhoto } from '../../app/api/photos/[photo]/[rendition]/route'
import { makeJob } from '../support/make-job'
import { makePhoto } from '../support/make-photo'
import { photoForm, sendPhotos } from '../support/send-photos'
import { useWorkshop } from '../support/workshop'

useWorkshop()

async function keepOne(bytes: Uint8Array): Promise<string> {
  const job = await makeJob()
  const { photos } = await sendPhotos(job.id, [['a.jpg', bytes]])
  return photos[0]?.id ?? ''
}

async function get(
  photo: string,
  rendition: string,
  headers: Readonly<Record<string, string>> = {},
): Promise<Response> {
  const request = new Request(
    `http://localhost/api/photos/${photo}/${rendition}`,
    { headers },
  )
  return getPhoto(request, { params: Promise.resolve({ photo, rendition }) })
}

async function bytesOf(response: Response): Promise<Buffer> {
  return Buffer.from(await response.arrayBuffer())
}

async function send(jobId: string, body: BodyInit, type?: string) {
  const request = new Request(`http://localhost/api/jobs/${jobId}/photos`, {
    method: 'POST',
    body,
    ...(type === undefined ? {} : { headers: { 'content-type': type } }),
  })
  return postPhotos(request, { params: Promise.resolve({ job: jobId }) })
}

describe('a photo over the interface', () => {
  test('has its length and a tag, may be kept for good, and runs nothing', async () => {
    const bytes = await makePhoto()
    const response = await get(await keepOne(bytes), 'original')
    expect(response.status).toBe(200)
    expect(Object.fromEntries(response.headers)).toMatchObject({
      'content-type': 'image/jpeg',
      'content-length': String(bytes.byteLength),
      'cache-control': 'private, max-age=31536000, immutable',
      'x-content-type-options': 'nosniff',
      'content-security-policy': "sandbox; default-src 'none'",
      'content-disposition': 'inline',
    })
    expect((await bytesOf(response)).equals(bytes)).toBe(true)
  })

  test('is not sent again to who has it', async () => {
    const id = await keepOne(await makePhoto())
    for (const rendition of ['thumb', 'original']) {
      const first = await get(id, rendition)
      const etag = first.headers.get('etag') ?? ''
      await first.body?.cancel()
      for (const header of [etag, `W/${etag}`, `"other", ${etag}`, '*']) {
        const again = await get(id, rendition, { 'if-none-match': header })
        expect(again.status).toBe(304)
        expect(again.body).toBeNull()
      }
      const other = await get(id, rendition, { 'if-none-match': '"other"' })
      expect(other.status).toBe(200)
      await other.body?.cancel()
    }
  })

  // RFC 9110 section 14.1.2, byte ranges; the file has 1000 bytes more than its picture.
  test.each([
    ['bytes=0-9', 206, 0, 9],
    ['bytes=5-5', 206, 5, 5],
    ['bytes=10-', 206, 10, undefined],
    ['bytes=-10', 206, -10, undefined],
    ['bytes=0-99999999', 206, 0, undefined],
    ['bytes=9-5', 200, 0, undefined],
    ['bytes=0-1,4-5', 200, 0, undefined],
    ['pages=1-2', 200, 0, undefined],
    ['bytes=99999999-', 416, 0, undefined],
    ['bytes=-0', 416, 0, undefined],
  ])(
    'asked for as %s is answered with %d',
    async (range, status, first, last) => {
      const bytes = Buffer.concat([await makePhoto(), Buffer.alloc(1000, 7)])
      const response = await get(await keepOne(bytes), 'original', { range })
      expect(response.status).toBe(status)
      if (status === 416) {
        expect(response.headers.get('content-range')).toBe(
          `bytes */${bytes.byteLength}`,
        )
        return
      }
      const wanted = bytes.subarray(
        first,
        last === undefined ? undefined : last + 1,
      )
      expect((await bytesOf(response)).equals(wanted)).toBe(true)
      expect(response.headers.get('content-length')).toBe(
        String(wanted.byteLength),
      )
    },
  )

  test('of a kind that browsers do not show is offered for saving', async () => {
    const id = await keepOne(await makePhoto({}, 'tiff'))
    const original = await get(id, 'original')
    expect(original.headers.get('content-disposition')).toBe('attachment')
    expect(original.headers.get('content-type')).toBe('image/tiff')
    await original.body?.cancel()
    const thumb = await get(id, 'thumb')
    expect(thumb.headers.get('content-type')).toBe('image/webp')
    await thumb.body?.cancel()
  })

  test.each([
    ['no-such-photo', 'thumb'],
    ['no-such-photo', 'poster'],
  ])('that does not exist is a problem: %s/%s', async (id, rendition) => {
    const response = await get(id, rendition)
    expect(response.status).toBe(404)
    expect(response.headers.get('content-type')).toBe(
      'application/problem+json',
    )
  })
})

describe('sending photos over the interface', () => {
  test('answers 201 with what was kept and what was not', async () => {
    const job = await makeJob()
    const response = await send(
      job.id,
      photoForm([
        [
          'a.jpg',
          await makePhoto({ taken: '2026:10:22 09:02:10', offset: '+01:00' }),
        ],
        ['b.jpg', Buffer.from('Dear buyer,')],
      ]),
    )
    expect(response.status).toBe(201)
    expect(await response.json()).toMatchObject({
      photos: [
        {
          name: 'a.jpg',
          mediaType: 'image/jpeg',
          width: 64,
          height: 48,
          taken: {
            at: '2026-10-22T08:02:10.000Z',
            earliest: '2026-10-22T08:02:10.000Z',
            latest: '2026-10-22T08:02:10.999Z',
            basis: 'offset',
          },
          warnings: [],
        },
      ],
      rejected: [{ name: 'b.jpg' }],
    })
  })

  test('answers 422 with the reasons when nothing could be kept', async () => {
    const job = await makeJob()
    const response = await send(
      job.id,
      photoForm([['b.jpg', Buffer.from('Dear buyer,')]]),
    )
    expect(response.status).toBe(422)
    expect(await response.json()).toMatchObject({
      status: 422,
      rejected: [{ name: 'b.jpg' }],
    })
  })

  test.each([
    ['without a photo', 'multipart/form-data; boundary=b', '--b--\r\n', 400],
    [
      'as a form that breaks off',
      'multipart/form-data; boundary=b',
      '--b\r\nContent-Disposition: form-data; name="file"; filename="a.jpg"\r\n\r\nhalf',
      400,
    ],
    ['as JSON', 'application/json', '{}', 415],
  ])('%s is refused', async (_name, type, body, status) => {
    const job = await makeJob()
    const response = await send(job.id, body, type)
    expect(response.status).toBe(status)
    expect(response.headers.get('content-type')).toBe(
      'application/problem+json',
    )
  })

  test('to a job that does not exist answers 404', async () => {
    const response = await send(
      'nope',
      photoForm([['a.jpg', await makePhoto()]]),
    )
    expect(response.status).toBe(404)
  })
})

describe('a sheet over the interface', () => {
  async function sheet(job: string, file: string, query = '') {
    const request = new Request(
      `http://localhost/api/jobs/${job}/sheets/${file}${query}`,
    )
    return getSheet(request, { params: Promise.resolve({ job, file }) })
  }

  test.each(['3x2.jpg', '1x1.pdf', '1x1', '1x1.jpg.png', 'letter.jpg'])(
    'that there is not, %s, answers 404 with those that there are',
    async (file) => {
      const job = await makeJob()
      const response = await sheet(job.id, file)
      expect(response.status).toBe(404)
      expect(await response.text()).toContain('1x1, 4x5, 9x16 or 16x9')
    },
  )

  test('of a job without a pair answers 409 with what to do', async () => {
    const job = await makeJob()
    const response = await sheet(job.id, '1x1.jpg')
    expect(response.status).toBe(409)
    expect(await response.text()).toContain('Add a before photo')
  })

  test('is a picture of its shape and kind', async () => {
    const job = await makeJob()
    await sendPhotos(
      job.id,
      [['a.jpg', await makePhoto({ width: 400, height: 300 })]],
      [['role', 'before']],
    )
    await sendPhotos(
      job.id,
      [['b.jpg', await makePhoto({ width: 401, height: 300 })]],
      [['role', 'after']],
    )
    const response = await sheet(job.id, '16x9.webp')
    expect(response.status).toBe(200)
    expect(response.headers.get('content-type')).toBe('image/webp')
    expect((await bytesOf(response)).subarray(8, 12).toString()).toBe('WEBP')
  })
})
