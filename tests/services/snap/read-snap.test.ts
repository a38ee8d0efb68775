import { expect, test } from 'vitest'
import { instant } from '#core/units'
import { addProduct } from '#services/shelf/products'
import { newProduct } from '#services/shelf/schema'
import {
  readNewJob,
  readSnapJobs,
  readSnapTargets,
} from '#services/snap/read-snap'
import { newStep } from '#services/steps/schema'
import { addStep } from '#services/steps/steps'
import { makeJob, makeStep } from '../../support/make-job'
import { keepPhotoRow } from '../../support/photo-row'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const morning = instant(Date.parse('2026-10-22T08:00:00Z'))
const anHourOn = instant(Date.parse('2026-10-22T09:00:00Z'))
const evening = instant(Date.parse('2026-10-22T18:00:00Z'))

test('a job that was just started is photographed before anything is done to it', async () => {
  const job = await makeJob()
  expect(await readSnapTargets(morning, 12)).toEqual([])
  expect(await readNewJob()).toMatchObject({ id: job.id })
  expect(await readSnapJobs()).toMatchObject([{ id: job.id, isNew: true }])
})

test('a coat is in hand while it is wet, and its next coat once the label allows it', async () => {
  const job = await makeJob()
  const [body = ''] = job.surfaceIds
  const product = await addProduct(
    newProduct.parse({
      name: 'waterborne enamel, deep teal',
      category: 'paint',
      chemistry: 'waterborne-acrylic',
      label: { recoatMinutes: 120 },
    }),
    morning,
  )
  const step = await addStep(
    job.id,
    newStep.parse({
      kind: 'coat',
      surfaces: [body],
      product: product.id,
      grit: 320,
      startedAt: '2026-10-22T07:50:00Z',
      finishedAt: '2026-10-22T08:00:00Z',
    }),
    morning,
  )
  expect(step.ok).toBe(true)
  expect(await readSnapTargets(anHourOn, 12)).toMatchObject([
    { step: step.ok ? step.value.id : '', coat: 1, grit: 320 },
  ])
  const [next, last] = await readSnapTargets(evening, 12)
  expect(next).toMatchObject({ why: 'ready', coat: 2, grit: 320 })
  expect(last).toMatchObject({ why: 'last-used', coat: 1 })
  expect(await readNewJob()).toBeUndefined()
})

test('a card of old photos that came in just now is not what is in hand', async () => {
  const job = await makeJob()
  const [body = '', top = ''] = job.surfaceIds
  const old = await makeStep(job.id, 'liner', [body])
  await keepPhotoRow(job.id, {
    takenAt: '2026-09-20T11:02:00Z',
    stepId: old,
  })
  const sanding = await addStep(
    job.id,
    newStep.parse({ kind: 'sand', surfaces: [top] }),
    morning,
  )
  const targets = await readSnapTargets(anHourOn, 12)
  expect(targets.map(({ step, isOver }) => ({ step, isOver }))).toEqual([
    { step: sanding.ok ? sanding.value.id : '', isOver: false },
    { step: old, isOver: true },
  ])
  expect(targets[1]?.since).toBe(Date.parse('2026-09-20T11:02:00Z'))
})

test('a step is begun until it has an end or a photo', async () => {
  const job = await makeJob()
  const [body = ''] = job.surfaceIds
  const add = (times: Readonly<Record<string, string>>) =>
    addStep(
      job.id,
      newStep.parse({ kind: 'clean', surfaces: [body], ...times }),
      morning,
    )
  const startedAt = '2026-10-22T07:50:00Z'
  await add({ startedAt, finishedAt: '2026-10-22T07:55:00Z' })
  const begun = await add({ startedAt })
  const isBegun = async () =>
    new Map(
      (await readSnapTargets(morning, 12)).map((one) => [
        one.step,
        one.isBegun,
      ]),
    )
  const step = begun.ok ? begun.value.id : ''
  expect([...(await isBegun()).values()].toSorted()).toEqual([false, true])
  expect((await isBegun()).get(step)).toBe(true)
  await keepPhotoRow(job.id, { stepId: step })
  expect((await isBegun()).get(step)).toBe(false)
})
