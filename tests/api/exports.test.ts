import { parse } from 'csv-parse/sync'
import { describe, expect, test } from 'vitest'
import { callApi, memberOf } from '../support/api'
import { shelve, startJob, writeStep } from '../support/api-job'
import { useWorkshop } from '../support/workshop'

useWorkshop()

async function paintedJob() {
  const job = await startJob()
  const product = await shelve(
    { recoatMinutes: 60 },
    {
      pack: { amount: 1, unit: 'l', price: 3200 },
      link: 'https://shelf.example/moss',
    },
  )
  await writeStep(job, {
    kind: 'coat',
    surfaces: [job.surface('body')],
    product,
    amount: { value: 250, unit: 'ml' },
    startedAt: '2026-10-24T09:00:00Z',
    finishedAt: '2026-10-24T09:30:00Z',
  })
  return { job, product }
}

describe('the materials list', () => {
  test('has amounts, costs and links in every form', async () => {
    const { job, product } = await paintedJob()
    const json = await callApi('GET', `/api/jobs/${job.id}/materials.json`)
    // A quarter of a litre of a litre for 32.00.
    expect(await json.json()).toMatchObject({
      currency: 'GBP',
      materials: [
        {
          product: { id: product, name: 'waterborne enamel, moss' },
          amounts: [{ value: 250, unit: 'ml' }],
          cost: { minor: 800, complete: true },
          link: 'https://shelf.example/moss',
        },
      ],
      costMinor: 800,
    })
    const csv = await callApi('GET', `/api/jobs/${job.id}/materials.csv`)
    expect(csv.headers.get('content-type')).toBe(
      'text/csv; header=present; charset=utf-8',
    )
    const rows = parse(await csv.text())
    expect(rows).toHaveLength(2)
    expect(rows[1]).toContain('waterborne enamel, moss')
    expect(rows[1]).toContain('https://shelf.example/moss')
    const text = await callApi('GET', `/api/jobs/${job.id}/materials.txt`)
    expect(await text.text()).toContain('https://shelf.example/moss')
  })
})

describe.each(['listing', 'video', 'caption', 'care', 'report'])(
  'the %s',
  (name) => {
    test.each([
      [undefined, 'text/plain'],
      ['*/*', 'text/plain'],
      ['text/html, */*;q=0.8', 'text/plain'],
      ['application/json', 'application/json'],
      ['text/plain;q=0.5, application/json', 'application/json'],
      ['application/json;q=0.2, text/*', 'text/plain'],
    ])('asked for with Accept %s comes as %s', async (accept, type) => {
      const { job } = await paintedJob()
      const answer = await callApi(
        'GET',
        `/api/jobs/${job.id}/write-ups/${name}`,
        {
          headers: accept === undefined ? {} : { accept },
        },
      )
      expect(answer.headers.get('content-type')).toContain(type)
      expect(answer.headers.get('vary')).toBe('Accept')
    })

    test('rests every sentence about the job on facts of the journal', async () => {
      const { job } = await paintedJob()
      const address = `/api/jobs/${job.id}/write-ups/${name}`
      const text = await callApi('GET', address)
      const json = await callApi('GET', address, {
        headers: { accept: 'application/json' },
      })
      expect(await memberOf(json, 'text')).toBe(await text.text())
      expect(JSON.stringify(await json.json())).toContain('waterborne enamel')
    })
  },
)
