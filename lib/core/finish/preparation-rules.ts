import { labelTimes } from '#core/drying/recoat-windows'
import { baseOf } from '#core/finish/base-of'
import type { FinishRule, Sighting } from '#core/finish/finish-rule'
import { grainSize } from '#core/finish/grain-size'
import { mentions } from '#core/finish/mentions'
import {
  barenessUnder,
  cameUnfinished,
  isAbrasion,
  isClearCoat,
  isFilm,
  isFirst,
  stepWords,
} from '#core/finish/step-traits'
import {
  type StoryStep,
  type SurfaceStory,
  allSteps,
  perhapsBefore,
  perhapsBetween,
  stepsBefore,
  waitBetween,
} from '#core/finish/surface-story'
import { lengthOfTime } from '#core/time/length-of-time'
import { minutesPerHour } from '#core/units'

/** A jump between grits by more than this ratio of grain sizes leaves scratches the finer one does not take out. Common practice, no source. */
const longestJump = 1.9
/** A jump this long skips three grades or more. Common practice, no source. */
const farTooLongJump = 2.3

const cleaned =
  /clean|cleaned|washed|wash|degreased|degrease|sugar soap|wiped down/
const rinsed =
  /rinse|rinsed|wash|washed|neutralised|neutralized|neutralise|neutralize|wiped (?:\w+ )?with (?:white spirit|mineral spirits|spirit|water|alcohol)/
const dulled = /scuff|scuffed|sand|sanded|keyed|dulled|abraded|rubbed down/

