import { beforeEach, describe, expect, test } from 'vitest'
import { type ApiJob, startJob, writeStep } from '../support/api-job'
import { callApi, memberOf, textOf } from '../support/api'
import { useWorkshop } from '../support/workshop'

useWorkshop()

let job: ApiJob
let strip = ''
beforeEach(async () => {
  job = await startJob()
  const step = (kind: string, hour: number, more = {}) =>
    writeStep(job, {
      kind,
      surfaces: [job.surface('top')],
      startedAt: `2026-10-22T${hour}:00:00Z`,
      ...more,
    })
  strip = await step('strip', 10)
  await step('sand', 12, { grit: 120 })
  await step('stain', 14)
})

const send = (body: string, type = 'application/x-subrip') =>
  callApi('POST', `/api/jobs/${job.id}/captions`, {
    body,
    headers: { 'content-type': type },
  })

const file = [
  ['00:00:01,000 --> 00:00:06,000', 'This is the old dresser that I found.'],
  [
    '00:00:20,000 --> 00:00:27,000',
    'First I am brushing on the stripper, and I left it for thirty minutes.',
  ],
  ['00:01:00,000 --> 00:01:05,000', 'Next I sanded the top with 120 grit.'],
  ['00:01:40,000 --> 00:01:47,000', 'Now I wipe on the stain with a cloth.'],
  ['00:02:10,000 --> 00:02:20,000', 'And that was the afternoon.'],
]
  .map(([times = '', text = ''], index) => `${index + 1}\n${times}\n${text}\n`)
  .join('\n')

describe('captions that are sent', () => {
  test('are answered with chapters and questions', async () => {
    const answer = await send(file)
    expect(answer.status).toBe(200)
    expect(await answer.clone().json()).toMatchObject({
      chapters: [
        { seconds: 0, title: 'Introduction' },
        { seconds: 20, title: 'Stripping the top', step: strip },
        { seconds: 60, title: 'Sanding the top' },
        { seconds: 100, title: 'Stain on the top' },
      ],
      questions: [{ fact: 'dwell', step: strip, values: [30] }],
    })
  })

  test('put their chapters into the video description', async () => {
    await send(file)
    const text = await (
      await callApi('GET', `/api/jobs/${job.id}/write-ups/video`)
    ).text()
    expect(text).toContain(
      'Chapters\n0:00 Introduction\n0:20 Stripping the top\n1:00 Sanding the top\n1:40 Stain on the top',
    )
  })

  test.each([
    ['a letter', 'Dear buyer', 422],
    ['nothing', '', 422],
    ['more than 5 MB', `WEBVTT\n\n${'a'.repeat(5_000_001)}`, 413],
  ])('are refused when they are %s', async (_, body, status) => {
    const answer = await send(body, 'text/vtt')
    expect(answer.status).toBe(status)
    expect(await textOf(answer, 'detail')).not.toBe('')
  })

  test('are refused for a job that there is not', async () => {
    const answer = await callApi('POST', '/api/jobs/none/captions', {
      body: file,
    })
    expect(answer.status).toBe(404)
    expect(await memberOf(answer, 'status')).toBe(404)
  })
})
