import { airCourse } from '#core/air/air-course'
import { afterRules } from '#core/finish/after-rules'
import { coatRules } from '#core/finish/coat-rules'
import { filmOfStep } from '#core/film/film-of-step'
import { surfaceAreas } from '#core/film/surface-area'
import type { FinishRule, RuleId, RuleStrength } from '#core/finish/finish-rule'
import { preparationRules } from '#core/finish/preparation-rules'
import type { RuleAnswer } from '#core/finish/rule-answer'
import { safetyRules } from '#core/finish/safety-rules'
import { type SurfaceStory, surfaceStories } from '#core/finish/surface-story'
import type { Units } from '#core/measures/units-of-measure'
import type { Journal } from '#core/journal/journal'
import { airWarnings } from '#core/timeline/air-warnings'
import { leadNotes } from '#core/write-ups/lead-notes'

/** All rules of a sound finish, in the order of the work. */
export const finishRules: readonly FinishRule[] = [
  ...safetyRules,
  ...preparationRules,
  ...coatRules,
  ...afterRules,
]

/** One place in a job where a rule was passed over, as the owner reads it. */
export type RuleFinding = {
  readonly rule: RuleId
  readonly strength: RuleStrength
  readonly piece: { readonly id: string; readonly name: string }
  readonly surface: { readonly id: string; readonly name: string }
  readonly stepId: string
  /** The rule itself. */
  readonly sentence: string
  /** Why it matters here, with what the journal says. */
  readonly reason: string
  /** What to do about it. */
  readonly advice: string
  readonly source: string
  /** What the owner said to it; then nothing is left to do. */
  readonly answer?: RuleAnswer
}

/**
 * Where the work on a job passed over the rules of a sound finish, surface by surface, in the order of the pieces and
 * then of the rules.
 *
 * It looks at what was written down, photographed or typed and holds nothing against what may have happened at a time
 * that nobody told. It never forbids: an answered finding stays, with its answer.
 *
 * @param units what its sentences are written in
 */
export function judgeFinish(
  journal: Journal,
  units: Units = 'metric',
): readonly RuleFinding[] {
  return findingsIn(journal, units)
}

/**
 * The findings of a job.
 *
 * @param last the id of a step that comes after all others while nothing tells its time
 */
export function findingsIn(
  journal: Journal,
  units: Units,
  last?: string,
): readonly RuleFinding[] {
  const course = airCourse(journal.air)
  const areas = surfaceAreas(journal.pieces)
  const stories = surfaceStories(
    journal,
    {
      lead: leadNotes(journal),
      airOf: (step, product, { time }) =>
        airWarnings({ id: step.id, product }, time, course, units),
      filmRatioOf: (step, product) => filmOfStep(step, product, areas)?.ratio,
    },
    last,
  )
  const answers = new Map(
    journal.answers?.map((answer) => [answerKey(answer), answer]),
  )
  return stories.flatMap((story) =>
    finishRules.flatMap((rule) =>
      findingsOf(rule, story, stories).map((finding) => {
        const answer = answers.get(
          answerKey({ ...finding, surfaceId: finding.surface.id }),
        )
        return answer === undefined ? finding : { ...finding, answer }
      }),
    ),
  )
}

function findingsOf(
  rule: FinishRule,
  story: SurfaceStory,
  stories: readonly SurfaceStory[],
): readonly RuleFinding[] {
  const around = stories.filter((one) => one.piece === story.piece)
  return rule.find(story, around).map((sighting) => ({
    rule: rule.id,
    strength: sighting.strength ?? rule.strength,
    piece: { id: story.piece.id, name: story.piece.name },
    surface: { id: story.surface.id, name: story.surface.name },
    stepId: sighting.stepId,
    sentence: rule.sentence,
    reason: upperFirst(sighting.reason),
    advice: sighting.advice,
    source: rule.source,
  }))
}

function answerKey(
  of: Pick<RuleAnswer, 'rule' | 'surfaceId' | 'stepId'>,
): string {
  return `${of.rule} ${of.surfaceId} ${of.stepId}`
}

function upperFirst(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}
