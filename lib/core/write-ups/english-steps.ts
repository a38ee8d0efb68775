import type { StepKind } from '#core/journal/vocabulary'
import { type MaterialPurpose, purposeOf } from '#core/materials/purpose'
import { ordinalOf } from '#core/write-ups/english-words'
import type { ToldStep } from '#core/write-ups/told-step'

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

/** Kinds of steps as work. */
const workWords: Readonly<Record<StepKind, string>> = {
  clean: 'cleaning',
  repair: 'repair',
  strip: 'stripping',
  sand: 'sanding',
  scuff: 'scuffing',
  condition: 'conditioning',
  prime: 'priming',
  coat: 'coating',
  stain: 'staining',
  glaze: 'glazing',
  seal: 'sealing',
  wax: 'waxing',
  hardware: 'work on the hardware',
  liner: 'lining',
  detail: 'work on the details',
  assemble: 'assembly',
}

/** What assembly is where no more than parts of a piece are put back. */
export const refitting = 'refitting'

const coatWorks: Readonly<Partial<Record<MaterialPurpose, string>>> = {
  conditioner: 'conditioning',
  primer: 'priming',
  paint: 'painting',
  stain: 'staining',
  glaze: 'glazing',
  sealer: 'sealing',
  'clear coat': 'clear coating',
  wax: 'waxing',
  finish: 'finishing',
}

/** What a step is called as work: `sanding`, `clear coating`; with what its coat is for, where it lays one. */
export function stepAsWork(kind: StepKind, purpose?: MaterialPurpose): string {
  return kind === 'hardware' || purpose === undefined
    ? workWords[kind]
    : (coatWorks[purpose] ?? 'finishing')
}

/** What is laid on, by what it is for. */
const coatNouns: Readonly<Partial<Record<MaterialPurpose, string>>> = {
  conditioner: 'conditioner',
  primer: 'primer',
  paint: 'paint',
  stain: 'stain',
  glaze: 'glaze',
  sealer: 'sealer',
  'clear coat': 'clear coat',
  wax: 'wax',
  finish: 'finish',
  'hardware finish': 'finish',
}

/** A step inside a sentence: `the second coat of paint`, `the first clear coat`, `the stain`, `sanding`. */
export function stepInSentence(step: ToldStep): string {
  const noun = nounOf(step)
  if (noun === undefined) {
    if (step.isRefit === true) return refitting
    return step.kind === 'repair' ? 'the repair' : workWords[step.kind]
  }
  const which = ordinalIn(step)
  if (which === undefined) return `the ${noun}`
  return noun.endsWith('coat')
    ? `the ${which} ${noun}`
    : `the ${which} coat of ${noun}`
}

/** A coat by its kind and number alone, inside a sentence: `the second coat of paint`. */
export function coatInSentence(kind: StepKind, coat?: number): string {
  return stepInSentence({
    kind,
    purpose: purposeOf(kind, kind === 'coat' ? 'paint' : 'clear coat'),
    ...(coat !== undefined && { coat }),
  })
}

/** What was going on at a step: `priming`, of several coats `the second coat of primer`. */
export function duringStep(step: ToldStep): string {
  return step.coat === undefined || step.coats === 1
    ? step.isRefit === true
      ? refitting
      : stepAsWork(step.kind, step.purpose)
    : stepInSentence(step)
}

/** A wait by what it lay between: `from the first coat of primer to the second`, `from stripping to sanding`. */
export function betweenSteps(from: ToldStep, to: ToldStep): string {
  const which = ordinalIn(to)
  const isAlike =
    which !== undefined &&
    ordinalIn(from) !== undefined &&
    nounOf(from) === nounOf(to)
  return `from ${stepInSentence(from)} to ${isAlike ? `the ${which}` : stepInSentence(to)}`
}

function nounOf({ purpose }: ToldStep): string | undefined {
  return purpose === undefined ? undefined : coatNouns[purpose]
}

/** Where there is but one coat nobody counts. */
function ordinalIn({ coat, coats }: ToldStep): string | undefined {
  return coat === undefined || (coat === 1 && coats === 1)
    ? undefined
    : ordinalOf(coat)
}
