import { measuredOut } from '#core/materials/amounts'
import type { Amount } from '#core/shelf/product'
import { momentWords } from '#core/time/moments'
import type { SnapTarget } from '#core/snap/snap-target'
import type { Instant } from '#core/units'
import { readNewJob, readSnapTargets } from '#services/snap/read-snap'
import { readWorkshop } from '#services/workshop/workshop'
import { listOf, stepName } from '../_words'
import { toldApart } from './_told-apart'
import type { SnapChoice, SnapDoing } from './snap-choice'

/** How many are offered: more than a glance takes in helps nobody. */
const offered = 4

/** What the next photo may be of, the likeliest first, in words. */
export async function snapChoices(at: Instant): Promise<readonly SnapChoice[]> {
  const [targets, newJob, workshop] = await Promise.all([
    readSnapTargets(at, offered),
    readNewJob(),
    readWorkshop(),
  ])
  const names = toldApart(
    targets.map((target) => ({
      // One that is over is offered as a new step like it, whose coat counts itself.
      name: stepName(target.kind, target.isOver ? undefined : target.coat),
      beside: [surfaceWords(target), ...detailOf(target)].join(' · '),
      marks: [
        target.coat === undefined ? undefined : `like coat ${target.coat}`,
        target.grit === undefined ? undefined : `with P${target.grit}`,
        `of ${momentWords(target.since, at, workshop)}`,
      ],
    })),
  )
  const choices = targets.map((target, index): SnapChoice => {
    const since = momentWords(target.since, at, workshop)
    return {
      id: target.step ?? `after ${target.followsSteps.join(' ')}`,
      job: target.job.id,
      title: `${names[index] ?? ''}: ${surfaceWords(target)}`,
      jobTitle: target.job.title,
      detail: detailOf(target).join(' · '),
      why: whyWords(target, since),
      ...stepOf(target, since),
      fields: [],
      follows: target.followsSteps,
      doing: {
        ...(target.amount !== undefined &&
          amountOf(measuredOut(target.amount, workshop.units))),
        ...(target.thinningPercent !== undefined && {
          thinningPercent: target.thinningPercent,
        }),
        ...(target.grit !== undefined && { grit: target.grit }),
      },
    }
  })
  const before: readonly SnapChoice[] =
    newJob === undefined
      ? []
      : [
          {
            id: `before ${newJob.id}`,
            job: newJob.id,
            title: 'Before photos',
            detail: newJob.title,
            why: 'Nothing has been done to it yet',
            fields: [['role', 'before']],
            follows: [],
            doing: {},
          },
        ]
  return [...choices.slice(0, offered - before.length), ...before]
}

function amountOf({ value, unit }: Amount): SnapDoing {
  return { amount: value, amountUnit: unit }
}

function detailOf({ product, job }: SnapTarget): readonly string[] {
  return [...(product === undefined ? [] : [product.name]), job.title]
}

function whyWords(target: SnapTarget, since: string): string {
  switch (target.why) {
    case 'last-used':
      return target.isOver ? `Last worked on ${since}` : `Last used ${since}`
    case 'closing':
      return `Ready since ${since}, window closing`
    case 'ready':
      return `Ready since ${since}`
  }
}

function stepOf(
  target: SnapTarget,
  when: string,
): Pick<SnapChoice, 'step' | 'isBegun' | 'newStep' | 'over'> {
  const { step, isOver, isBegun } = target
  if (step === undefined) return { newStep: newStepOf(target) }
  return isOver
    ? {
        newStep: newStepOf(target),
        over: {
          step,
          when,
          title: `${stepName(target.kind, target.coat)}: ${surfaceWords(target)}`,
        },
      }
    : { step, ...(isBegun && { isBegun }) }
}

function newStepOf(target: SnapTarget): Readonly<Record<string, unknown>> {
  return {
    kind: target.kind,
    surfaces: target.surfaces.map((surface) => surface.id),
    ...(target.product !== undefined && { product: target.product.id }),
  }
}

function surfaceWords({ surfaces }: SnapTarget): string {
  const pieces = new Map<string, string[]>()
  for (const { piece, name } of surfaces) {
    pieces.set(piece, [...(pieces.get(piece) ?? []), name])
  }
  return [...pieces]
    .map(([piece, names]) => `${piece} ${listOf(names)}`)
    .join(', ')
}
