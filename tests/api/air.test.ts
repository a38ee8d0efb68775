import { describe, expect, test } from 'vitest'
import { instant } from '#core/units'
import { readAir } from '#services/air/air'
import { callApi, memberOf, textOf } from '../support/api'
import { useWorkshop } from '../support/workshop'

useWorkshop()

const csv = { 'content-type': 'text/csv' }

function keptAir() {
  return readAir(instant(0), instant(Date.parse('2100-01-01T00:00:00Z')))
}

describe('readings of the air', () => {
  test('one comes as an object, many as an array, and the later one counts', async () => {
    const one = { at: '2026-10-24T09:00:00Z', celsius: 20, humidity: 50 }
    const first = await callApi('POST', '/api/air', { body: one })
    expect(first.status).toBe(201)
    expect(await first.json()).toEqual({ kept: 1, warnings: [] })
    const many = await callApi('POST', '/api/air', {
      body: [
        { ...one, at: '2026-10-24T11:00:00+01:00' },
        { ...one, celsius: 21 },
      ],
    })
    expect(await memberOf(many, 'kept')).toBe(2)
    expect(await keptAir()).toEqual([
      { at: Date.parse('2026-10-24T09:00:00Z'), celsius: 21, humidity: 50 },
      { at: Date.parse('2026-10-24T10:00:00Z'), celsius: 20, humidity: 50 },
    ])
  })

  test('a moment that comes twice, and one that is still to come, are said', async () => {
    const answer = await callApi('POST', '/api/air', {
      body: [
        { at: '2099-01-01T00:00:00Z', celsius: 20, humidity: 50 },
        { at: '2099-01-01T00:00:00Z', celsius: 21, humidity: 50 },
      ],
    })
    expect(await memberOf(answer, 'kept')).toBe(1)
    expect(await memberOf(answer, 'warnings')).toEqual([
      expect.stringMatching(/twice/),
      expect.stringMatching(/future/),
    ])
  })

  test.each([
    ['no readings', [], ''],
    [
      'air in °F',
      { at: '2026-10-24T09:00:00Z', celsius: 72, humidity: 50 },
      'celsius',
    ],
    [
      'air drier than dry',
      [{ at: '2026-10-24T09:00:00Z', celsius: 20, humidity: 0 }],
      '0.humidity',
    ],
    [
      'a time without an offset',
      { at: '2026-10-24 09:00', celsius: 20, humidity: 50 },
      'at',
    ],
    ['text', 'damp', ''],
  ])('%s are refused, and the field is named', async (_, body, field) => {
    const answer = await callApi('POST', '/api/air', {
      body: JSON.stringify(body),
    })
    expect(answer.status).toBe(400)
    expect(await memberOf(answer, 'errors', 0, 'path')).toBe(field)
    expect(await keptAir()).toEqual([])
  })

  test('a logger’s file is read in the workshop’s zone', async () => {
    const answer = await callApi('POST', '/api/air', {
      headers: csv,
      body: 'Time,Temperature (°C),Relative humidity (%)\n2026-10-24 10:00,20.5,51\n2026-10-24 10:30,20.7,50.5\n',
    })
    expect(answer.status).toBe(201)
    expect(await answer.json()).toEqual({ kept: 2, warnings: [] })
    expect(await keptAir()).toEqual([
      { at: Date.parse('2026-10-24T09:00:00Z'), celsius: 20.5, humidity: 51 },
      { at: Date.parse('2026-10-24T09:30:00Z'), celsius: 20.7, humidity: 50.5 },
    ])
  })

  test('a file that cannot be understood is refused with what to do', async () => {
    const answer = await callApi('POST', '/api/air', {
      headers: csv,
      body: 'a,b,c\n1,2,3\n',
    })
    expect(answer.status).toBe(400)
    expect(await textOf(answer, 'detail')).toMatch(/header such as/)
  })

  const twoWays =
    'Time,Temperature (°F),RH (%)\n03/11/2026 10:00,68,50\n03/11/2026 10:30,68,51\n'

  test('a file whose dates can be read in two ways is refused, and `order` settles it', async () => {
    const refused = await callApi('POST', '/api/air', {
      headers: csv,
      body: twoWays,
    })
    expect(refused.status).toBe(400)
    expect(await memberOf(refused, 'errors', 0, 'path')).toBe('order')
    expect(await keptAir()).toEqual([])
    const kept = await callApi('POST', '/api/air?order=month-first', {
      headers: csv,
      body: twoWays,
    })
    expect(kept.status).toBe(201)
    expect((await keptAir()).map((reading) => reading.at)).toEqual([
      Date.parse('2026-03-11T10:00:00Z'),
      Date.parse('2026-03-11T10:30:00Z'),
    ])
  })

  test('an order that is none is refused', async () => {
    const answer = await callApi('POST', '/api/air?order=year-first', {
      headers: csv,
      body: twoWays,
    })
    expect(answer.status).toBe(400)
    expect(await memberOf(answer, 'errors', 0, 'path')).toBe('order')
  })
})
