import fc from 'fast-check'
import { expect, test } from 'vitest'
import { planPayPlot } from '#core/money/plan-pay-plot'
import {
  type SoldJob,
  finishesOf,
  kindsOf,
  whatPays,
} from '#core/money/what-pays'
import { sideboardAndBench } from '../write-ups/jobs.ts'

const sold = (
  id: string,
  kinds: readonly string[],
  earnedMinor: number,
  hours: number,
): SoldJob => ({
  id,
  title: id,
  kinds,
  finishes: [],
  earnedMinor,
  minutes: hours * 60,
})
const kinds = (job: SoldJob) => job.kinds

test('a kind earns what all its jobs earned over all their hours', () => {
  // (100 + 20) ÷ (2 + 8) = 12.00, and not the mean of 50.00 and 2.50.
  const groups = whatPays(
    [sold('a', ['chair'], 10_000, 2), sold('b', ['chair'], 2000, 8)],
    kinds,
  )
  expect(groups).toMatchObject([
    {
      name: 'chair',
      hourlyMinor: 1200,
      jobs: [{ hourlyMinor: 5000 }, { hourlyMinor: 250 }],
    },
  ])
})

test('the best stands first, a job of two kinds counts in both, one without hours in none', () => {
  const groups = whatPays(
    [
      sold('a', ['chair'], -500, 1),
      sold('b', ['chest', 'bench'], 4000, 2),
      sold('c', ['desk'], 9000, 0),
    ],
    kinds,
  )
  expect(groups.map(({ name, hourlyMinor }) => [name, hourlyMinor])).toEqual([
    ['bench', 2000],
    ['chest', 2000],
    ['chair', -500],
  ])
})

test('kinds and finishes are read from the journal', () => {
  expect(kindsOf(sideboardAndBench)).toEqual(['sideboard', 'bench'])
  expect(finishesOf(sideboardAndBench)).toEqual([
    'painted',
    'stained and clear-coated',
  ])
})

test('every bar and dot lies within the plot, and a loss left of the zero line', () => {
  fc.assert(
    fc.property(
      fc.array(
        fc.tuple(
          fc.integer({ min: -9999, max: 99_999 }),
          fc.integer({ min: 1, max: 40 }),
        ),
        {
          minLength: 1,
          maxLength: 9,
        },
      ),
      fc.option(fc.nat({ max: 9999 }), { nil: undefined }),
      (jobs, wanted) => {
        const plot = planPayPlot(
          whatPays(
            jobs.map(([earned, hours], index) =>
              sold(String(index), [`kind ${index % 3}`], earned, hours),
            ),
            kinds,
          ),
          wanted,
        )
        const inside = (x: number) => x >= 0 && x <= plot.width
        for (const bar of plot.bars) {
          expect(inside(bar.left) && inside(bar.left + bar.width)).toBe(true)
          expect(bar.dots.every(inside)).toBe(true)
          if (bar.group.hourlyMinor < 0)
            expect(bar.left).toBeLessThan(plot.zero)
        }
        expect(inside(plot.wanted ?? 0)).toBe(true)
      },
    ),
  )
})
