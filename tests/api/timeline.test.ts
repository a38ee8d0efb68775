import { describe, expect, test } from 'vitest'
import { callApi, memberOf } from '../support/api'
import { checksOn, shelve, startJob, writeStep } from '../support/api-job'
import { useWorkshop } from '../support/workshop'

useWorkshop()

const label = {
  recoatMinutes: 60,
  reference: { celsius: 23, humidity: 50 },
}

async function twoCoats(firstEnds: string, secondStarts: string) {
  const job = await startJob()
  const product = await shelve(label)
  const surfaces = [job.surface('body')]
  const first = await writeStep(job, {
    kind: 'coat',
    surfaces,
    product,
    startedAt: firstEnds,
    finishedAt: firstEnds,
  })
  const second = await writeStep(job, {
    kind: 'coat',
    surfaces,
    product,
    startedAt: secondStarts,
    finishedAt: secondStarts,
  })
  return { job, first, second }
}

describe('the timeline', () => {
  test('38 minutes where the label asks 60 are too soon', async () => {
    const { job, first, second } = await twoCoats(
      '2026-10-24T09:25:00Z',
      '2026-10-24T10:03:00Z',
    )
    const checks = await checksOn(job, 'body')
    expect(checks).toHaveLength(1)
    expect(checks[0]).toMatchObject({
      from: first,
      to: second,
      purpose: 'recoat',
      elapsedMinutes: { low: 38, high: 38 },
      labelMinutes: { min: 60, max: null },
      verdict: 'too-soon',
    })
  })

  test('an hour of waiting over the end of daylight saving is an hour', async () => {
    const { job } = await twoCoats(
      '2026-10-25T01:30:00+01:00',
      '2026-10-25T01:30:00+00:00',
    )
    expect(await checksOn(job, 'body')).toMatchObject([
      { elapsedMinutes: { low: 60, high: 60 }, verdict: 'in-window' },
    ])
  })

  test('in colder and damper air than the label’s the wait grows, and never falls under the label', async () => {
    const { job } = await twoCoats(
      '2026-10-24T09:00:00Z',
      '2026-10-24T10:10:00Z',
    )
    expect(await checksOn(job, 'body')).toMatchObject([
      { requiredMinutes: 60, verdict: 'in-window' },
    ])
    const air = await callApi('POST', '/api/air', {
      body: ['2026-10-24T08:00:00Z', '2026-10-24T14:00:00Z'].map((at) => ({
        at,
        celsius: 15,
        humidity: 70,
      })),
    })
    expect(air.status).toBe(201)
    const [check] = await checksOn(job, 'body')
    expect(check).toMatchObject({ verdict: 'too-soon' })
    const required: unknown =
      typeof check === 'object' && check !== null
        ? Reflect.get(check, 'requiredMinutes')
        : undefined
    // By the deficits of vapour pressure at 23 °C and 50 %, and at 15 °C and 70 %: 1401.9 Pa / 510.6 Pa = 2.7456
    // (Alduchov and Eskridge, J. Appl. Meteor. 35 (1996) 601-609, for the saturation pressures).
    expect(required).toBeCloseTo(60 * 2.7456, 1)
  })

  test('says what comes next, with null where the label does not say', async () => {
    const { job, second } = await twoCoats(
      '2026-10-24T09:00:00Z',
      '2026-10-24T11:00:00Z',
    )
    const answer = await callApi('GET', `/api/jobs/${job.id}/timeline`)
    expect(await memberOf(answer, 'lanes', 0, 'next')).toMatchObject({
      step: second,
      readyAt: '2026-10-24T12:00:00.000Z',
      readyEarliest: '2026-10-24T12:00:00.000Z',
      recoatBy: null,
      curedBy: null,
    })
    expect(await memberOf(answer, 'lanes', 1, 'next')).toBeNull()
  })

  test('a step that nothing dates is shown without a time, and said', async () => {
    const job = await startJob()
    await writeStep(job, { kind: 'clean', surfaces: [job.surface('top')] })
    const answer = await callApi('GET', `/api/jobs/${job.id}/timeline`)
    expect(await memberOf(answer, 'lanes', 1, 'steps', 0)).toMatchObject({
      kind: 'clean',
      coat: null,
      startedAt: null,
      finishedAt: null,
      photos: [],
    })
    expect(await memberOf(answer, 'warnings', 0, 'kind')).toBe('no-time')
  })
})

describe('the bench', () => {
  async function groupsAt(at: string) {
    const answer = await callApi('GET', `/api/bench?at=${at}`)
    expect(answer.status).toBe(200)
    const found: string[] = []
    for (const group of ['wet', 'ready', 'closing', 'past', 'unknown']) {
      const entries = await memberOf(answer, group)
      if (Array.isArray(entries) && entries.length > 0) found.push(group)
    }
    return found
  }

  test('a coat is wet until its label time is over, then ready, then closing, then past', async () => {
    const job = await startJob()
    const product = await shelve({ ...label, recoatByMinutes: 3 * 1440 })
    await writeStep(job, {
      kind: 'coat',
      surfaces: [job.surface('body')],
      product,
      startedAt: '2026-10-24T09:00:00Z',
      finishedAt: '2026-10-24T09:00:00Z',
    })
    expect(await groupsAt('2026-10-24T09:59:00Z')).toEqual(['wet'])
    expect(await groupsAt('2026-10-24T10:01:00Z')).toEqual(['ready'])
    expect(await groupsAt('2026-10-26T10:00:00Z')).toEqual(['closing'])
    expect(await groupsAt('2026-10-27T10:00:00Z')).toEqual(['past'])
  })

  test('can be cut to the most pressing of each list, and says how many there are', async () => {
    const job = await startJob(['top', 'body', 'legs'])
    const product = await shelve(label)
    for (const [hour, surface] of ['top', 'body', 'legs'].entries()) {
      const at = `2026-10-24T0${hour + 1}:00:00Z`
      await writeStep(job, {
        kind: 'coat',
        surfaces: [job.surface(surface)],
        product,
        startedAt: at,
        finishedAt: at,
      })
    }
    const answer = await callApi(
      'GET',
      '/api/bench?at=2026-10-24T01:30:00Z&size=1',
    )
    expect(await memberOf(answer, 'wet', 0, 'surface', 'name')).toBe('top')
    expect(await memberOf(answer, 'wet', 1)).toBeUndefined()
    expect(await memberOf(answer, 'counts', 'wet')).toBe(3)
    expect((await callApi('GET', '/api/bench?size=0')).status).toBe(400)
  })

  test('a plus sign that was not escaped is an offset all the same', async () => {
    const answer = await callApi(
      'GET',
      '/api/bench?at=2026-10-24T10:00:00+01:00',
    )
    expect(await memberOf(answer, 'at')).toBe('2026-10-24T09:00:00.000Z')
  })

  test.each(['yesterday', '2026-10-24', '2026-10-24T10:00:00'])(
    'as of "%s" is refused',
    async (at) => {
      const answer = await callApi('GET', `/api/bench?at=${at}`)
      expect(answer.status).toBe(400)
      expect(await memberOf(answer, 'errors', 0, 'path')).toBe('at')
    },
  )
})
