import { describe, expect, test } from 'vitest'
import { openPicture } from '#services/renditions/open-picture'
import { callApi } from '../support/api'
import { startJob } from '../support/api-job'
import { makePhoto } from '../support/make-photo'
import { sendPhotos } from '../support/send-photos'
import { useWorkshop } from '../support/workshop'

useWorkshop()

async function jobWithPair(): Promise<string> {
  const { id } = await startJob(['body'])
  for (const [role, width] of [
    ['before', 800],
    ['after', 640],
  ] as const) {
    const fields: [string, string][] = [
      ['role', role],
      ['view', 'front'],
    ]
    const photo = await makePhoto({ width, height: 600 })
    await sendPhotos(id, [[`${role}.jpg`, photo]], fields)
  }
  return id
}

describe('a sheet', () => {
  test('is asked for by shape, format and look, and is named after them', async () => {
    const job = await jobWithPair()
    const answer = await callApi(
      'GET',
      `/api/jobs/${job}/sheets/4x5.webp?design=workshop-card&ground=dark&elements=title,price`,
    )
    expect(answer.status).toBe(200)
    expect(answer.headers.get('content-type')).toBe('image/webp')
    expect(answer.headers.get('content-disposition')).toContain(
      '-4x5-workshop-card.webp',
    )
  })

  test('is asked for smaller, and is named after that', async () => {
    const job = await jobWithPair()
    const answer = await callApi(
      'GET',
      `/api/jobs/${job}/sheets/4x5.webp?width=540`,
    )
    expect(answer.headers.get('content-disposition')).toContain(
      '-4x5-quiet-540.webp',
    )
    const sheet = openPicture(Buffer.from(await answer.arrayBuffer()))
    expect(await sheet.metadata()).toMatchObject({ width: 540, height: 675 })
  })

  test.each([
    ['design=loud', 'quiet, bold, workshop-card'],
    ['ground=green', 'light, dark'],
    ['elements=title,phone', 'title, finish'],
    ['width=1.5', 'from 240 to 1440'],
    ['width=wide', 'from 240 to 1440'],
    ['width=239', 'from 240 to 1440'],
    ['width=1441', 'from 240 to 1440'],
  ])('asked for with %s is refused with what there is', async (query, told) => {
    const answer = await callApi('GET', `/api/jobs/any/sheets/1x1.jpg?${query}`)
    expect(answer.status).toBe(400)
    expect(await answer.text()).toContain(told)
  })
})

describe('the own mark', () => {
  test('is set by a form and comes back as PNG', async () => {
    expect((await callApi('GET', '/api/workshop/mark')).status).toBe(404)
    const body = new FormData()
    body.append('file', new Blob([new Uint8Array(await makePhoto())]), 'a.jpg')
    const kept = await callApi('POST', '/api/workshop/mark', { body })
    expect(kept.status).toBe(201)
    expect(await kept.json()).toEqual({ width: 64, height: 48 })
    const mark = await callApi('GET', '/api/workshop/mark')
    expect(mark.headers.get('content-type')).toBe('image/png')
  })

  test('is not something else', async () => {
    const answer = await callApi('POST', '/api/workshop/mark', { body: '{}' })
    expect(answer.status).toBe(415)
  })
})
