import { readFileSync } from 'node:fs'
import path from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import { revealFrames } from '#core/sheets/reveal-frames'
import { endAlignmentThread } from '#services/alignment/alignment-thread'
import { openPicture } from '#services/renditions/open-picture'
import { callApi, memberOf, textOf } from '../support/api'
import { startJob, writeStep } from '../support/api-job'
import { photoForm } from '../support/send-photos'
import { until } from '../support/until'
import { useWorkshop } from '../support/workshop'

useWorkshop()
afterAll(async () => {
  await endAlignmentThread()
})

async function sendPhoto(job: string, role: string, file: string) {
  const bytes = readFileSync(path.join('prisma', 'demo', 'photos', file))
  const answer = await callApi('POST', `/api/jobs/${job}/photos`, {
    body: photoForm([[path.basename(file), bytes]], [['role', role]]),
  })
  return textOf(answer, 'photos', 0, 'id')
}

/** How bright a picture is on average, 0 to 255. */
async function brightness(address: string): Promise<number> {
  return meanOf(openPicture(await bytesOf(address)))
}

async function meanOf(picture: ReturnType<typeof openPicture>) {
  const { channels } = await openPicture(await picture.png().toBuffer())
    .greyscale()
    .stats()
  return channels[0]?.mean ?? NaN
}

async function bytesOf(address: string): Promise<Buffer> {
  const answer = await callApi('GET', address)
  expect(answer.status).toBe(200)
  return Buffer.from(await answer.arrayBuffer())
}

