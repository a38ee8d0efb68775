import { expect, test } from 'vitest'
import type { z } from 'zod'
import { ratesFacts } from '#services/money/schema'
import { label } from '#services/shelf/schema'
import { newStep } from '#services/steps/schema'

function faults({ error }: z.ZodSafeParseResult<unknown>) {
  return error?.issues.map(({ path }) => path.join('.'))
}

const morning = '2026-10-22T08:00:00Z'
const evening = '2026-10-22T18:00:00Z'

test('a step that ends before it starts is told of it together with all else that is wrong', () => {
  const step = { kind: 'varnish', surfaces: [], grit: 2 }
  expect(
    faults(
      newStep.safeParse({ ...step, startedAt: evening, finishedAt: morning }),
    ),
  ).toEqual(['kind', 'surfaces', 'grit', 'finishedAt'])
  expect(
    faults(
      newStep.safeParse({ ...step, startedAt: morning, finishedAt: evening }),
    ),
  ).toEqual(['kind', 'surfaces', 'grit'])
})

test('a time that cannot be read is told as that alone', () => {
  expect(
    faults(
      newStep.safeParse({
        kind: 'sand',
        surfaces: ['top'],
        startedAt: evening,
        finishedAt: 'noon',
      }),
    ),
  ).toEqual(['finishedAt'])
})

test('what is no object at all is told as that alone', () => {
  for (const nothing of [undefined, null, 'sand', 7, []]) {
    expect(faults(newStep.safeParse(nothing))).toEqual([''])
  }
})

test('the times of a label and the hours of a year are checked while others are wrong', () => {
  expect(
    faults(
      label.safeParse({
        recoatMinutes: 240,
        recoatByMinutes: 60,
        cureDays: -1,
      }),
    ),
  ).toEqual(['cureDays', 'recoatByMinutes'])
  expect(
    faults(
      ratesFacts.safeParse({ yearlyOverheadMinor: 900_000, hourlyMinor: -1 }),
    ),
  ).toEqual(['hourlyMinor', 'productiveHours'])
})
