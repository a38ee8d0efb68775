import { expect, test } from 'vitest'
import { renditionsIdle } from '#services/renditions/renditions'
import { callApi, memberOf, textOf } from '../support/api'
import { startJob } from '../support/api-job'
import { makePhoto } from '../support/make-photo'
import { photoForm } from '../support/send-photos'
import { useWorkshop } from '../support/workshop'

useWorkshop()

test('a photo is proposed for a place, placed there as proposed, and taken back', async () => {
  const job = await startJob()
  await callApi('POST', `/api/jobs/${job.id}/photos`, {
    body: photoForm([['a.jpg', await makePhoto()]]),
  })
  await renditionsIdle()
  const address = `/api/jobs/${job.id}/placing`
  const proposed = await callApi('GET', address)
  const photos = await memberOf(proposed, 'bursts', 0, 'photos')
  const place = await memberOf(proposed, 'bursts', 0, 'proposals', 0, 'place')
  expect(place).toEqual({ as: 'before' })

  const placed = await callApi('POST', address, {
    body: { choices: [{ photos, place }] },
  })
  expect(placed.status).toBe(201)
  expect(await memberOf(placed, 'photoCount')).toBe(1)
  expect(await memberOf(await callApi('GET', address), 'bursts')).toEqual([])

  const own = `${address}/${await textOf(placed, 'id')}`
  expect((await callApi('DELETE', own)).status).toBe(204)
  expect((await callApi('DELETE', own)).status).toBe(409)
  expect(await memberOf(await callApi('GET', address), 'bursts')).toHaveLength(
    1,
  )
})

test('a job that is not there has no proposals, and a place that is none is refused', async () => {
  expect((await callApi('GET', '/api/jobs/none/placing')).status).toBe(404)
  const job = await startJob()
  const refused = await callApi('POST', `/api/jobs/${job.id}/placing`, {
    body: { choices: [{ photos: ['x'], place: { as: 'somewhere' } }] },
  })
  expect(refused.status).toBe(400)
})
