import type { SurfaceStory } from '#core/finish/surface-story'

/**
 * How much a rule weighs: `must` where people or the whole finish are at stake, `should` where most labels and
 * teachers agree, `mind` where it is only worth a thought.
 */
export const ruleStrengths = ['must', 'should', 'mind'] as const
export type RuleStrength = (typeof ruleStrengths)[number]

export const ruleIds = [
  'lead-test-first',
  'photograph-before',
  'oily-rags',
  'clean-before-abrasion',
  'dull-before-coat',
  'hardware-off-first',
  'no-skipped-grit',
  'no-return-to-coarse',
  'no-coarse-machine-on-veneer',
  'not-too-fine-for-stain',
  'not-too-coarse-for-stain',
  'no-coarse-grit-between-coats',
  'no-steel-wool-under-water',
  'rinse-after-strip',
  'dry-after-strip',
  'dry-after-clean',
  'protect-from-stripper',
  'condition-before-stain',
  'conditioner-like-stain',
  'conditioner-for-blotchy-wood',
  'stain-on-bare-wood',
  'stain-dry-before-clear',
  'no-sanding-of-stain',
  'block-stains',
  'primer-first',
  'filler-primed',
  'no-coat-over-wax',
  'no-colour-over-clear',
  'no-strong-solvent-over-weak',
  'no-water-over-young-oil',
  'barrier-over-lacquer',
  'no-clear-over-enamel',
  'no-oil-clear-over-pale',
  'thin-within-label',
  'film-not-too-thick',
  'warm-enough',
  'dry-enough-air',
  'above-dew-point',
  'hardware-back-when-hard',
  'drawers-back-when-hard',
  'line-when-cured',
  'deliver-when-cured',
] as const
export type RuleId = (typeof ruleIds)[number]

/** A rule of a sound finish, as a table of the trade would print it. It never forbids anything: people decide. */
export type FinishRule = {
  readonly id: RuleId
  /** The rule itself, as it would be said at the bench. */
  readonly sentence: string
  readonly strength: RuleStrength
  /** A published source, or `common practice, no source`. */
  readonly source: string
  /**
   * Where the rule was passed over on a surface.
   *
   * @param around the stories of all surfaces of the same piece, this one among them
   */
  readonly find: (
    story: SurfaceStory,
    around: readonly SurfaceStory[],
  ) => readonly Sighting[]
}

/** One place where a rule was passed over. */
export type Sighting = {
  readonly stepId: string
  /** Why it matters here, with what the journal says. */
  readonly reason: string
  /** What to do about it now. */
  readonly advice: string
  /** Where it weighs less or more here than usual. */
  readonly strength?: RuleStrength
}