/** The rules of cleaning, cutting and stripping. */
export const preparationRules: readonly FinishRule[] = [
  {
    id: 'clean-before-abrasion',
    sentence: 'Clean and degrease before you sand or scuff.',
    strength: 'should',
    source: 'common practice, no source',
    find: (story) =>
      allSteps(story).flatMap((step): Sighting[] => {
        if (
          !isFirst(story, step, isAbrasion) ||
          mentions(step.step.note, cleaned) ||
          cameUnfinished(story) ||
          perhapsBefore(story, step).some(
            (one) =>
              one.isCoat ||
              one.kind === 'clean' ||
              one.kind === 'strip' ||
              mentions(one.step.note, cleaned),
          )
        )
          return []
        return [
          {
            stepId: step.id,
            reason: `Nothing says that it was cleaned before the ${step.kind}. Abrasive drives wax, grease and silicone into the scratches, where no primer reaches them.`,
            advice:
              'If it was cleaned, say so here. If not, degrease it now, rinse, let it dry, and scuff lightly once more before the first coat.',
          },
        ]
      }),
  },
  {
    id: 'dull-before-coat',
    sentence:
      'Take the gloss off before the first coat, under a bonding primer too.',
    strength: 'should',
    source: 'common practice, no source',
    find: (story) =>
      allSteps(story).flatMap((step): Sighting[] => {
        const before = perhapsBefore(story, step)
        if (
          !isFirst(story, step, (one) => one.isCoat) ||
          !isFilm(step) ||
          step.kind === 'wax' ||
          step.kind === 'detail' ||
          cameUnfinished(story) ||
          mentions(step.step.note, dulled) ||
          before.some(
            (one) =>
              isAbrasion(one) ||
              one.kind === 'strip' ||
              mentions(one.step.note, dulled),
          )
        )
          return []
        const isClean = before.some((one) => one.kind === 'clean')
        return [
          {
            stepId: step.id,
            reason: `Nothing says that it was ${isClean ? '' : 'cleaned or '}scuffed before ${stepWords(step)} went on. A coat holds badly on gloss${isClean ? '' : ' and grease'}.`,
            advice: story.isHardware
              ? 'Once it is hard, try a fingernail and a piece of tape in a hidden spot. If it lifts, take it off, degrease, scuff with a grey pad and start again.'
              : 'Once it is hard, try a fingernail and a piece of tape in a hidden spot. If it lifts, sand back, degrease, scuff with P180 to P220 until no gloss is left, and start again.',
          },
        ]
      }),
  },
  {
    id: 'hardware-off-first',
    sentence: 'Take the hardware off before you prepare the wood.',
    strength: 'mind',
    source: 'common practice, no source',
    find: (story, around) => {
      const fittings = around.filter((one) => one.isHardware)
      const isOff = fittings.every((one) =>
        allSteps(one).some((step) => step.kind === 'hardware'),
      )
      const first = story.steps.find((step) => step.isCoat)
      const isFirstSurface =
        around.find(
          (one) => !one.isHardware && one.steps.some((step) => step.isCoat),
        ) === story
      return fittings.length === 0 || isOff || !isFirstSurface || !first
        ? []
        : [
            {
              stepId: first.id,
              reason: `Nothing says that the ${fittings[0]?.surface.name ?? 'hardware'} came off before ${stepWords(first)} went on. Masked edges show, and paint bridges onto the metal.`,
              advice:
                'If it came off, say so here. If it is on still, score along its edge with a sharp blade before you take it off.',
            },
          ]
    },
  },
  {
    id: 'no-skipped-grit',
    sentence: 'Skip at most one grit on the way from coarse to fine.',
    strength: 'mind',
    source:
      'grain sizes: ISO 6344 (P grades); the ratio of 1.9: common practice, no source',
    find: (story) =>
      sandedRuns(story).flatMap((run) =>
        run.flatMap((later, i): Sighting[] => {
          const earlier = run[i - 1]
          if (earlier === undefined) return []
          const jump = longestStep(earlier, later)
          if (jump === undefined || jump.ratio <= longestJump) return []
          return [
            {
              stepId: later.id,
              strength: jump.ratio > farTooLongJump ? 'should' : 'mind',
              reason: `From P${jump.from} to P${jump.to} the grains are ${jump.ratio.toFixed(1)} times finer (${microns(jump.from)} and ${microns(jump.to)} µm). P${jump.to} hardly takes out the scratches of P${jump.from}, and stain or a clear coat shows them.`,
              advice: `Go back to a grit between P${jump.from} and P${jump.to} while the wood is bare. Under opaque paint it matters less.`,
            },
          ]
        }),
      ),
  },
  {
    id: 'no-return-to-coarse',
    sentence: 'Once finer, do not go back to a coarser grit.',
    strength: 'mind',
    source: 'common practice, no source',
    find: (story) =>
      sandedRuns(story).flatMap((run): Sighting[] => {
        const last = run.at(-1)
        const finest = run
          .slice(0, -1)
          .flatMap((step) => step.step.grit ?? [])
          .reduce((one, other) => Math.max(one, other), 0)
        const grit = last?.step.grit
        if (last === undefined || grit === undefined || grit >= finest)
          return []
        return [
          {
            stepId: last.id,
            reason: `P${grit} came after P${finest} and its scratches are the last ones.`,
            advice: `Work up again from P${grit}, grade by grade, before the next coat.`,
          },
        ]
      }),
  },
  {
    id: 'no-coarse-machine-on-veneer',
    sentence: 'Start veneer at P150 or finer, and never coarse by machine.',
    strength: 'must',
    source: 'common practice, no source (face veneer is 0.5 to 1.5 mm thick)',
    find: (story) =>
      story.wood.isVeneer && !story.isHardware
        ? allSteps(story).flatMap((step): Sighting[] => {
            const { grit, method } = step.step
            if (
              step.kind !== 'sand' ||
              grit === undefined ||
              method !== 'machine' ||
              grainSize(grit) <= grainSize(150)
            )
              return []
            return [
              {
                stepId: step.id,
                strength: grainSize(grit) >= grainSize(80) ? 'must' : 'mind',
                reason: `P${grit} by machine on veneer. Veneer is half a millimetre thick, old veneer one to one and a half, and a machine is through it in seconds.`,
                advice:
                  'Look along the edges for a change of grain or a dark line of glue; where it shows, stop. Go on by hand with P150 or finer.',
              },
            ]
          })
        : [],
  },
  {
    id: 'not-too-fine-for-stain',
    sentence: 'Stop at P150 to P180 before stain, P220 at the finest.',
    strength: 'should',
    source:
      'grain sizes: ISO 6344 (P grades); the limit: common practice, no source',
    find: (story) =>
      lastSandingBefore(story, (step) => step.kind === 'stain').flatMap(
        ({ sanding, grit, coat }): Sighting[] =>
          grainSize(grit) < grainSize(220)
            ? [
                {
                  stepId: sanding.id,
                  reason: `The wood was sanded to P${grit} (${microns(grit)} µm) before ${stepWords(coat)}. Polished wood takes less colour, and unevenly.`,
                  advice:
                    'If the colour came out pale or patchy, sand back to P150 to P180 and stain again, on a hidden spot first.',
                },
              ]
            : [],
      ),
  },
  {
    id: 'not-too-coarse-for-stain',
    sentence:
      'Sand to P120 at least before a stain or a clear coat on bare wood.',
    strength: 'should',
    source:
      'grain sizes: ISO 6344 (P grades); the limit: common practice, no source',
    find: (story) =>
      lastSandingBefore(
        story,
        (step) => step.kind === 'stain' || isClearCoat(step),
      ).flatMap(({ sanding, grit, coat }): Sighting[] =>
        grainSize(grit) > grainSize(120)
          ? [
              {
                stepId: sanding.id,
                reason: `P${grit} (${microns(grit)} µm) was the last grit before ${stepWords(coat)}. Its scratches show through anything clear, and hold more stain than the wood beside them.`,
                advice:
                  'While nothing is on it, go on to P150 or P180 with the grain.',
              },
            ]
          : [],
      ),
  },
  {
    id: 'no-coarse-grit-between-coats',
    sentence: 'Between coats use P220 or finer.',
    strength: 'mind',
    source: 'common practice, no source',
    find: (story) =>
      story.steps.flatMap((step): Sighting[] => {
        const { grit } = step.step
        const before = stepsBefore(story, step)
        const isBetween =
          before.findLastIndex(isFilm) >
          before.findLastIndex((one) => one.kind === 'strip')
        const isPrepared = before.at(-1)?.kind === 'repair'
        return grit !== undefined &&
          isAbrasion(step) &&
          isBetween &&
          !isPrepared &&
          grainSize(grit) >= grainSize(150)
          ? [
              {
                stepId: step.id,
                reason: `P${grit} (${microns(grit)} µm) on a coat of paint or clear: its scratches are deeper than the next coat fills, and edges wear through.`,
                advice:
                  'Rub on with P220 to P320 until the scratches are gone, and spot-prime where it went through.',
              },
            ]
          : []
      }),
  },
  {
    id: 'no-steel-wool-under-water',
    sentence: 'Use no steel wool under a waterborne coat.',
    strength: 'should',
    source: 'common practice, no source',
    find: (story) =>
      story.steps.flatMap((step): Sighting[] => {
        const isWool = [step.product?.name, step.step.note].some((text) =>
          mentions(text, /(?:steel|wire) wool/),
        )
        const next = story.steps
          .slice(story.steps.indexOf(step) + 1)
          .find((one) => one.isCoat || one.kind === 'strip')
        return isWool && next?.isCoat && baseOf(next.product) === 'water'
          ? [
              {
                stepId: step.id,
                reason: `Steel wool came before ${stepWords(next)}. Slivers left in the grain rust in a waterborne coat and leave brown specks.`,
                advice:
                  'Before the coat goes on, vacuum, tack, and go over it with a magnet. Next time use a synthetic pad.',
              },
            ]
          : []
      }),
  },
  {
    id: 'rinse-after-strip',
    sentence: 'Rinse or neutralise stripper before anything goes on.',
    strength: 'should',
    source: 'usual label wording; common practice, no source',
    find: (story) =>
      story.steps.flatMap((strip): Sighting[] => {
        const next = firstCoatAfter(story, strip)
        if (strip.kind !== 'strip' || next === undefined) return []
        const between = perhapsBetween(story, strip, next)
        if (
          !isByStripper(strip) ||
          [strip, ...between].some(
            (one) => one.kind === 'clean' || mentions(one.step.note, rinsed),
          )
        )
          return []
        return [
          {
            stepId: strip.id,
            reason: `Nothing says that the stripper was rinsed off before ${stepWords(next)} went on. What is left of it, and the wax many strippers hold, keeps a coat from drying and from holding.`,
            advice:
              'If it was rinsed, say so here. If not, and the coat stays soft or lifts, take it off, wash with what the label names, let it dry a day, and start again.',
          },
        ]
      }),
  },
  {
    id: 'dry-after-strip',
    sentence: 'Let stripped and rinsed wood dry for a day.',
    strength: 'should',
    source: 'common practice, no source; the label of the stripper comes first',
    find: (story) =>
      story.steps.flatMap((strip): Sighting[] => {
        const next = firstCoatAfter(story, strip)
        if (
          strip.kind !== 'strip' ||
          next === undefined ||
          (strip.product !== undefined &&
            labelTimes(strip.product.label, 'recoat') !== undefined)
        )
          return []
        const wait = waitBetween(strip, next)
        return wait !== undefined && wait.high < 24 * minutesPerHour
          ? [
              {
                stepId: strip.id,
                reason: `${stepWords(next)} followed ${lengthOfTime(Math.max(0, wait.high), 'down')} after the strip, and no label says how long it must dry. A day is the usual least for wood that was wet.`,
                advice:
                  'Read the time off the stripper and add it on the Shelf. Before the next piece, check with a moisture meter or wait a day.',
              },
            ]
          : []
      }),
  },
  {
    id: 'dry-after-clean',
    sentence: 'Let a washed surface dry for an hour before a coat.',
    strength: 'should',
    source: 'common practice, no source',
    find: (story) =>
      story.steps.flatMap((step, i): Sighting[] => {
        const next = story.steps[i + 1]
        if (!isWashing(step) || next?.isCoat !== true) return []
        const wait = waitBetween(step, next)
        return wait !== undefined && wait.high < minutesPerHour
          ? [
              {
                stepId: step.id,
                reason: `${stepWords(next)} went on ${lengthOfTime(Math.max(0, wait.high), 'down')} after the cleaning. Water left in joints and grain keeps a coat from holding.`,
                advice:
                  'Wait an hour at least, a day on bare wood, unless the cleaner is one that leaves nothing and dries at once.',
              },
            ]
          : []
      }),
  },
  {
    id: 'protect-from-stripper',
    sentence: 'Strip before you paint, or cover what is painted.',
    strength: 'mind',
    source: 'common practice, no source',
    find: (story, around) =>
      story.steps.flatMap((strip): Sighting[] => {
        if (strip.kind !== 'strip') return []
        const painted = around.filter(
          (one) =>
            one !== story &&
            !one.isHardware &&
            !one.steps.some((step) => step.id === strip.id) &&
            coatedBefore(one, strip),
        )
        return painted.length === 0
          ? []
          : [
              {
                stepId: strip.id,
                reason: `The ${painted.map((one) => one.surface.name).join(' and the ')} had fresh coats when the stripper came out. A drip softens them down to the wood.`,
                advice:
                  'Look along the edge for soft or wrinkled spots, let them harden, sand them level and touch them up. Next time strip first, or mask with film and keep the stripper off the edge.',
              },
            ]
      }),
  },
]

