import { describe, expect, test } from 'vitest'
import { addMinutes, instant } from '#core/units'
import { addAir } from '#services/air/air'
import { readBench } from '#services/bench/bench'
import { finishJob } from '#services/jobs/hand-over-job'
import { addProduct } from '#services/shelf/products'
import { newProduct } from '#services/shelf/schema'
import { newStep } from '#services/steps/schema'
import { addStep, removeStep } from '#services/steps/steps'
import { fillBenchJournal } from '../../../lib/commands/bench-journal'
import { makeJob } from '../../support/make-job'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const noon = instant(Date.parse('2026-10-22T12:00:00Z'))

async function coatedAt(noonPlus: number, cureDays?: number) {
  const job = await makeJob()
  const product = await addProduct(
    newProduct.parse({
      name: 'waterborne enamel, moss',
      category: 'paint',
      chemistry: 'waterborne-acrylic',
      label: {
        recoatMinutes: 60,
        reference: { celsius: 23, humidity: 50 },
        ...(cureDays === undefined ? {} : { cureDays }),
      },
    }),
    noon,
  )
  const at = new Date(addMinutes(noon, noonPlus)).toISOString()
  const step = await addStep(
    job.id,
    newStep.parse({
      kind: 'coat',
      surfaces: job.surfaceIds.slice(0, 1),
      product: product.id,
      startedAt: at,
      finishedAt: at,
    }),
    noon,
  )
  if (!step.ok) throw new Error(step.refusal.detail)
  return { job, stepId: step.value.id }
}

describe('the bench keeps up', () => {
  test('with a coat that is put on, and with one that is taken out again', async () => {
    expect((await readBench(noon)).wet).toEqual([])
    const { job, stepId } = await coatedAt(-30)
    expect((await readBench(noon)).wet).toHaveLength(1)
    await removeStep(job.id, stepId, noon)
    expect((await readBench(noon)).wet).toEqual([])
  })

  test('with the hour, while nothing is written down', async () => {
    await coatedAt(-30)
    expect((await readBench(noon)).wet).toHaveLength(1)
    const later = await readBench(addMinutes(noon, 31))
    expect(later.wet).toEqual([])
    expect(later.ready).toHaveLength(1)
  })

  test('with the air: cold and damp keep a coat wet for longer', async () => {
    await coatedAt(-61)
    expect((await readBench(noon)).ready).toHaveLength(1)
    await addAir([
      { at: addMinutes(noon, -120), celsius: 12, humidity: 80 },
      { at: addMinutes(noon, 600), celsius: 12, humidity: 80 },
    ])
    const bench = await readBench(noon)
    expect(bench.ready).toEqual([])
    expect(bench.wet).toHaveLength(1)
  })

  test('with a job that is finished: it cures, and then is off the bench', async () => {
    const { job } = await coatedAt(-90, 21)
    await finishJob(job.id, noon)
    const bench = await readBench(noon)
    expect(bench.ready).toEqual([])
    expect(bench.curing).toHaveLength(1)
    const cured = await readBench(addMinutes(noon, 130 * 1440))
    expect(cured.curing).toEqual([])
  })
})

test('more open jobs than the database takes in one list are all on the bench', async () => {
  // About 2,000 steps and 5,000 photos, each asked for by its id.
  await fillBenchJournal(100, noon)
  const bench = await readBench(noon)
  const entries = [
    bench.wet,
    bench.ready,
    bench.closing,
    bench.past,
    bench.curing,
    bench.unknown,
  ].flat()
  expect(new Set(entries.map((entry) => entry.job.id)).size).toBeGreaterThan(90)
})
