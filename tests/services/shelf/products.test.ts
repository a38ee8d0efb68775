import { expect, test } from 'vitest'
import { instant } from '#core/units'
import {
  addProduct,
  changeProduct,
  readProduct,
} from '#services/shelf/products'
import { label, newProduct } from '#services/shelf/schema'
import { newStep } from '#services/steps/schema'
import { addStep } from '#services/steps/steps'
import { readJobTimeline } from '#services/timeline/timeline'
import { makeJob } from '../../support/make-job'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

test('a label that is corrected judges the waits that were there before anew', async () => {
  const now = instant(Date.parse('2026-10-22T08:00:00Z'))
  const job = await makeJob()
  const enamel = (recoatMinutes: number) =>
    newProduct.parse({
      name: 'waterborne enamel, moss',
      category: 'paint',
      chemistry: 'waterborne-acrylic',
      label: { recoatMinutes, reference: { celsius: 23, humidity: 50 } },
    })
  const { id } = await addProduct(enamel(60), now)
  for (const at of ['2026-10-22T09:00:00Z', '2026-10-22T10:30:00Z']) {
    await addStep(
      job.id,
      newStep.parse({
        kind: 'coat',
        surfaces: job.surfaceIds.slice(0, 1),
        product: id,
        startedAt: at,
        finishedAt: at,
      }),
      now,
    )
  }
  const verdict = async () =>
    (await readJobTimeline(job.id))?.timeline.lanes[0]?.checks[0]?.verdict
  expect(await verdict()).toBe('in-window')
  await changeProduct(id, enamel(120), now)
  expect(await verdict()).toBe('too-soon')
})

test('a label may name the temperature of its times without a humidity, or the other way round, and comes back so', async () => {
  const now = instant(Date.parse('2026-10-22T08:00:00Z'))
  for (const reference of [{ celsius: 20 }, { humidity: 65 }]) {
    const { id } = await addProduct(
      newProduct.parse({
        name: 'oil stain, walnut',
        category: 'stain',
        chemistry: 'oil-stain',
        label: { recoatMinutes: 1440, reference },
      }),
      now,
    )
    expect((await readProduct(id))?.label.reference).toEqual(reference)
  }
})

test('a label that names the air of its times names something of it', () => {
  expect(
    label.safeParse({ reference: {} }).error?.issues[0]?.message,
  ).toContain('or both')
})
