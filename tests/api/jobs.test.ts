import { describe, expect, test } from 'vitest'
import { callApi, memberOf, textOf } from '../support/api'
import { useWorkshop } from '../support/workshop'

useWorkshop()

const dresser = {
  title: 'Pine dresser',
  pieces: [
    {
      name: 'dresser',
      kind: 'chest of drawers',
      dimensions: { width: 91.4, depth: 45, height: 81.3, unit: 'cm' },
      surfaces: ['body', 'top', 'drawer fronts'],
    },
  ],
}

describe('starting a job', () => {
  test('answers with an id for the job, each piece and each surface', async () => {
    const answer = await callApi('POST', '/api/jobs', { body: dresser })
    expect(answer.status).toBe(201)
    expect(await answer.clone().json()).toMatchObject({
      title: 'Pine dresser',
      finishedAt: null,
      pieces: [
        {
          name: 'dresser',
          kind: 'chest of drawers',
          surfaces: [
            { name: 'body' },
            { name: 'top' },
            { name: 'drawer fronts' },
          ],
        },
      ],
    })
    const again = await callApi(
      'GET',
      `/api/jobs/${await textOf(answer, 'id')}`,
    )
    expect(again.status).toBe(200)
    expect(await again.json()).toEqual(await answer.json())
  })

  test('with a text that could be kept only in part is refused', async () => {
    const cut = { ...dresser, title: 'Pine\0dresser' }
    const answer = await callApi('POST', '/api/jobs', { body: cut })
    expect(answer.status).toBe(400)
    expect(await textOf(answer, 'detail')).toContain('U+0000')
    // The same six letters behind a backslash are text like any other.
    const letters = { ...dresser, title: 'Pine \\u0000 dresser' }
    const kept = await callApi('POST', '/api/jobs', { body: letters })
    expect(await textOf(kept, 'title')).toBe('Pine \\u0000 dresser')
  })

  test.each([
    ['no title', { pieces: dresser.pieces }, 'title'],
    ['a blank title', { ...dresser, title: '  ' }, 'title'],
    [
      'a title that never ends',
      { ...dresser, title: 'x'.repeat(121) },
      'title',
    ],
    ['no pieces', { title: 'Dresser', pieces: [] }, 'pieces'],
    ['pieces that are no list', { title: 'Dresser', pieces: 'one' }, 'pieces'],
    [
      'a piece without surfaces',
      { title: 'Dresser', pieces: [{ name: 'd', kind: 'd', surfaces: [] }] },
      'pieces.0.surfaces',
    ],
    [
      'two surfaces of one name',
      {
        title: 'Dresser',
        pieces: [{ name: 'd', kind: 'd', surfaces: ['Top', 'top'] }],
      },
      'pieces.0.surfaces',
    ],
    [
      'a size below nothing',
      {
        title: 'Dresser',
        pieces: [
          {
            name: 'd',
            kind: 'd',
            surfaces: ['top'],
            dimensions: { width: -1 },
          },
        ],
      },
      'pieces.0.dimensions.width',
    ],
    ['nothing but a number', 7, ''],
    ['null', null, ''],
  ])('%s is refused, and the field is named', async (_, body, field) => {
    const answer = await callApi('POST', '/api/jobs', { body })
    expect(answer.status).toBe(400)
    expect(await memberOf(answer, 'errors', 0, 'path')).toBe(field)
    expect(await textOf(answer, 'detail')).toMatch(/\w/)
    const list = await callApi('GET', '/api/jobs')
    expect(await memberOf(list, 'jobs')).toEqual([])
  })

  test.each([
    ['half of an object', '{"title":'],
    ['nothing at all', ''],
    ['a form', 'title=Dresser'],
  ])('a body that is %s is refused as no JSON', async (_, body) => {
    const answer = await callApi('POST', '/api/jobs', { body })
    expect(answer.status).toBe(400)
    expect(await textOf(answer, 'detail')).toMatch(/not JSON/)
  })

  test('a body over a megabyte is turned away', async () => {
    const answer = await callApi('POST', '/api/jobs', {
      body: { title: 'x'.repeat(1_000_001) },
    })
    expect(answer.status).toBe(413)
  })
})

describe('the list of jobs', () => {
  test('comes a page at a time, and every job once', async () => {
    const started: string[] = []
    for (let n = 0; n < 5; n += 1) {
      const answer = await callApi('POST', '/api/jobs', {
        body: { ...dresser, title: `Dresser ${n}` },
      })
      started.push(await textOf(answer, 'id'))
    }
    const listed: unknown[] = []
    let address = '/api/jobs?size=2'
    for (let page = 0; page < 3; page += 1) {
      const answer = await callApi('GET', address)
      listed.push(
        await memberOf(answer, 'jobs', 0, 'id'),
        await memberOf(answer, 'jobs', 1, 'id'),
      )
      const next = await memberOf(answer, 'next')
      if (page === 2) expect(next).toBeUndefined()
      else address = `/api/jobs?size=2&after=${String(next)}`
    }
    const ids = listed.filter((id) => id !== undefined)
    expect(ids).toHaveLength(5)
    expect(new Set(ids)).toEqual(new Set(started))
  })

  test.each(['0', '101', 'many', '2.5'])(
    'a page of %s jobs is refused',
    async (size) => {
      const answer = await callApi('GET', `/api/jobs?size=${size}`)
      expect(answer.status).toBe(400)
      expect(await memberOf(answer, 'errors', 0, 'path')).toBe('size')
    },
  )

  test('a page after a job that is not there is refused', async () => {
    const answer = await callApi('GET', '/api/jobs?after=nowhere')
    expect(answer.status).toBe(400)
  })
})
