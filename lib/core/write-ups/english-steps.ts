import type { StepKind } from '#core/journal/vocabulary'

/** Kinds of steps as labels: on screens, and where a text names a step. */
export const englishStepKinds: Readonly<Record<StepKind, string>> = {
  clean: 'Clean',
  repair: 'Repair',
  strip: 'Strip',
  sand: 'Sand',
  scuff: 'Scuff',
  condition: 'Condition',
  prime: 'Prime',
  coat: 'Paint',
  stain: 'Stain',
  glaze: 'Glaze',
  seal: 'Clear coat',
  wax: 'Wax',
  hardware: 'Hardware',
  liner: 'Liner',
  detail: 'Detail',
  assemble: 'Assemble',
}

/** A step inside a sentence: `paint coat 2`, `clear coat 1`, `scuff`. */
export function stepInSentence({
  kind,
  coat,
}: {
  readonly kind: StepKind
  readonly coat?: number
}): string {
  const name = englishStepKinds[kind].toLowerCase()
  if (coat === undefined) return name
  return name.endsWith('coat') ? `${name} ${coat}` : `${name} coat ${coat}`
}