/** Whether a cleaning wetted the surface, as a tack cloth or a vacuum does not. */
function isWashing(step: StoryStep): boolean {
  const told = [step.step.note, step.product?.name]
  return (
    step.kind === 'clean' &&
    !told.some((text) => mentions(text, /tack|dust|dusted|vacuum|vacuumed/)) &&
    (step.product?.category === 'cleaner' ||
      told.some((text) =>
        mentions(text, /wash|washed|water|soap|rinse|rinsed|degreaser/),
      ))
  )
}

/** Whether a finish came off with a stripper, and not with a scraper, a machine or heat. */
function isByStripper(step: StoryStep): boolean {
  return step.product === undefined
    ? step.step.method !== 'machine' && step.step.method !== 'hand'
    : step.product.category !== 'abrasive'
}

function coatedBefore(story: SurfaceStory, step: StoryStep): boolean {
  const start = step.times?.time.started.at
  return story.steps.some(
    (one) =>
      one.isCoat &&
      (start === undefined ||
        (one.times?.time.finished.at ?? Infinity) < start),
  )
}

function firstCoatAfter(
  story: SurfaceStory,
  step: StoryStep,
): StoryStep | undefined {
  const next = story.steps
    .slice(story.steps.indexOf(step) + 1)
    .find((one) => one.isCoat || one.kind === 'strip')
  return next?.isCoat === true ? next : undefined
}

