import { afterAll, expect, test } from 'vitest'
import { instant } from '#core/units'
import { endAlignmentThread } from '#services/alignment/alignment-thread'
import { readPublished } from '#services/portfolio/published'
import { publishDemo } from '../../../prisma/demo/publish-demo'
import { seedDemo } from '../../../prisma/demo/seed-demo'
import { useWorkshop } from '../../support/workshop'

useWorkshop()
afterAll(async () => {
  await endAlignmentThread()
})

test('the sideboard of the demo is out, with its pairs laid on each other; the bench and the box are not', async () => {
  const now = instant(Date.parse('2026-11-16T08:00:00Z'))
  await seedDemo(now)
  await publishDemo(now)
  const out = await readPublished()
  expect(out.map(({ shown }) => shown.title)).toEqual([
    'Oak sideboard in deep teal',
  ])
  const [piece] = out
  expect(
    piece?.shown.pairs.map(({ name, aligned }) => [name, aligned]),
  ).toEqual([
    ['Front', true],
    ['Left three-quarter', true],
    ['Top', true],
  ])
  // Its body is a blue-green and its top a dark brown (the plan of the demo photos).
  expect(piece?.shown.colours).toEqual(['blue-green', 'brown'])
  expect(piece?.shown.steps).toHaveLength(8)
})
