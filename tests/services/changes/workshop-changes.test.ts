import { expect, test } from 'vitest'
import { type Instant, addMinutes, instant } from '#core/units'
import { readCameras, setCameraClock } from '#services/cameras/cameras'
import { typePhotoTime } from '#services/cameras/photo-times'
import { readOfferedChanges } from '#services/changes/workshop-changes'
import { now } from '#services/clock'
import { database } from '#services/database/open-database'
import {
  addProduct,
  changeProduct,
  readProduct,
} from '#services/shelf/products'
import { newProduct } from '#services/shelf/schema'
import { newStep } from '#services/steps/schema'
import { addStep } from '#services/steps/steps'
import { callApi, memberOf, textOf } from '../../support/api'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const morning: Instant = instant(Date.parse('2026-10-22T08:00:00Z'))
const enamel = (recoatMinutes: number) =>
  newProduct.parse({
    name: 'enamel, deep teal',
    category: 'paint',
    chemistry: 'waterborne-acrylic',
    label: { recoatMinutes, recoatByMinutes: 1440 },
    pack: { amount: 0.75, unit: 'l', price: 3150 },
    packsBought: 2,
    link: 'https://shop.example/enamel',
    paidLink: true,
  })

/** The id of the latest change, and what undoing it is answered with. */
async function undoLast() {
  const listed = await callApi('GET', '/api/changes')
  const id = await textOf(listed, 'changes', 0, 'id')
  const answer = await callApi('DELETE', `/api/changes/${id}`)
  return {
    id,
    status: answer.status,
    detail: answer.ok ? '' : await textOf(answer, 'detail'),
  }
}

async function kinds() {
  const { changes } = (await (await callApi('GET', '/api/changes')).json()) as {
    readonly changes: readonly { readonly kind: string }[]
  }
  return changes.map(({ kind }) => kind)
}

test('a product that was changed is as it was, in every part, and its jobs are judged anew', async () => {
  const added = await addProduct(enamel(60), morning)
  const job = await makeJob()
  const step = newStep.parse({
    kind: 'coat',
    surfaces: job.surfaceIds.slice(0, 1),
    product: added.id,
  })
  await addStep(job.id, step, morning)
  const changed = newProduct.parse({
    name: 'another',
    category: 'primer',
    chemistry: 'shellac',
    label: {},
  })
  await changeProduct(added.id, changed, addMinutes(morning, 1))
  const db = await database()
  const revision = async () =>
    (await db.job.findUniqueOrThrow({ where: { id: job.id } })).revision
  const before = await revision()
  expect((await undoLast()).status).toBe(204)
  expect(await readProduct(added.id)).toEqual(added)
  expect(await revision()).toBeGreaterThan(before)
  // Undone once is undone.
  expect(await undoLast()).toMatchObject({
    status: 409,
    detail: 'It has been undone already.',
  })
})

test('what was saved as it stood is no change', async () => {
  const { id } = await addProduct(enamel(60), morning)
  await changeProduct(id, enamel(60), addMinutes(morning, 1))
  expect(await kinds()).toEqual(['product-added'])
})

test('a change under a later one waits for it, and a product that was used stays', async () => {
  const { id } = await addProduct(enamel(60), morning)
  await changeProduct(id, enamel(90), addMinutes(morning, 1))
  await changeProduct(id, enamel(120), addMinutes(morning, 2))
  const listed = await callApi('GET', '/api/changes')
  const middle = await textOf(listed, 'changes', 1, 'id')
  const early = await callApi('DELETE', `/api/changes/${middle}`)
  expect(early.status).toBe(409)
  expect(await textOf(early, 'detail')).toMatch(/changed again since/)
  expect((await undoLast()).status).toBe(204)
  expect((await callApi('DELETE', `/api/changes/${middle}`)).status).toBe(204)
  expect((await readProduct(id))?.label.recoatMinutes).toBe(60)

  const first = await textOf(listed, 'changes', 2, 'id')
  const job = await makeJob()
  const step = newStep.parse({
    kind: 'coat',
    surfaces: job.surfaceIds,
    product: id,
  })
  const done = await addStep(job.id, step, morning)
  const used = await callApi('DELETE', `/api/changes/${first}`)
  expect(used.status).toBe(409)
  expect(await textOf(used, 'detail')).toMatch(/work was done with the product/)
  expect(await readOfferedChanges(['product-added'], morning)).toEqual([])
  if (!done.ok) throw new Error(done.refusal.detail)
  await callApi('DELETE', `/api/jobs/${job.id}/steps/${done.value.id}`)
  expect((await callApi('DELETE', `/api/changes/${first}`)).status).toBe(204)
  expect(await readProduct(id)).toBeUndefined()
})

test('with a camera’s clock go the times of its photos, and those that were typed stay', async () => {
  const job = await makeJob()
  const taken = { make: 'Acorn', model: 'One', taken: '2026:10:22 09:00:00' }
  const { photos } = await sendPhotos(job.id, [
    ['a.jpg', await makePhoto({ ...taken, width: 70 })],
    ['b.jpg', await makePhoto({ ...taken, width: 71 })],
  ])
  const [byClock = '', byHand = ''] = photos.map(({ id }) => id)
  const typed = instant(Date.parse('2026-10-20T10:00:00Z'))
  await typePhotoTime(byHand, { at: typed })
  const db = await database()
  const times = async () => {
    const rows = await db.photo.findMany({
      orderBy: { id: 'asc' },
      select: {
        id: true,
        takenAt: true,
        takenEarliest: true,
        takenLatest: true,
        warnings: true,
      },
    })
    return rows
  }
  const before = await times()
  const [camera] = await readCameras()
  const clock = { correctionSeconds: 3600, uncertaintySeconds: 30 }
  await setCameraClock(camera?.id ?? '', clock)
  const corrected = await times()
  const at = (id: string) => corrected.find((row) => row.id === id)?.takenAt
  expect(at(byClock)).toEqual(new Date('2026-10-22T09:00:00Z'))
  expect(at(byHand)).toEqual(new Date(typed))
  await setCameraClock(camera?.id ?? '', { ...clock, correctionSeconds: 60 })
  expect(await kinds()).toEqual(['clock-set', 'clock-set'])
  const offered = await readOfferedChanges(['clock-set'], now())
  expect(offered).toHaveLength(1)
  expect((await undoLast()).status).toBe(204)
  expect(await times()).toEqual(corrected)
  const listed = await callApi('GET', '/api/changes')
  expect(await memberOf(listed, 'changes', 0, 'cameras')).toEqual([camera?.id])
  const first = await textOf(listed, 'changes', 1, 'id')
  expect((await callApi('DELETE', `/api/changes/${first}`)).status).toBe(204)
  expect(await times()).toEqual(before)
  expect((await readCameras())[0]?.clock).toBeUndefined()
})

test('a change of a job is not undone as one of the workshop, nor one that there is not', async () => {
  expect((await callApi('DELETE', '/api/changes/nothing')).status).toBe(404)
  const job = await makeJob()
  const step = newStep.parse({ kind: 'sand', surfaces: job.surfaceIds })
  await addStep(job.id, step, morning)
  const listed = await callApi('GET', `/api/jobs/${job.id}/changes`)
  const id = await textOf(listed, 'changes', 0, 'id')
  expect((await callApi('DELETE', `/api/changes/${id}`)).status).toBe(404)
  expect(await kinds()).toEqual([])
})