/** The sandings of bare wood, each run up to the coat that ends it. */
function sandedRuns(story: SurfaceStory): readonly (readonly StoryStep[])[] {
  if (story.isHardware) return []
  const runs: StoryStep[][] = [[]]
  let isCoated = false
  for (const step of story.steps) {
    if (step.isCoat) isCoated = true
    if (step.kind === 'strip') isCoated = false
    if (step.isCoat || step.kind === 'strip') runs.push([])
    else if (step.kind === 'sand' && step.step.grit !== undefined && !isCoated)
      runs.at(-1)?.push(step)
  }
  return runs
}

/** The longest jump between the grits of two sandings, those that a note names among them. */
function longestStep(
  earlier: StoryStep,
  later: StoryStep,
):
  | { readonly from: number; readonly to: number; readonly ratio: number }
  | undefined {
  const from = earlier.step.grit
  const to = later.step.grit
  if (from === undefined || to === undefined || to <= from) return undefined
  const named = [earlier, later]
    .flatMap((step) => [
      ...(step.step.note ?? '').matchAll(/\bp\s?(\d{2,4})\b/gi),
    ])
    .map((match) => Number(match[1]))
    .filter((grit) => grit > from && grit < to)
  const grits = [from, ...named, to].sort((one, other) => one - other)
  return grits
    .slice(1)
    .map((grit, i) => {
      const before = grits[i] ?? grit
      return {
        from: before,
        to: grit,
        ratio: grainSize(before) / grainSize(grit),
      }
    })
    .sort((one, other) => other.ratio - one.ratio)[0]
}

/** The last sanding of bare wood before the first coat of some kind. */
function lastSandingBefore(
  story: SurfaceStory,
  isSuch: (step: StoryStep) => boolean,
): readonly {
  readonly sanding: StoryStep
  readonly grit: number
  readonly coat: StoryStep
}[] {
  const coat = story.steps.find((step) => isFirst(story, step, isSuch))
  if (coat === undefined || story.isHardware) return []
  const before = stepsBefore(story, coat)
  if (before.some(isFilm) && barenessUnder(story, coat) === undefined) return []
  const sanding = before.findLast((step) => step.kind === 'sand')
  const grit = sanding?.step.grit
  return sanding === undefined || grit === undefined
    ? []
    : [{ sanding, grit, coat }]
}

function microns(grit: number): string {
  return String(Math.round(grainSize(grit)))
}
