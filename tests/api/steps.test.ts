import { describe, expect, test } from 'vitest'
import { callApi, memberOf, textOf } from '../support/api'
import { shelve, startJob, writeStep } from '../support/api-job'
import { useWorkshop } from '../support/workshop'

useWorkshop()

describe('writing down a step', () => {
  test('each surface gets its next coat of the kind', async () => {
    const job = await startJob()
    await writeStep(job, { kind: 'prime', surfaces: [job.surface('body')] })
    const answer = await callApi('POST', `/api/jobs/${job.id}/steps`, {
      body: {
        kind: 'prime',
        surfaces: [job.surface('body'), job.surface('top')],
        startedAt: '2026-10-24T10:10:44+01:00',
      },
    })
    expect(answer.status).toBe(201)
    expect(await memberOf(answer, 'startedAt')).toBe('2026-10-24T09:10:44.000Z')
    const surfaces = await memberOf(answer, 'surfaces')
    expect(surfaces).toEqual(
      expect.arrayContaining([
        { id: job.surface('body'), coat: 2 },
        { id: job.surface('top'), coat: 1 },
      ]),
    )
  })

  test('an amount without a unit is litres', async () => {
    const job = await startJob()
    const product = await shelve(
      { recoatMinutes: 60 },
      { pack: { amount: 2, unit: 'l', price: 3000 } },
    )
    await writeStep(job, {
      kind: 'coat',
      surfaces: [job.surface('body')],
      product,
      amount: 0.5,
    })
    const list = await callApi('GET', `/api/jobs/${job.id}/materials.json`)
    expect(await memberOf(list, 'materials', 0, 'amounts')).toEqual([
      { value: 0.5, unit: 'l' },
    ])
    // Half a litre of a pack of two for 30.00.
    expect(await memberOf(list, 'costMinor')).toBe(750)
  })

  test('can be changed and taken out again', async () => {
    const job = await startJob()
    const id = await writeStep(job, {
      kind: 'coat',
      surfaces: [job.surface('body')],
    })
    const address = `/api/jobs/${job.id}/steps/${id}`
    const changed = await callApi('PUT', address, {
      body: { kind: 'seal', surfaces: [job.surface('top')] },
    })
    expect(await changed.clone().json()).toMatchObject({
      id,
      kind: 'seal',
      surfaces: [{ id: job.surface('top'), coat: 1 }],
    })
    const read = await callApi('GET', address)
    expect(await read.json()).toEqual(await changed.json())
    expect((await callApi('DELETE', address)).status).toBe(204)
    expect((await callApi('GET', address)).status).toBe(404)
    expect((await callApi('DELETE', address)).status).toBe(404)
    const gone = await callApi('PUT', address, {
      body: { kind: 'seal', surfaces: [job.surface('top')] },
    })
    expect(gone.status).toBe(404)
  })

  test.each([
    ['a kind that there is none of', { kind: 'paint' }, 'kind'],
    ['no surface', { surfaces: [] }, 'surfaces'],
    ['a coat before the first', { coat: 0 }, 'coat'],
    ['half a coat', { coat: 1.5 }, 'coat'],
    [
      'a time without an offset',
      { startedAt: '2026-10-24T10:00:00' },
      'startedAt',
    ],
    [
      'a day that is not there',
      { startedAt: '2026-02-30T10:00:00Z' },
      'startedAt',
    ],
    [
      'a time that is still to come',
      { finishedAt: '2226-02-03T10:00:00Z' },
      'finishedAt',
    ],
    [
      'an end before the start',
      {
        startedAt: '2026-10-24T10:00:00Z',
        finishedAt: '2026-10-24T09:00:00Z',
      },
      'finishedAt',
    ],
    ['thinning as text', { thinningPercent: 'a little' }, 'thinningPercent'],
    [
      'an amount in pints',
      { amount: { value: 1, unit: 'pint' } },
      'amount.unit',
    ],
    ['an amount in words', { amount: 'half a can' }, 'amount'],
    ['a method that there is none of', { method: 'pour' }, 'method'],
    ['a grit that there is none of', { grit: 1 }, 'grit'],
  ])('%s is refused, and the field is named', async (_, wrong, field) => {
    const job = await startJob()
    const answer = await callApi('POST', `/api/jobs/${job.id}/steps`, {
      body: { kind: 'coat', surfaces: [job.surface('body')], ...wrong },
    })
    expect(answer.status).toBe(400)
    expect(await memberOf(answer, 'errors', 0, 'path')).toBe(field)
  })

  test.each([
    ['a surface', (other: string) => ({ surfaces: [other] }), /surface/],
    ['a product', () => ({ product: 'nowhere' }), /shelf/],
    ['a photo', () => ({ photos: ['nowhere'] }), /photo/],
  ])(
    '%s that is not of this job is refused, and nothing is kept',
    async (_, wrong, said) => {
      const other = await startJob()
      const job = await startJob()
      const answer = await callApi('POST', `/api/jobs/${job.id}/steps`, {
        body: {
          kind: 'coat',
          surfaces: [job.surface('body')],
          ...wrong(other.surface('body')),
        },
      })
      expect(answer.status).toBe(400)
      expect(await textOf(answer, 'detail')).toMatch(said)
      const timeline = await callApi('GET', `/api/jobs/${job.id}/timeline`)
      expect(await memberOf(timeline, 'lanes', 0, 'steps')).toEqual([])
    },
  )

  test('a job that is not there gets no step', async () => {
    const job = await startJob()
    const answer = await callApi('POST', '/api/jobs/nowhere/steps', {
      body: { kind: 'coat', surfaces: [job.surface('body')] },
    })
    expect(answer.status).toBe(404)
  })
})
