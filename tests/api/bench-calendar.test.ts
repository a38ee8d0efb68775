import ICAL from 'ical.js'
import { expect, test } from 'vitest'
import { now } from '#services/clock'
import {
  addSession,
  readDevices,
  revokeDevice,
} from '#services/devices/devices'
import { lanEnvironment } from '#services/devices/lan'
import { callApi } from '../support/api'
import { shelve, startJob, writeStep } from '../support/api-job'
import { useWorkshop } from '../support/workshop'

useWorkshop()

/** The moments of the calendar: the UID, the title and the time of each, and the place it leads to. */
async function moments() {
  const answer = await callApi('GET', '/api/bench.ics')
  expect(answer.status).toBe(200)
  expect(answer.headers.get('content-type')).toBe(
    'text/calendar; charset=utf-8',
  )
  const calendar = new ICAL.Component(
    ICAL.parse(await answer.text()) as unknown[],
  )
  return calendar.getAllSubcomponents('vevent').map((event) => {
    const value = (name: string) =>
      String(event.getFirstPropertyValue(name) ?? '')
    return {
      uid: value('uid'),
      title: value('summary'),
      at: Date.parse(value('dtstart')),
      url: value('url'),
    }
  })
}

test('the calendar holds what comes to pass on the bench, and a moment keeps its UID when its time moves', async () => {
  const job = await startJob()
  const label = { recoatMinutes: 120, recoatByMinutes: 2880, cureDays: 21 }
  const product = await shelve(label)
  // Nobody waits in a test: the coat went on an hour ago by the clock of the machine.
  const coated = Math.floor(Date.now() / 1000) * 1000 - 3_600_000
  await writeStep(job, {
    kind: 'coat',
    surfaces: [job.surface('body'), job.surface('top')],
    product,
    startedAt: new Date(coated).toISOString(),
    finishedAt: new Date(coated).toISOString(),
  })
  const before = await moments()
  const minutes = (after: number) => coated + after * 60_000
  expect(before.map(({ title, at }) => [title, at])).toEqual([
    ['dresser, body and top: ready for the next coat', minutes(120)],
    [
      'dresser, body and top: last moment for the next coat, then scuff first',
      minutes(2880),
    ],
    ['dresser, body and top: fully cured by the label', minutes(21 * 1440)],
  ])
  expect(before[0]?.url).toBe(`http://localhost:3000/jobs/${job.id}/timeline`)
  const slower = await callApi('PUT', `/api/products/${product}`, {
    body: {
      name: 'waterborne enamel, moss',
      category: 'paint',
      chemistry: 'waterborne-acrylic',
      label: { ...label, recoatMinutes: 240 },
    },
  })
  expect(slower.status).toBe(200)
  const after = await moments()
  expect(after[0]?.at).toBe(minutes(240))
  expect(after.map(({ uid }) => uid)).toEqual(before.map(({ uid }) => uid))
})

test('a calendar program on the network reads it by its secret address alone, until that is revoked', async () => {
  const host = '192.168.1.20:3443'
  Object.assign(
    process.env,
    lanEnvironment({ hosts: [host], fingerprint: '00' }),
  )
  try {
    const feed = await addSession('A calendar', 'calendar', now())
    const statusAt = async (address: string) => {
      const headers = { host, 'x-coatbook-door': 'network' }
      return (await callApi('GET', address, { headers })).status
    }
    expect(await statusAt('/api/bench.ics')).toBe(401)
    expect(await statusAt('/api/bench.ics?feed=guess')).toBe(401)
    expect(await statusAt(`/api/bench.ics?feed=${feed}`)).toBe(200)
    expect(await statusAt(`/api/bench?feed=${feed}`)).toBe(401)
    const [calendar] = await readDevices(now())
    await revokeDevice(calendar?.id ?? '')
    expect(await statusAt(`/api/bench.ics?feed=${feed}`)).toBe(401)
  } finally {
    delete process.env['COATBOOK_LAN']
  }
})
