import { baseOf } from '#core/finish/base-of'
import type { FinishRule, RuleId, Sighting } from '#core/finish/finish-rule'
import { mentions } from '#core/finish/mentions'
import {
  blocksStains,
  isClear,
  isEnamel,
  isPale,
} from '#core/finish/product-traits'
import {
  barenessUnder,
  cameUnfinished,
  coatUnder,
  isAbrasion,
  isClearCoat,
  isFilm,
  isFirst,
  isPaint,
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
import type { TimelineWarning } from '#core/timeline/timeline'
import { minutesPerDay } from '#core/units'

const unsourced = 'common practice, no source'

/** Least wait from an oil or gel stain to a waterborne coat, minutes. Common practice, no source; labels ask 24 to 72 hours. */
const stainToWaterMinutes = minutesPerDay
/** What an oil paint without days to cure on its label is given before water goes over it. Common practice, no source. */
const usualOilCureDays = 7
/** Thinning beyond this is unusual for a waterborne product whose label is silent, percent. Common practice, no source. */
const usualThinningPercent = 10
/** A film this many times the label's skins over and wrinkles. Common practice, no source. */
const thickestFilmRatio = 2

const hardWorked = /top|worktop|table ?top|desk ?top|seat|shelf|shelves/

/** The rules of what goes over what, and how. */
export const coatRules: readonly FinishRule[] = [
  {
    id: 'condition-before-stain',
    sentence: 'Condition before you stain.',
    strength: 'should',
    source: unsourced,
    find: eachCoat((_, step, under) =>
      step.kind === 'condition' && under?.kind === 'stain'
        ? {
            stepId: step.id,
            reason: `The conditioner came after ${stepWords(under)}. It works by part-filling the grain before the colour does.`,
            advice:
              'Let it dry and look: where the colour is patchy, a gel stain or a glaze over it evens it out.',
          }
        : undefined,
    ),
  },
  {
    id: 'conditioner-like-stain',
    sentence:
      'Conditioner and stain share a base: oil under oil, water under water.',
    strength: 'should',
    source: unsourced,
    find: eachCoat((_, step, under) => {
      const [over, below] = [baseOf(step.product), baseOf(under?.product)]
      return step.kind === 'stain' &&
        under?.kind === 'condition' &&
        ((over === 'oil' && below === 'water') ||
          (over === 'water' && below === 'oil'))
        ? {
            stepId: step.id,
            reason: `${stepWords(step)} is ${over === 'oil' ? 'oil-based' : 'waterborne'} and ${stepWords(under)} is ${below === 'oil' ? 'oil-based' : 'waterborne'}: the one keeps the other out, and the colour stays on top.`,
            advice:
              'Once dry, rub with a white cloth. If colour comes off, wash it off with its own solvent, sand lightly, and condition with the same base.',
          }
        : undefined
    }),
  },
  {
    id: 'conditioner-for-blotchy-wood',
    sentence: 'Condition a blotchy wood before a liquid stain, or use a gel.',
    strength: 'mind',
    source: unsourced,
    find: eachCoat((story, step) => {
      const wood = story.wood.blotches
      return wood !== undefined &&
        !story.isHardware &&
        step.product?.chemistry !== 'gel-stain' &&
        isFirst(story, step, (one) => one.kind === 'stain') &&
        !perhapsBefore(story, step).some((one) => one.isCoat)
        ? {
            stepId: step.id,
            reason: `It is ${wood}, which takes stain unevenly, and nothing says that it was conditioned.`,
            advice:
              'If it came out patchy, a gel stain or a glaze over it evens it out. Next time condition first, or try it on the underside.',
          }
        : undefined
    }),
  },
  {
    id: 'stain-on-bare-wood',
    sentence: 'Stain goes on bare wood.',
    strength: 'should',
    source: unsourced,
    find: eachCoat((story, step) => {
      if (
        step.kind !== 'stain' ||
        step.product?.chemistry === 'gel-stain' ||
        cameUnfinished(story)
      )
        return undefined
      const before = stepsBefore(story, step)
      const film = before.findLast(isFilm)
      const since = before.slice(film === undefined ? 0 : before.indexOf(film))
      const isCut = [...story.untimed, ...since].some(
        (one) => one.kind === 'strip' || one.kind === 'sand',
      )
      if (isCut) return undefined
      return {
        stepId: step.id,
        reason:
          film === undefined
            ? 'Nothing says that the old finish was stripped or sanded off before the stain. Stain cannot soak through a finish.'
            : `The stain went over ${stepWords(film)} with nothing in between that bares the wood. It cannot soak in, and stays tacky on top.`,
        advice:
          'Rub with a white cloth once dry: if colour comes off, take the stain off with its own solvent. A gel stain or a glaze is made to lie on a finish.',
      }
    }),
  },
  {
    id: 'stain-dry-before-clear',
    sentence:
      'Give an oil or gel stain a day, better two or three, before a waterborne coat.',
    strength: 'should',
    source: 'usual label wording (24 to 72 hours); common practice, no source',
    find: eachCoat((_, step, under) => {
      if (
        under?.kind !== 'stain' ||
        step.kind === 'stain' ||
        baseOf(under.product) !== 'oil' ||
        baseOf(step.product) !== 'water'
      )
        return undefined
      const wait = waitBetween(under, step)
      if (wait === undefined || wait.high >= stainToWaterMinutes)
        return undefined
      return {
        stepId: step.id,
        reason: `${stepWords(step)} went over ${stepWords(under)} after ${lengthOfTime(Math.max(0, wait.high), 'down')}. Oil that is not dry keeps water from wetting it: the clear hazes, beads or peels later.`,
        advice:
          'Let it harden fully, then try tape and a fingernail in a hidden spot. If it peels or stays hazy, sand it back. Next time rub the stain with a white cloth first: no colour, no smell of solvent.',
      }
    }),
  },
  {
    id: 'no-sanding-of-stain',
    sentence: 'Do not sand a stain; seal it first.',
    strength: 'mind',
    source: unsourced,
    find: (story) =>
      story.steps.flatMap((step, i): Sighting[] => {
        const under = coatUnder(story, step)
        const next = story.steps.slice(i + 1).find((one) => one.isCoat)
        return step.kind === 'sand' &&
          under?.kind === 'stain' &&
          next !== undefined &&
          next.kind !== 'stain' &&
          next.kind !== 'condition'
          ? [
              {
                stepId: step.id,
                reason: `${stepWords(under)} was sanded before ${stepWords(next)}. The colour lies only in the top of the wood, and edges go pale.`,
                advice:
                  'Where it has gone pale, touch the stain up and let it dry again before the next coat.',
              },
            ]
          : []
      }),
  },
  {
    id: 'block-stains',
    sentence:
      'Block tannin, knots and old stain before a waterborne paint: shellac-based primer is the surest.',
    strength: 'should',
    source: unsourced,
    find: eachCoat((story, step) => findBleeding(story, step)),
  },
  {
    id: 'primer-first',
    sentence: 'Primer goes under the paint.',
    strength: 'should',
    source: unsourced,
    find: eachCoat((_, step, under, prepared) =>
      step.kind === 'prime' &&
      under !== undefined &&
      isPaint(under) &&
      !prepared
        ? {
            stepId: step.id,
            reason: `${stepWords(step)} went over ${stepWords(under)} with no scuff in between.`,
            advice:
              'Try tape in a hidden spot once it is hard. To go on, scuff lightly so that the next coat can grip.',
          }
        : undefined,
    ),
  },
  {
    id: 'filler-primed',
    sentence: 'Spot-prime filler before the paint.',
    strength: 'mind',
    source: unsourced,
    find: (story) =>
      story.steps.flatMap((step, i): Sighting[] => {
        const isOnPrimer = stepsBefore(story, step).some(
          (one) => one.kind === 'prime',
        )
        const next = story.steps.slice(i + 1).find((one) => one.isCoat)
        return step.kind === 'repair' &&
          isOnPrimer &&
          next !== undefined &&
          isPaint(next) &&
          !mentions(step.step.note, /prime|primed|spot-primed/)
          ? [
              {
                stepId: step.id,
                reason: `The repair came after the primer and ${stepWords(next)} went straight over it. Bare filler drinks paint and shows as a dull patch.`,
                advice:
                  'If a dull patch shows, spot-prime it, let it dry, and coat again.',
              },
            ]
          : []
      }),
  },
  {
    id: 'no-coat-over-wax',
    sentence: 'Wax is the last step: nothing holds on it.',
    strength: 'must',
    source: unsourced,
    find: eachCoat((story, step) => {
      if (step.kind === 'wax') return undefined
      const wax = stepsBefore(story, step).findLast((one) => one.kind === 'wax')
      if (wax === undefined) return undefined
      const isRemoved = perhapsBetween(story, wax, step).some(
        (one) => one.kind === 'strip' || one.kind === 'clean',
      )
      return isRemoved
        ? undefined
        : {
            stepId: step.id,
            reason: `${stepWords(step)} went over ${stepWords(wax)}, and nothing says that the wax came off first. Sanding alone only drives it in.`,
            advice:
              'Take the coat off while it is soft, or let it fail early on a hidden spot; wash the wax out with the solvent its label names, let it dry, then scuff and seal with dewaxed shellac before the next coat.',
          }
    }),
  },
  {
    id: 'no-colour-over-clear',
    sentence: 'The clear coat comes last; scuff it before more colour.',
    strength: 'should',
    source: unsourced,
    find: eachCoat((_, step, under, prepared) =>
      under !== undefined &&
      isClear(under.product) &&
      // Shellac is what ties unlike coats together.
      under.product?.chemistry !== 'shellac' &&
      (step.kind === 'prime' || isPaint(step)) &&
      !prepared
        ? {
            stepId: step.id,
            reason: `${stepWords(step)} went over ${stepWords(under)} with no scuff in between. A clear coat is made for nothing to stick to it.`,
            advice:
              'Try tape in a hidden spot once it is hard. If it lifts, sand back to the clear coat, scuff and recoat.',
          }
        : undefined,
    ),
  },
  {
    id: 'no-strong-solvent-over-weak',
    sentence:
      'No strong solvent over a weak film: lacquer lifts oil and waterborne coats.',
    strength: 'must',
    source: unsourced,
    find: eachCoat((_, step, under) => {
      const below = baseOf(under?.product)
      if (
        under === undefined ||
        under.kind === 'stain' ||
        (below !== 'oil' && below !== 'water')
      )
        return undefined
      if (step.product?.chemistry === 'lacquer') {
        return {
          stepId: step.id,
          reason: `${stepWords(step)} is lacquer and went over ${stepWords(under)}. Its solvent swells a coat of ${below === 'oil' ? 'oil paint or varnish' : 'waterborne paint'}, which wrinkles at once or crazes later.`,
          advice:
            'If it has wrinkled, let it harden, sand it level, seal with dewaxed shellac, and go on with what is underneath.',
        }
      }
      return step.product?.chemistry === 'aerosol'
        ? {
            stepId: step.id,
            strength: 'mind',
            reason: `${stepWords(step)} comes from an aerosol and went over ${stepWords(under)}. What its solvent does to that coat is not known from here.`,
            advice:
              'Try a hidden spot first, in thin mists. If it has wrinkled, let it harden and sand it level.',
          }
        : undefined
    }),
  },
  {
    id: 'no-water-over-young-oil',
    sentence:
      'Let an oil paint or varnish cure, and scuff it, before water goes over it.',
    strength: 'should',
    source: unsourced,
    find: eachCoat((_, step, under, prepared) => {
      if (
        under === undefined ||
        baseOf(step.product) !== 'water' ||
        under.product?.chemistry !== 'oil-alkyd' ||
        under.kind === 'prime' ||
        under.product.category === 'primer' ||
        under.kind === 'stain' ||
        under.kind === 'condition'
      )
        return undefined
      const days = under.product.label.cureDays ?? usualOilCureDays
      const wait = waitBetween(under, step)
      const isYoung = wait !== undefined && wait.high < days * minutesPerDay
      if (!isYoung && prepared) return undefined
      return {
        stepId: step.id,
        reason: isYoung
          ? `${stepWords(step)} is waterborne and went over ${stepWords(under)} after ${lengthOfTime(Math.max(0, wait.high), 'down')}; it is taken to cure in ${days} days.`
          : `${stepWords(step)} is waterborne and went over ${stepWords(under)} with no scuff in between.`,
        advice:
          'Try tape in a hidden spot once it is hard. If it lifts, sand back; a coat of dewaxed shellac ties the two together.',
      }
    }),
  },
  {
    id: 'barrier-over-lacquer',
    sentence:
      'Put a tie-coat of dewaxed shellac between lacquer and a waterborne coat.',
    strength: 'should',
    source: unsourced,
    find: eachCoat((_, step, under) =>
      under?.product?.chemistry === 'lacquer' &&
      baseOf(step.product) === 'water' &&
      step.product?.category !== 'primer'
        ? {
            stepId: step.id,
            reason: `${stepWords(step)} is waterborne and went straight over ${stepWords(under)}, which is lacquer.`,
            advice:
              'Try tape in a hidden spot once it is hard. If it lifts, sand back, scuff, and tie the two together with dewaxed shellac or a bonding primer.',
          }
        : undefined,
    ),
  },
  {
    id: 'no-clear-over-enamel',
    sentence: 'Enamel needs no clear coat, save on a top that works hard.',
    strength: 'mind',
    source: `${unsourced}; the label decides`,
    find: eachCoat((story, step, under) =>
      under !== undefined &&
      isClearCoat(step) &&
      isEnamel(under.product) &&
      !mentions(story.surface.name, hardWorked)
        ? {
            stepId: step.id,
            reason: `${stepWords(under)} is an enamel, made to stand alone. A clear coat over it can haze, yellow, or soften it, and makes a later touch-up harder.`,
            advice:
              'Leave the next one as it is, unless the label of the enamel asks for a clear coat.',
          }
        : undefined,
    ),
  },
  {
    id: 'no-oil-clear-over-pale',
    sentence: 'No oil-based clear over pale paint: it yellows.',
    strength: 'should',
    source: unsourced,
    find: eachCoat((_, step, under) =>
      under !== undefined &&
      isClearCoat(step) &&
      baseOf(step.product) === 'oil' &&
      isPale(under.product)
        ? {
            stepId: step.id,
            reason: `${stepWords(step)} is oil-based and went over ${stepWords(under)}. It goes amber within months, soonest in the dark.`,
            advice:
              'Tell the buyer, or scuff it once cured and paint again; a waterborne clear stays clear.',
          }
        : undefined,
    ),
  },
  {
    id: 'thin-within-label',
    sentence: 'Never thin beyond the label.',
    strength: 'must',
    source: 'the label',
    find: (story) =>
      allSteps(story).flatMap((step) => findThinning(step) ?? []),
  },
  {
    id: 'film-not-too-thick',
    sentence: 'Two thin coats beat one thick one.',
    strength: 'should',
    source: unsourced,
    find: eachCoat((_, step) =>
      step.filmRatio !== undefined && step.filmRatio > thickestFilmRatio
        ? {
            stepId: step.id,
            reason: `By the amount that went on and the size of the surface the film is ${step.filmRatio.toFixed(1)} times the label’s. It dries on top, stays soft below, and may wrinkle.`,
            advice:
              'Check the amount and the surfaces of the step. If they are right, give it far longer than the label, press a fingernail in a hidden spot, and lay the next coat thinner.',
          }
        : undefined,
    ),
  },
  airRule(
    'warm-enough',
    'air-cold',
    'Coat only in air, on wood and from a can warm enough for the label.',
    'should',
    'the label; where it is silent common practice, no source',
    'Keep it warm until it is dry, wait longer than the label, and test a hidden spot with a fingernail before the next coat.',
  ),
  airRule(
    'dry-enough-air',
    'air-damp',
    'Coat only in air dry enough for the label.',
    'should',
    'the label; where it is silent 85 % as on most labels',
    'Dry the air now, wait longer, and look for a milky or soft film before the next coat.',
  ),
  airRule(
    'above-dew-point',
    'dew-point',
    'Coat only where the surface is 3 °C (5.4 °F) or more above the dew point.',
    'should',
    'ISO 8502-4, written for steel',
    'Look for a dull bloom or beads once it is dry. Next time warm the piece through first, and measure its surface in the thickest part.',
  ),
]

type CoatTest = (
  story: SurfaceStory,
  step: StoryStep,
  /** The coat under it, with nothing but preparation in between. */
  under: StoryStep | undefined,
  /** Whether anything cut into that coat since. */
  prepared: boolean,
) => Sighting | undefined

/** A rule that looks at each coat and at what lies under it. */
function eachCoat(test: CoatTest): FinishRule['find'] {
  return (story) =>
    story.steps.flatMap((step) => {
      if (!step.isCoat) return []
      const under = coatUnder(story, step)
      const prepared =
        under !== undefined &&
        perhapsBetween(story, under, step).some(isAbrasion)
      return test(story, step, under, prepared) ?? []
    })
}

function airRule(
  id: RuleId,
  kind: TimelineWarning['kind'],
  sentence: string,
  strength: FinishRule['strength'],
  source: string,
  advice: string,
): FinishRule {
  return {
    id,
    sentence,
    strength,
    source,
    find: eachCoat((_, step) => {
      const warning = step.air.find((one) => one.kind === kind)
      return warning === undefined
        ? undefined
        : { stepId: step.id, reason: warning.detail, advice }
    }),
  }
}

/** What bleeds through the first waterborne paint or primer, when nothing under it holds it back. */
function findBleeding(
  story: SurfaceStory,
  step: StoryStep,
): Sighting | undefined {
  const isOpaque = (one: StoryStep) => one.kind === 'prime' || isPaint(one)
  if (
    story.isHardware ||
    !isFirst(story, step, isOpaque) ||
    baseOf(step.product) !== 'water' ||
    blocksStains(step.product)
  )
    return undefined
  const before = perhapsBefore(story, step)
  if (before.some((one) => one.isCoat && blocksStains(one.product)))
    return undefined
  const later = story.steps.slice(story.steps.indexOf(step) + 1)
  // A second, blocking coat before the first colour puts it right.
  const colour = later.findIndex(isPaint)
  if (
    later
      .slice(0, colour < 0 ? later.length : colour)
      .some((one) => one.isCoat && blocksStains(one.product))
  )
    return undefined
  const bareness =
    barenessUnder(story, step) ?? (cameUnfinished(story) ? 'new' : undefined)
  const { tannin, knots } = story.wood
  const stain = before.find((one) => one.kind === 'stain')
  const paint = [step, ...later].find(isPaint)
  const threat =
    stain !== undefined && baseOf(stain.product) === 'oil'
      ? `The ${stain.product?.name ?? 'stain'} under it bleeds`
      : bareness !== undefined && tannin !== undefined
        ? `It is ${tannin}, laid bare, whose tannin bleeds`
        : knots !== undefined
          ? `It is ${knots}, whose knots bleed`
          : tannin !== undefined && isPale(paint?.product)
            ? `It is ${tannin} under a pale paint, and tannin that works through the old finish bleeds`
            : undefined
  if (threat === undefined) return undefined
  return {
    stepId: step.id,
    strength: bareness === undefined && stain === undefined ? 'mind' : 'should',
    reason: `${threat} through a waterborne coat, and ${stepWords(step)} is not known to hold it back.`,
    advice:
      'Watch for yellow or brown marks as it dries. Where one shows, do not add paint: spot it, or the whole surface, with a stain-blocking primer, two coats on knots, then go on.',
  }
}

function findThinning(step: StoryStep): Sighting | undefined {
  const { thinningPercent } = step.step
  const { product } = step
  if (thinningPercent === undefined || product === undefined) return undefined
  const limit = product.label.maxThinningPercent
  if (limit !== undefined && thinningPercent > limit) {
    return {
      stepId: step.id,
      reason: `It was thinned by ${thinningPercent} % and the label allows ${limit === 0 ? 'none' : `${limit} %`}. The film is thinner and weaker than the label’s times and numbers are for.`,
      advice:
        'Let it harden fully and test a hidden spot with a fingernail and tape before the next coat. Mix the next batch within the label.',
    }
  }
  return limit === undefined &&
    baseOf(product) === 'water' &&
    thinningPercent > usualThinningPercent
    ? {
        stepId: step.id,
        strength: 'mind',
        reason: `It was thinned by ${thinningPercent} %, and the label says nothing of thinning: ${usualThinningPercent} % is about the most that waterborne products take.`,
        advice:
          'Read the limit off the can or its data sheet and add it on the Shelf.',
      }
    : undefined
}