describe('a pair', () => {
  test('has the light of its after matched on demand, on its picture and on a sheet, and says how', async () => {
    const job = await startJob()
    const before = await sendPhoto(
      job.id,
      'before',
      'job-a/01-before-front.jpg',
    )
    const after = await sendPhoto(job.id, 'after', 'job-a/30-after-front.jpg')
    const address = `/api/jobs/${job.id}/pairs`
    const added = await callApi('POST', address, { body: { before, after } })
    const pair = `${address}/${await textOf(added, 'id')}`
    const light = await callApi('GET', `${pair}/light`)
    expect(await memberOf(light, 'accepted')).toBe(true)
    // The after was rendered with 0.18 stops more than the before.
    for (const channel of [0, 1, 2]) {
      const gain = await memberOf(light, 'gains', channel)
      expect(gain).toBeLessThan(0.98)
      expect(gain).toBeGreaterThan(2 ** -0.2)
    }
    expect(await textOf(light, 'said')).toMatch(/darker/)
    const sheet = `/api/jobs/${job.id}/sheets/1x1.png?before=${before}&after=${after}`
    expect(await brightness(`${pair}/after?light=matched`)).toBeLessThan(
      (await brightness(`${pair}/after`)) - 1,
    )
    // The after is less than half of it.
    expect(await brightness(`${sheet}&light=matched`)).toBeLessThan(
      (await brightness(sheet)) - 0.5,
    )
    expect(await brightness(`${pair}/before?light=matched`)).toBe(
      await brightness(`${pair}/before`),
    )
    expect((await callApi('GET', `${pair}/after?light=loud`)).status).toBe(400)
    expect((await callApi('GET', `${address}/none/light`)).status).toBe(404)
  })

  test('has the light of its after matched in a story and in its moving reveal too, and the steps stay as taken', async () => {
    const job = await startJob(['body'])
    const before = await sendPhoto(
      job.id,
      'before',
      'job-a/01-before-front.jpg',
    )
    const step = await sendPhoto(
      job.id,
      'progress',
      'job-a/10-primer-1-front.jpg',
    )
    const after = await sendPhoto(job.id, 'after', 'job-a/30-after-front.jpg')
    await callApi('POST', `/api/jobs/${job.id}/pairs`, {
      body: { before, after },
    })
    const surfaces = [job.surface('body')]
    await writeStep(job, { kind: 'prime', surfaces, photos: [step] })
    const sheets = `/api/jobs/${job.id}/sheets`
    const chosen = `before=${before}&after=${after}&elements=`
    const story = `${sheets}/16x9.png?${chosen}&show=story`
    const taken = await bytesOf(story)
    const matched = await bytesOf(`${story}&light=matched`)
    // Three pictures side by side: the after is the last.
    const part = (bytes: Buffer, left: number, width: number) =>
      openPicture(bytes).extract({ left, top: 0, width, height: 1080 })
    for (const [left, width] of [
      [0, 640],
      [640, 600],
    ] as const) {
      expect(
        await part(matched, left, width).raw().toBuffer(),
        `from ${left} on`,
      ).toEqual(await part(taken, left, width).raw().toBuffer())
    }
    expect(await meanOf(part(matched, 1280, 640))).toBeLessThan(
      (await meanOf(part(taken, 1280, 640))) - 0.5,
    )
    const reveal = `${sheets}/1x1-reveal.webp?${chosen}`
    const last = async (address: string) =>
      meanOf(
        openPicture(await bytesOf(address), { page: revealFrames.length - 1 }),
      )
    expect(await last(`${reveal}&light=matched`)).toBeLessThan(
      (await last(reveal)) - 0.5,
    )
  })

  test('is answered with its map, and its pictures are in one frame', async () => {
    const job = await startJob()
    const before = await sendPhoto(
      job.id,
      'before',
      'job-a/03-before-right-three-quarter.jpg',
    )
    const after = await sendPhoto(
      job.id,
      'after',
      'job-a/32-after-right-three-quarter.jpg',
    )
    const address = `/api/jobs/${job.id}/pairs`
    const added = await callApi('POST', address, { body: { before, after } })
    expect(added.status).toBe(201)
    expect(await memberOf(added, 'accepted')).toBe(true)
    // By the renderer's cameras the after is 1.3 % larger: the map's first number is 0.987.
    expect(await memberOf(added, 'homography', 0)).toBeCloseTo(0.987, 2)
    expect(await memberOf(added, 'homography', 8)).toBe(1)
    const id = await textOf(added, 'id')
    const listed = await callApi('GET', address)
    expect(await textOf(listed, 'pairs', 0, 'id')).toBe(id)
    const picture = await callApi('GET', `${address}/${id}/after`)
    expect(picture.headers.get('content-type')).toBe('image/webp')
    const again = await callApi('GET', `${address}/${id}/after`, {
      headers: { 'if-none-match': picture.headers.get('etag') ?? '' },
    })
    expect(again.status).toBe(304)
    expect((await callApi('GET', `${address}/${id}/middle`)).status).toBe(404)
  })

  test('of different things is not accepted, and says why', async () => {
    const job = await startJob()
    const before = await sendPhoto(
      job.id,
      'before',
      'job-a/05-before-hardware.jpg',
    )
    const after = await sendPhoto(
      job.id,
      'after',
      'job-b/08-paint-1-three-quarter.jpg',
    )
    const address = `/api/jobs/${job.id}/pairs`
    const added = await callApi('POST', address, { body: { before, after } })
    expect(added.status).toBe(201)
    expect(await memberOf(added, 'accepted')).toBe(false)
    expect(await memberOf(added, 'homography')).toBeNull()
    expect(await textOf(added, 'reason')).toMatch(/\.$/)
    const id = await textOf(added, 'id')
    expect((await callApi('GET', `${address}/${id}/after`)).status).toBe(409)
    expect((await callApi('GET', `${address}/${id}/light`)).status).toBe(409)
  })

  test('is laid by points that are set by hand, and by its pictures again', async () => {
    const job = await startJob()
    const send = (role: string, file: string) => sendPhoto(job.id, role, file)
    const before = await send('before', 'job-a/05-before-hardware.jpg')
    const after = await send('after', 'job-b/08-paint-1-three-quarter.jpg')
    const pairs = `/api/jobs/${job.id}/pairs`
    const added = await callApi('POST', pairs, { body: { before, after } })
    const address = `${pairs}/${await textOf(added, 'id')}/points`
    const corners = [
      { x: 100, y: 100 },
      { x: 1300, y: 100 },
      { x: 1300, y: 1000 },
      { x: 100, y: 1000 },
    ]
    const moved = corners.map(({ x, y }) => ({ x: x + 40, y: y + 20 }))
    const body = { before: corners, after: moved }
    const laid = await callApi('PUT', address, { body })
    expect(laid.status).toBe(200)
    expect(await memberOf(laid, 'how')).toBe('by-hand')
    expect(await memberOf(laid, 'points')).toEqual(body)
    // 40 pixels to the left and 20 up.
    expect(await memberOf(laid, 'homography', 2)).toBeCloseTo(-40, 6)
    expect(await memberOf(laid, 'homography', 5)).toBeCloseTo(-20, 6)
    const flat = corners.map(({ x }, index) => ({ x: x + index, y: 500 }))
    const refused = await callApi('PUT', address, {
      body: { before: flat, after: corners },
    })
    expect(refused.status).toBe(400)
    expect(await refused.text()).toContain('in one line')
    const three = { before: corners.slice(1), after: corners }
    expect((await callApi('PUT', address, { body: three })).status).toBe(400)
    const again = await callApi('DELETE', address)
    expect(await memberOf(again, 'how')).toBe('none')
    expect(await memberOf(again, 'points')).toBeNull()
    const nowhere = await callApi('PUT', `${pairs}/none/points`, { body })
    expect(nowhere.status).toBe(404)
  })

  test('is found while nobody waits for it', async () => {
    const job = await startJob()
    await sendPhoto(job.id, 'before', 'job-a/01-before-front.jpg')
    await sendPhoto(job.id, 'after', 'job-a/30-after-front.jpg')
    const address = `/api/jobs/${job.id}/pairs`
    const first: unknown = await (await callApi('GET', address)).json()
    expect(first).toEqual({ pairs: [], finding: true })
    await until(async () => {
      const answer: unknown = await (await callApi('GET', address)).json()
      expect(answer).toMatchObject({
        pairs: [{ accepted: true, how: 'computed' }],
        finding: false,
      })
    })
  })

  test('needs two photos of the job', async () => {
    const job = await startJob()
    const address = `/api/jobs/${job.id}/pairs`
    const same = await callApi('POST', address, {
      body: { before: 'x', after: 'x' },
    })
    expect(same.status).toBe(400)
    const none = await callApi('POST', address, {
      body: { before: 'x', after: 'y' },
    })
    expect(none.status).toBe(400)
    const nowhere = await callApi('GET', '/api/jobs/nowhere/pairs')
    expect(nowhere.status).toBe(404)
  })
})
