import type { FinishRule, Sighting } from '#core/finish/finish-rule'
import { mentions } from '#core/finish/mentions'
import { driesByOil, isOilStain } from '#core/finish/product-traits'
import { cameUnfinished, isAbrasion } from '#core/finish/step-traits'
import {
  type StoryStep,
  type SurfaceStory,
  allSteps,
} from '#core/finish/surface-story'
import { minutesBetween, minutesPerDay } from '#core/units'

/** The rules that look after people, and the photo that cannot be taken later. */
export const safetyRules: readonly FinishRule[] = [
  {
    id: 'lead-test-first',
    sentence:
      'Test an old or unknown finish for lead before you sand, scuff or strip it.',
    strength: 'must',
    source:
      'USA: 16 CFR 1303, paint sold to consumers from 28 February 1978. UK: Environmental Protection (Controls on Injurious Substances) Regulations 1992.',
    find: (story, around) => {
      if (story.lead.tested || isKnownYoung(story)) return []
      return firstOfPiece(story, around, disturbsOldFinish).map((step) => ({
        stepId: step.id,
        reason: `Nothing written down says that the old finish of the ${story.piece.name} was tested before the ${step.kind}. Paint from before 1978 in the USA, or 1992 in the United Kingdom, may hold lead, and its dust is the harm.`,
        advice:
          'Until a test says otherwise treat it as lead: no dry sanding, no heat, damp methods, a fine-dust vacuum, no children near. A swab is a screen; a laboratory decides. Follow local rules, and use licensed people where they ask for it. Write the result into the note of a step.',
      }))
    },
  },
  {
    id: 'photograph-before',
    sentence: 'Photograph the piece before you change it.',
    strength: 'should',
    source: 'common practice, no source',
    find: (story, around) =>
      around.some((one) => one.hasBeforePhoto)
        ? []
        : firstOfPiece(story, around, (step) => changesLooks(step)).map(
            (step) => ({
              stepId: step.id,
              reason: `No photo shows the ${story.piece.name} as it was before the ${step.kind}.`,
              advice:
                'If there is one on a phone, add it and mark it as before. If a part is untouched still, photograph that now.',
            }),
          ),
  },
  {
    id: 'oily-rags',
    sentence:
      'Lay rags wet with oil flat outdoors to dry, or put them under water in a lidded metal can.',
    strength: 'must',
    source: 'NFPA safety tips on oily rags (quoted second-hand)',
    find: (story) =>
      allSteps(story).flatMap((step): Sighting[] => {
        const { product } = step
        if (
          product === undefined ||
          !driesByOil(product) ||
          !takesRags(step) ||
          hasRagNote(story, step)
        )
          return []
        return [
          {
            stepId: step.id,
            reason: `Nothing is written about the rags of this step. Rags wet with ${product.name} can heat and catch fire by themselves within hours.`,
            advice:
              'Never heap them and never bin them wet. Lay them flat outdoors, or under water in a lidded metal can, then follow the label and local rules for waste. A word in the note keeps the record.',
          },
        ]
      }),
  },
]

function disturbsOldFinish(step: StoryStep, story: SurfaceStory): boolean {
  return (
    !story.isHardware &&
    (isAbrasion(step) || step.kind === 'strip') &&
    !story.steps.slice(0, story.steps.indexOf(step)).some((one) => one.isCoat)
  )
}

function changesLooks(step: StoryStep): boolean {
  return (
    isAbrasion(step) ||
    step.isCoat ||
    step.kind === 'strip' ||
    step.kind === 'clean' ||
    step.kind === 'repair'
  )
}

/** The first such step of a piece, given with the one surface whose story it is; the first surface where several share it. */
function firstOfPiece(
  story: SurfaceStory,
  around: readonly SurfaceStory[],
  isSuch: (step: StoryStep, story: SurfaceStory) => boolean,
): readonly StoryStep[] {
  const firsts = around.flatMap((one) => {
    const step =
      one.steps.find((two) => isSuch(two, one)) ??
      one.untimed.find((two) => isSuch(two, one))
    return step === undefined ? [] : [{ one, step }]
  })
  const startOf = (step: StoryStep) =>
    step.times?.time.started.at ?? step.step.createdAt
  const [first] = firsts.sort(
    (one, other) => startOf(one.step) - startOf(other.step),
  )
  return first?.one === story ? [first.step] : []
}

/** Made or left unfinished lately enough, by what the owner says of the piece. */
function isKnownYoung(story: SurfaceStory): boolean {
  const text = `${story.piece.material ?? ''} ${story.piece.flaws ?? ''}`
  const years = [...text.matchAll(/\b(1[89]\d\d|20\d\d)\b/g)].map((match) =>
    Number(match[1]),
  )
  return (
    cameUnfinished(story) ||
    (years.length > 0 && years.every((year) => year > 1992)) ||
    mentions(text, /lead[- ]free/)
  )
}

/** Whether a step is done with rags: oil stain is wiped off whatever put it on, paint and varnish may be brushed. */
function takesRags({ product, step: { method } }: StoryStep): boolean {
  if (method === 'spray') return false
  return (
    isOilStain(product) ||
    method === 'wipe' ||
    method === 'pad' ||
    method === 'hand'
  )
}

/** Whether a note on rags stands for this step: its own, or one from the same day. */
function hasRagNote(story: SurfaceStory, step: StoryStep): boolean {
  const ended = step.times?.time.finished.at
  return story.ragNotes.some((noted) => {
    if (ended === undefined || noted === undefined) return true
    return (
      Math.abs(minutesBetween(ended, noted.time.finished.at)) <= minutesPerDay
    )
  })
}
