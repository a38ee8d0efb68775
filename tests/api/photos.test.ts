import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import path from 'node:path'
import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { renditionsIdle } from '#services/renditions/renditions'
import { callApi, memberOf, textOf } from '../support/api'
import { startJob, writeStep } from '../support/api-job'
import { useWorkshop } from '../support/workshop'

useWorkshop()

/** Phone A, at 09:30:12.274+01:00 on 23 October 2026, stored turned (Exif orientation 6), upright 1440 x 1080. */
const name = '10-primer-1-front.jpg'
const bytes = readFileSync(
  path.join(process.cwd(), 'prisma/demo/photos/job-a', name),
)

function form(
  files: readonly (readonly [string, Uint8Array<ArrayBuffer>])[],
  fields: readonly (readonly [string, string])[] = [],
): FormData {
  const made = new FormData()
  for (const [field, value] of fields) made.append(field, value)
  for (const [fileName, content] of files) {
    made.append('file', new File([content], fileName))
  }
  return made
}

describe('sending photos', () => {
  test('keeps them byte for byte, dates them and puts them where they were sent', async () => {
    const job = await startJob()
    const step = await writeStep(job, {
      kind: 'prime',
      surfaces: [job.surface('body')],
    })
    const answer = await callApi('POST', `/api/jobs/${job.id}/photos`, {
      body: form(
        [[name, new Uint8Array(bytes)]],
        [
          ['step', step],
          ['view', 'front'],
        ],
      ),
    })
    expect(answer.status).toBe(201)
    expect(await answer.clone().json()).toMatchObject({
      photos: [
        {
          name,
          sha256: createHash('sha256').update(bytes).digest('hex'),
          mediaType: 'image/jpeg',
          width: 1440,
          height: 1080,
          taken: { basis: 'offset' },
        },
      ],
      rejected: [],
    })
    const taken = Date.parse(await textOf(answer, 'photos', 0, 'taken', 'at'))
    const late = Date.parse('2026-10-23T08:30:12.274Z') - taken
    expect(Math.abs(late)).toBeLessThan(1000)

    const id = await textOf(answer, 'photos', 0, 'id')
    const timeline = await callApi('GET', `/api/jobs/${job.id}/timeline`)
    expect(await memberOf(timeline, 'lanes', 0, 'steps', 0, 'photos')).toEqual([
      id,
    ])

    const original = await callApi('GET', `/api/photos/${id}/original`)
    expect(Buffer.from(await original.arrayBuffer()).equals(bytes)).toBe(true)
    for (const size of ['thumb', 'card', 'screen', 'zoom']) {
      const shown = await callApi('GET', `/api/photos/${id}/${size}`)
      const picture = await sharp(
        Buffer.from(await shown.arrayBuffer()),
      ).metadata()
      expect(picture.width / picture.height).toBeCloseTo(4 / 3, 1)
      expect(picture.exif).toBeUndefined()
    }
    await renditionsIdle()
  })

  test('a file that is no photo is turned away by name, and does not stop the others', async () => {
    const job = await startJob()
    const answer = await callApi('POST', `/api/jobs/${job.id}/photos`, {
      body: form([
        ['notes.jpg', new TextEncoder().encode('no picture')],
        [name, new Uint8Array(bytes)],
      ]),
    })
    expect(answer.status).toBe(201)
    expect(await memberOf(answer, 'photos', 0, 'name')).toBe(name)
    expect(await memberOf(answer, 'rejected', 0, 'name')).toBe('notes.jpg')
    await renditionsIdle()
  })

  test('422 when none of them is a photo', async () => {
    const job = await startJob()
    const answer = await callApi('POST', `/api/jobs/${job.id}/photos`, {
      body: form([['notes.jpg', new TextEncoder().encode('no picture')]]),
    })
    expect(answer.status).toBe(422)
    expect(await memberOf(answer, 'rejected', 0, 'name')).toBe('notes.jpg')
  })

  test.each([
    ['no file', form([]), 400],
    [
      'a role that there is none of',
      form([[name, new Uint8Array(bytes)]], [['role', 'during']]),
      400,
    ],
    [
      'a step that is not there',
      form([[name, new Uint8Array(bytes)]], [['step', 'nowhere']]),
      400,
    ],
    ['no form', JSON.stringify({ file: 'x' }), 415],
  ])('%s is refused', async (_, body, status) => {
    const job = await startJob()
    const answer = await callApi('POST', `/api/jobs/${job.id}/photos`, { body })
    expect(answer.status).toBe(status)
  })

  test('a size that photos do not come in is not there', async () => {
    const answer = await callApi('GET', '/api/photos/nowhere/huge')
    expect(answer.status).toBe(404)
  })
})
