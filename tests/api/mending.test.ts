import { describe, expect, test } from 'vitest'
import { callApi, memberOf, textOf } from '../support/api'
import { type ApiJob, startJob, writeStep } from '../support/api-job'
import { makePhoto } from '../support/make-photo'
import { sendPhotos } from '../support/send-photos'
import { useWorkshop } from '../support/workshop'

useWorkshop()

const paint = (job: ApiJob, hour: string, more = {}) =>
  writeStep(job, {
    kind: 'coat',
    surfaces: [job.surface('top')],
    startedAt: `2026-10-24T${hour}:00Z`,
    finishedAt: `2026-10-24T${hour}:30Z`,
    ...more,
  })

/** The steps of the top as the timeline has them: kind and coat. */
async function topOf(job: ApiJob) {
  const answer = await callApi('GET', `/api/jobs/${job.id}/timeline`)
  const steps = await memberOf(answer, 'lanes', 1, 'steps')
  return Array.isArray(steps)
    ? steps.map((step: { id: string; coat: number | null }) => [
        step.id,
        step.coat,
      ])
    : []
}

async function undoLast(job: ApiJob) {
  const answer = await callApi('GET', `/api/jobs/${job.id}/changes`)
  const id = await textOf(answer, 'changes', 0, 'id')
  return (await callApi('DELETE', `/api/jobs/${job.id}/changes/${id}`)).status
}

describe('a coat that was put in between', () => {
  test('has the later ones numbered anew, and that is undone as one change', async () => {
    const job = await startJob()
    const first = await paint(job, '08:00')
    const second = await paint(job, '16:00')
    const between = await paint(job, '12:00')
    const was = [
      [first, 1],
      [between, 3],
      [second, 2],
    ]
    expect(await topOf(job)).toEqual(was)
    const answer = await callApi('POST', `/api/jobs/${job.id}/renumbering`, {
      body: { kind: 'coat', surfaces: [job.surface('top')] },
    })
    expect(answer.status).toBe(200)
    expect(await memberOf(answer, 'renumbered')).toEqual([
      { step: between, surface: job.surface('top'), was: 3, coat: 2 },
      { step: second, surface: job.surface('top'), was: 2, coat: 3 },
    ])
    expect(await topOf(job)).toEqual([
      [first, 1],
      [between, 2],
      [second, 3],
    ])
    expect(await undoLast(job)).toBe(204)
    expect(await topOf(job)).toEqual(was)
  })

  test('numbering what is right already changes nothing and is no change', async () => {
    const job = await startJob()
    await paint(job, '08:00')
    const answer = await callApi('POST', `/api/jobs/${job.id}/renumbering`, {
      body: { kind: 'coat', surfaces: [job.surface('top')] },
    })
    expect(await memberOf(answer, 'renumbered')).toEqual([])
    const changes = await callApi('GET', `/api/jobs/${job.id}/changes`)
    expect(await memberOf(changes, 'changes')).toMatchObject([
      { kind: 'added', undoneAt: null },
    ])
  })
})

describe('the order of steps', () => {
  const move = (job: ApiJob, step: string, toward: string) =>
    callApi('POST', `/api/jobs/${job.id}/steps/${step}/place`, {
      body: { surface: job.surface('top'), toward },
    })

  test('is the owner’s where no time tells it, and can be undone', async () => {
    const job = await startJob()
    const ids: string[] = []
    for (const kind of ['clean', 'sand']) {
      ids.push(await writeStep(job, { kind, surfaces: [job.surface('top')] }))
    }
    const [clean = '', sand = ''] = ids
    const order = async () => (await topOf(job)).map(([id]) => id)
    expect(await order()).toEqual([clean, sand])
    expect((await move(job, sand, 'earlier')).status).toBe(204)
    expect(await order()).toEqual([sand, clean])
    expect((await move(job, sand, 'earlier')).status).toBe(404)
    expect(await undoLast(job)).toBe(204)
    expect(await order()).toEqual([clean, sand])
    expect((await move(job, clean, 'later')).status).toBe(204)
    expect(await order()).toEqual([sand, clean])
  })

  test('is refused where times tell it', async () => {
    const job = await startJob()
    await paint(job, '08:00')
    const second = await paint(job, '16:00')
    expect((await move(job, second, 'earlier')).status).toBe(409)
  })
})

describe('a photo', () => {
  async function withPhoto() {
    const job = await startJob()
    const bytes = await makePhoto({ width: 64 })
    const { photos } = await sendPhotos(job.id, [['a.jpg', bytes]])
    return { job, photo: photos[0]?.id ?? '' }
  }

  test('gets another time and another step, and both are undone', async () => {
    const { job, photo } = await withPhoto()
    const step = await writeStep(job, {
      kind: 'sand',
      surfaces: [job.surface('top')],
    })
    const answer = await callApi(
      'PATCH',
      `/api/jobs/${job.id}/photos/${photo}`,
      {
        body: {
          step,
          taken: { at: '2026-10-24T09:00:00Z', uncertaintySeconds: 300 },
        },
      },
    )
    expect(answer.status).toBe(204)
    const stepOf = async () => {
      const timeline = await callApi('GET', `/api/jobs/${job.id}/timeline`)
      return memberOf(timeline, 'lanes', 1, 'steps', 0)
    }
    expect(await stepOf()).toMatchObject({
      photos: [photo],
      startedAt: '2026-10-24T09:00:00.000Z',
    })
    expect(await undoLast(job)).toBe(204)
    expect(await stepOf()).not.toMatchObject({
      startedAt: '2026-10-24T09:00:00.000Z',
    })
  })

  test('whose time cannot be is left as it is in every other part too', async () => {
    const { job, photo } = await withPhoto()
    const answer = await callApi(
      'PATCH',
      `/api/jobs/${job.id}/photos/${photo}`,
      { body: { role: 'before', taken: { at: '2200-01-01T00:00:00Z' } } },
    )
    expect(answer.status).toBe(400)
    const changes = await callApi('GET', `/api/jobs/${job.id}/changes`)
    expect(await memberOf(changes, 'changes')).toEqual([])
  })

  test('with nothing to mend, or of another job, is told', async () => {
    const { job, photo } = await withPhoto()
    const other = await startJob()
    const patch = async (id: string, body: object) =>
      (await callApi('PATCH', `/api/jobs/${id}/photos/${photo}`, { body }))
        .status
    expect(await patch(job.id, {})).toBe(400)
    expect(await patch(other.id, { role: 'before' })).toBe(404)
    expect(await patch(job.id, { taken: { at: '1890-01-01T00:00:00Z' } })).toBe(
      400,
    )
  })
})

test('a change of another job, or one undone before, cannot be undone', async () => {
  const job = await startJob()
  const other = await startJob()
  await paint(job, '08:00')
  const answer = await callApi('GET', `/api/jobs/${job.id}/changes`)
  const id = await textOf(answer, 'changes', 0, 'id')
  const undo = async (inJob: string) =>
    (await callApi('DELETE', `/api/jobs/${inJob}/changes/${id}`)).status
  expect(await undo(other.id)).toBe(404)
  expect(await undo(job.id)).toBe(204)
  expect(await undo(job.id)).toBe(409)
  expect((await callApi('GET', '/api/jobs/nobody/changes')).status).toBe(404)
})
