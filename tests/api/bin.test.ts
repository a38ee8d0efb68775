import { expect, test } from 'vitest'
import { readOutcome } from '#core/queue/read-outcome'
import { callApi, memberOf } from '../support/api'
import { startJob, writeStep } from '../support/api-job'
import { makePhoto } from '../support/make-photo'
import { useWorkshop } from '../support/workshop'

useWorkshop()

test('a surface goes into the bin and comes back through the interface', async () => {
  const job = await startJob()
  const top = job.surface('top')
  await writeStep(job, { kind: 'sand', surfaces: [top] })
  const removed = await callApi('DELETE', `/api/jobs/${job.id}/surfaces/${top}`)
  expect(removed.status).toBe(204)
  const bin = await callApi('GET', '/api/bin')
  expect(await memberOf(bin, 'things')).toMatchObject([
    {
      kind: 'surface',
      id: top,
      name: 'dresser, top',
      job: { id: job.id, title: 'Pine dresser' },
    },
  ])
  const back = await callApi('POST', '/api/bin/restore', {
    body: { kind: 'surface', job: job.id, id: top },
  })
  expect(back.status).toBe(204)
  const timeline = await callApi('GET', `/api/jobs/${job.id}/timeline`)
  expect(await memberOf(timeline, 'lanes', 1, 'steps')).toMatchObject([
    { kind: 'sand' },
  ])
})

test('a job in the bin is not found until it is back', async () => {
  const job = await startJob()
  const address = `/api/jobs/${job.id}`
  expect((await callApi('DELETE', address)).status).toBe(204)
  expect((await callApi('GET', address)).status).toBe(404)
  const body = { kind: 'job', job: job.id, id: job.id }
  await callApi('POST', '/api/bin/restore', { body })
  expect((await callApi('GET', address)).status).toBe(200)
})

test('a phone whose photo comes after its job went into the bin is told so, however often it has to ask', async () => {
  const job = await startJob()
  const address = `/api/jobs/${job.id}`
  await callApi('DELETE', address)
  const file = new File([new Uint8Array(await makePhoto())], 'late.jpg')
  for (let attempt = 0; attempt < 2; attempt += 1) {
    const body = new FormData()
    body.append('file', file)
    const answer = await callApi('POST', `${address}/photos`, {
      body,
      headers: { 'idempotency-key': 'late-photo-of-a-phone' },
    })
    expect(readOutcome(answer.status, await answer.text())).toMatchObject({
      kind: 'kept',
      message: expect.stringMatching(
        /The job “Pine dresser” is in the bin and goes for good .+, this photo with it: bring it back under Workshop\.$/,
      ) as unknown,
      twice: false,
    })
  }
})

test('what cannot be put in or taken out is told', async () => {
  const job = await startJob(['body'])
  const answers = [
    await callApi('DELETE', '/api/jobs/nobody'),
    await callApi('DELETE', `/api/jobs/${job.id}/pieces/nobody`),
    await callApi('DELETE', `/api/jobs/${job.id}/photos/nobody`),
    await callApi(
      'DELETE',
      `/api/jobs/${job.id}/surfaces/${job.surface('body')}`,
    ),
    await callApi('POST', '/api/bin/restore', {
      body: { kind: 'cupboard', job: job.id, id: job.id },
    }),
  ]
  expect(answers.map(({ status }) => status)).toEqual([404, 404, 404, 409, 400])
})
