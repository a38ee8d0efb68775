import { expect, test } from 'vitest'
import { judgeFinish } from '#core/finish/judge-finish'
import { instant } from '#core/units'
import { readJobTimeline } from '#services/timeline/timeline'
import { changeWorkshop } from '#services/workshop/change-workshop'
import { addProduct } from '#services/shelf/products'
import { newProduct } from '#services/shelf/schema'
import { newStep } from '#services/steps/schema'
import { addStep } from '#services/steps/steps'
import { makeJob } from '../../support/make-job'
import { useWorkshop } from '../../support/workshop'

useWorkshop()

const now = instant(Date.parse('2026-10-25T12:00:00Z'))

test('the zone and the units that a workshop shows change no verdict and no finding', async () => {
  const job = await makeJob()
  const surface = job.surfaceIds[0] ?? ''
  const enamel = await addProduct(
    newProduct.parse({
      name: 'waterborne enamel',
      category: 'paint',
      chemistry: 'waterborne-acrylic',
      label: { recoatMinutes: 60, maxThinningPercent: 5 },
    }),
    now,
  )
  // Over the night in which the clocks of Europe go back.
  for (const startedAt of [
    '2026-10-24T23:30:00Z',
    '2026-10-25T00:20:00Z',
    '2026-10-25T01:40:00Z',
  ]) {
    await addStep(
      job.id,
      newStep.parse({
        kind: 'coat',
        surfaces: [surface],
        product: enamel.id,
        thinningPercent: 9,
        startedAt,
        finishedAt: startedAt,
      }),
      now,
    )
  }
  const told = async () => {
    const found = await readJobTimeline(job.id)
    if (found === undefined) throw new Error('the job is gone')
    const checks = found.timeline.lanes.flatMap((lane) => lane.checks)
    const { reason, ...next } = found.timeline.lanes[0]?.next ?? { reason: '' }
    return {
      judged: { checks, next, findings: judgeFinish(found.journal) },
      said: [reason, ...checks.map((check) => check.reason)].join(' '),
    }
  }
  const home = await told()
  expect(home.judged.checks.map((check) => check.verdict)).toEqual([
    'too-soon',
    'in-window',
  ])
  for (const [zone, units] of [
    ['Pacific/Chatham', 'us'],
    ['America/St_Johns', 'metric'],
  ] as const) {
    await changeWorkshop(
      { name: 'Alder Yard', zone, currency: 'GBP', units },
      now,
    )
    const { judged, said } = await told()
    expect(judged).toEqual(home.judged)
    expect(said.includes('°F')).toBe(units === 'us')
    expect(said.includes('°C')).toBe(units === 'metric')
  }
})
