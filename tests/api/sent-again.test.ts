import { describe, expect, test } from 'vitest'
import { database } from '#services/database/open-database'
import { callApi, textOf } from '../support/api'
import { startJob } from '../support/api-job'
import { makePhoto } from '../support/make-photo'
import { photoForm } from '../support/send-photos'
import { useWorkshop } from '../support/workshop'

useWorkshop()

const once = { 'idempotency-key': '"f5a1b1f0-6b1e-4a52-8a44-7b5f3b2d9c10"' }

describe('a request that is sent again because its answer was lost', () => {
  test('keeps its photo once, and is answered as it was the first time', async () => {
    const job = await startJob()
    const bytes = await makePhoto({ taken: '2026:10:22 09:00:00' })
    const send = () =>
      callApi('POST', `/api/jobs/${job.id}/photos`, {
        headers: once,
        body: photoForm([['front.jpg', bytes]]),
      })
    const first = await send()
    expect(first.status).toBe(201)
    const again = await send()
    expect(again.status).toBe(201)
    const answer: unknown = await first.json()
    expect(await again.json()).toEqual(answer)
    expect(answer).not.toHaveProperty('photos.0.duplicateOf')
    expect(await (await database()).photo.count()).toBe(1)
  })

  test('keeps its photo once when both come at the same moment', async () => {
    const job = await startJob()
    const bytes = await makePhoto({ taken: '2026:10:22 09:00:00' })
    const answers = await Promise.all(
      [1, 2, 3].map(async () => {
        const answer = await callApi('POST', `/api/jobs/${job.id}/photos`, {
          headers: once,
          body: photoForm([['front.jpg', bytes]]),
        })
        return answer.text()
      }),
    )
    expect(new Set(answers).size).toBe(1)
    expect(await (await database()).photo.count()).toBe(1)
  })

  test('writes its step down once, with the same id and coat number', async () => {
    const job = await startJob()
    const send = () =>
      callApi('POST', `/api/jobs/${job.id}/steps`, {
        headers: once,
        body: { kind: 'coat', surfaces: [job.surface('body')] },
      })
    const first = await send()
    const again = await send()
    expect(again.status).toBe(201)
    expect(await again.json()).toEqual(await first.json())
    expect(await (await database()).step.count()).toBe(1)
  })

  test('adds its line to the note of a step once', async () => {
    const job = await startJob()
    const steps = `/api/jobs/${job.id}/steps`
    const body = { kind: 'coat', surfaces: [job.surface('body')] }
    const step = await textOf(await callApi('POST', steps, { body }), 'id')
    const send = (words: string, headers = {}) =>
      callApi('POST', `${steps}/${step}/notes`, { headers, body: { words } })
    const first = await send('Went on thin.', once)
    const again = await send('Went on thin.', once)
    expect([first.status, again.status]).toEqual([201, 201])
    expect(await again.json()).toEqual(await first.json())
    expect((await send('Something else.', once)).status).toBe(422)
    await send('Back edge twice.')
    const db = await database()
    expect(await db.step.findUnique({ where: { id: step } })).toMatchObject({
      note: 'Went on thin.\nBack edge twice.',
    })
  })

  test('is answered as it was though its step is gone by now', async () => {
    const job = await startJob()
    const steps = `/api/jobs/${job.id}/steps`
    const body = { kind: 'coat', surfaces: [job.surface('body')] }
    const step = await textOf(await callApi('POST', steps, { body }), 'id')
    const bytes = await makePhoto({ taken: '2026:10:22 09:00:00' })
    const send = () =>
      callApi('POST', `/api/jobs/${job.id}/photos`, {
        headers: once,
        body: photoForm([['coat.jpg', bytes]], [['step', step]]),
      })
    const first: unknown = await (await send()).json()
    await callApi('DELETE', `${steps}/${step}`)
    const again = await send()
    expect(again.status).toBe(201)
    expect(await again.json()).toEqual(first)
  })

  test('is a new request without a key', async () => {
    const job = await startJob()
    const body = { kind: 'coat', surfaces: [job.surface('body')] }
    const address = `/api/jobs/${job.id}/steps`
    const first = await textOf(await callApi('POST', address, { body }), 'id')
    const other = await textOf(await callApi('POST', address, { body }), 'id')
    expect(other).not.toBe(first)
  })
})

describe('another request under a key that was used', () => {
  test('is refused, and nothing of it is kept', async () => {
    const job = await startJob()
    const address = `/api/jobs/${job.id}/steps`
    const surfaces = [job.surface('body')]
    await callApi('POST', address, {
      headers: once,
      body: { kind: 'coat', surfaces },
    })
    const other = await callApi('POST', address, {
      headers: once,
      body: { kind: 'sand', surfaces },
    })
    expect(other.status).toBe(422)
    expect(await (await database()).step.count()).toBe(1)
  })

  test('is refused for a photo with other bytes', async () => {
    const job = await startJob()
    const address = `/api/jobs/${job.id}/photos`
    for (const [subSeconds, status] of [
      ['1', 201],
      ['2', 422],
    ] as const) {
      const bytes = await makePhoto({
        taken: '2026:10:22 09:00:00',
        subSeconds,
      })
      const answer = await callApi('POST', address, {
        headers: once,
        body: photoForm([['front.jpg', bytes]]),
      })
      expect(answer.status).toBe(status)
    }
    expect(await (await database()).photo.count()).toBe(1)
  })

  test('is refused for the same photo that is said to show something else', async () => {
    const job = await startJob()
    const bytes = await makePhoto({ taken: '2026:10:22 09:00:00' })
    const send = (fields: readonly (readonly [string, string])[]) =>
      callApi('POST', `/api/jobs/${job.id}/photos`, {
        headers: once,
        body: photoForm([['front.jpg', bytes]], fields),
      })
    expect((await send([['role', 'before']])).status).toBe(201)
    const others = [
      [['role', 'after']],
      [
        ['role', 'before'],
        ['view', 'front'],
      ],
      [
        ['role', 'before'],
        ['surface', job.surface('top')],
      ],
      [],
    ] as const
    for (const fields of others) {
      expect((await send(fields)).status).toBe(422)
    }
    expect((await send([['role', 'before']])).status).toBe(201)
    const db = await database()
    expect(await db.photo.findMany({ select: { role: true } })).toEqual([
      { role: 'before' },
    ])
  })

  test('is asked for a key that can be read', async () => {
    const job = await startJob()
    const answer = await callApi('POST', `/api/jobs/${job.id}/steps`, {
      headers: { 'idempotency-key': 'two words' },
      body: { kind: 'coat', surfaces: [job.surface('body')] },
    })
    expect(answer.status).toBe(400)
    expect(await textOf(answer, 'detail')).toContain('Idempotency-Key')
  })
})
