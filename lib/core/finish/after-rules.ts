import type { FinishRule, Sighting } from '#core/finish/finish-rule'
import { mentions } from '#core/finish/mentions'
import { isFilm, stepWords } from '#core/finish/step-traits'
import {
  type StoryStep,
  type SurfaceStory,
  stepsBefore,
  waitBetween,
} from '#core/finish/surface-story'
import { lengthOfTime } from '#core/time/length-of-time'
import {
  addMinutes,
  minutesBetween,
  minutesPerDay,
  minutesPerHour,
} from '#core/units'

/** What a coat is given before it is handled, where its label gives no handling time. Common practice, no source. */
const usualHandleMinutes = 24 * minutesPerHour
/** When drawers may be lined though the label's full cure is longer. Common practice, no source. */
const liningDays = 7
/** Full cure where the label is silent. Common practice, no source: labels say 14 to 30 days. */
const usualCureDays = 21
/** Before this anything that lies on a coat prints into it. Common practice, no source. */
const printingDays = 3

/** The rules of putting a piece back together and letting it go. */
export const afterRules: readonly FinishRule[] = [
  {
    id: 'hardware-back-when-hard',
    sentence: 'Refit the hardware once the coats around it are hard.',
    strength: 'should',
    source: 'the label; where it is silent common practice, no source',
    find: (story, around) =>
      story.steps.flatMap((step) =>
        isRefit(step)
          ? softNeighbour(
              story,
              around,
              step,
              'The hardware went back',
              'Screws and plates stick to a soft coat and take it along when they move.',
            )
          : [],
      ),
  },
  {
    id: 'drawers-back-when-hard',
    sentence: 'Put drawers and doors back once their neighbours are hard.',
    strength: 'should',
    source: 'the label; where it is silent common practice, no source',
    find: (story, around) =>
      story.steps.flatMap((step) =>
        step.kind === 'assemble'
          ? softNeighbour(
              story,
              around,
              step,
              'The piece went together',
              'Painted edges that touch grow together while they are soft.',
            )
          : [],
      ),
  },
  {
    id: 'line-when-cured',
    sentence: 'Line drawers once their own coat has cured.',
    strength: 'mind',
    source: 'common practice, no source',
    find: (story) =>
      story.steps.flatMap((step): Sighting[] => {
        if (step.kind !== 'liner') return []
        const under = stepsBefore(story, step).findLast(isFilm)
        if (under === undefined) return []
        const days = Math.min(
          under.product?.label.cureDays ?? liningDays,
          liningDays,
        )
        const wait = waitBetween(under, step)
        return wait !== undefined && wait.high < days * minutesPerDay
          ? [
              {
                stepId: step.id,
                reason: `The liner went in ${lengthOfTime(Math.max(0, wait.high), 'down')} after ${stepWords(under)}. Paste softens a coat this young, and its smell stays in.`,
                advice: `Leave the drawers out and open for the rest of the ${days} days.`,
              },
            ]
          : []
      }),
  },
  {
    id: 'deliver-when-cured',
    sentence: 'Let a piece cure before it is wrapped, stacked, loaded or used.',
    strength: 'should',
    source: 'the label; where it is silent common practice, no source',
    find: (story) => {
      const last = story.steps.findLast(isFilm)
      const gone = story.job.deliveredAt ?? story.job.soldAt
      const ended = last?.times?.time.finished.latest
      if (last === undefined || ended === undefined || gone === undefined)
        return []
      const stated = last.product?.label.cureDays
      const days = stated ?? usualCureDays
      if (gone >= addMinutes(ended, days * minutesPerDay)) return []
      const waited = lengthOfTime(
        Math.max(0, minutesBetween(ended, gone)),
        'down',
      )
      const isDelivered = story.job.deliveredAt !== undefined
      const isPrinting =
        isDelivered &&
        minutesBetween(ended, gone) < printingDays * minutesPerDay
      const cure =
        stated === undefined
          ? `the label gives no days to cure, and ${days} are usual`
          : `the label asks ${days} ${days === 1 ? 'day' : 'days'} to cure`
      return [
        {
          stepId: last.id,
          strength: isPrinting ? 'must' : isDelivered ? 'should' : 'mind',
          reason: `It was ${isDelivered ? 'delivered' : 'sold'} ${waited} after ${stepWords(last)}, and ${cure}.${isPrinting ? ' Blankets and straps print into a coat this young.' : ''}`,
          advice: `${isDelivered ? 'Tell the buyer' : 'Keep it until then, or tell the buyer'}: light use only, nothing standing on it, no washing and no plastic on it before the ${days} days are over.`,
        },
      ]
    },
  },
]

/** Whether a step puts hardware on: it lays on no coat, and nobody says that it came off. */
function isRefit(step: StoryStep): boolean {
  return (
    step.kind === 'hardware' &&
    !step.isCoat &&
    !mentions(step.step.note, /off|removed|taken out|unscrewed/)
  )
}

/** The coat on another surface of the piece that was furthest from being fit to handle. */
function softNeighbour(
  story: SurfaceStory,
  around: readonly SurfaceStory[],
  step: StoryStep,
  what: string,
  why: string,
): Sighting[] {
  const soft = around.flatMap((one) => {
    if (one === story || one.steps.some((two) => two.id === step.id)) return []
    const start = step.times?.time.started.at ?? Infinity
    const last = one.steps.findLast(
      (two) =>
        isFilm(two) && (two.times?.time.finished.at ?? Infinity) <= start,
    )
    if (last === undefined) return []
    const needed = last.product?.label.handleMinutes
    const wait = waitBetween(last, step)
    const short = (needed ?? usualHandleMinutes) - (wait?.high ?? Infinity)
    return short > 0 && wait !== undefined
      ? [{ one, last, needed, wait, short }]
      : []
  })
  const [softest] = soft.sort((one, other) => other.short - one.short)
  if (softest === undefined) return []
  const { one, last, needed, wait } = softest
  return [
    {
      stepId: step.id,
      reason: `${what} ${lengthOfTime(Math.max(0, wait.high), 'down')} after ${stepWords(last)} on the ${one.surface.name}; ${needed === undefined ? 'the label gives no handling time, and a day is the usual least' : `the label asks ${lengthOfTime(needed, 'up')} before handling`}. ${why}`,
      advice:
        'Loosen it again if it moves freely, and leave a gap or a slip of waxed paper until the coat is hard.',
    },
  ]
}
