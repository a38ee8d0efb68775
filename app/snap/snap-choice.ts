/** One thing that the next photo may be of, in plain values for the screen. */
export type SnapChoice = {
  readonly id: string
  readonly job: string
  /** Such as `Paint, coat 2: sideboard body`. */
  readonly title: string
  /** The product and the job. */
  readonly detail: string
  /** Where it was offered by the workshop. */
  readonly jobTitle?: string
  /** Why it is offered, such as `Ready since today 10:40`. */
  readonly why: string
  /** The step in the workshop that it is. */
  readonly step?: string
  /** That step was begun and has no photo yet. */
  readonly isBegun?: boolean
  /** The sending key of the step, where this phone made it. */
  readonly stepKey?: string
  /** The step that its first photo begins, in the form that the interface takes. */
  readonly newStep?: Readonly<Record<string, unknown>>
  /** The step that it repeats ended days ago, and when: its owner is asked whether this is a new one. */
  readonly over?: {
    readonly step: string
    readonly when: string
    /** What that step itself is called; a phone may remember one from before it was said. */
    readonly title?: string
  }
  /** What is sent along with its photos, besides the step. */
  readonly fields: readonly (readonly [name: string, value: string])[]
  /** The steps whose coats are ready for it: once it is offered, they are done. */
  readonly follows: readonly string[]
  readonly doing: SnapDoing
}

/** How a new step is done; what is not said is absent. */
export type SnapDoing = {
  readonly amount?: number | undefined
  readonly amountUnit?: string | undefined
  readonly thinningPercent?: number | undefined
  readonly grit?: number | undefined
  readonly note?: string | undefined
}

/** The job and the step whose page is open, if one is. */
export type SnapPage = {
  readonly job?: string | undefined
  readonly step?: string | undefined
}

/**
 * The step that a choice is, as far as the workshop has it: it may have been sent since it was taken in hand.
 *
 * @param sent what this phone has sent
 */
export function idOfStep(
  { step, stepKey }: SnapChoice,
  sent: readonly { readonly key: string; readonly id: string }[],
): string | undefined {
  return step ?? sent.find(({ key }) => key === stepKey)?.id
}

/** What is remembered, under the name that it has by now. */
function named(
  remembered: SnapChoice,
  choices: readonly SnapChoice[],
): SnapChoice {
  const now = choices.find(
    ({ step }) => step !== undefined && step === remembered.step,
  )
  return now === undefined
    ? remembered
    : { ...remembered, title: now.title, detail: now.detail }
}

/**
 * What the next photo is taken to be of: the step whose page is open; else what was used last on this phone, unless its coat
 * has become ready by now; else the likeliest. Never a step that ended days ago: then it is a photo for the job alone. On
 * the pages of a job only what belongs to it.
 *
 * @param choices the likeliest first
 */
export function likeliestChoice(
  choices: readonly SnapChoice[],
  remembered: SnapChoice | undefined,
  { job, step }: SnapPage,
): SnapChoice | undefined {
  const here = (one: SnapChoice) => job === undefined || one.job === job
  const open = choices.find(
    (one) => one.step !== undefined && one.step === step,
  )
  if (open !== undefined) return open
  const isOver = choices.some(
    (one) =>
      remembered?.step !== undefined && one.follows.includes(remembered.step),
  )
  if (remembered !== undefined && !isOver && here(remembered)) {
    return named(remembered, choices)
  }
  const first = choices.find((one) => here(one) && one.over === undefined)
  if (first !== undefined) return first
  const last = choices.find(here)
  const where = job ?? last?.job
  if (where === undefined) return undefined
  return {
    id: `job ${where}`,
    job: where,
    title: 'A photo for this job',
    detail: [
      ...(job === undefined ? [last?.jobTitle ?? ''] : []),
      'Not placed on a step yet',
    ].join(' · '),
    why: '',
    fields: [],
    follows: [],
    doing: {},
  }
}

/** The choice of a step that is over, as a new step or as more of that one. */
export function withOver(
  choice: SnapChoice,
  isMore: boolean,
  offered: readonly SnapChoice[],
): SnapChoice {
  if (choice.over === undefined) return choice
  if (!isMore) return offered.find((one) => one.id === choice.id) ?? choice
  const { step, title = choice.title } = choice.over
  const more = { ...choice, step, title }
  delete more.newStep
  return more
}

/**
 * How the next new step is done: as said, else with the settings of the last time. How much was used is measured each time
 * anew, so that the amount of the last time is never taken for one of this time.
 *
 * @param said what was set on the steppers in this go
 */
export function doingOf(
  chosen: SnapChoice | undefined,
  said: SnapDoing | undefined,
): SnapDoing {
  return said ?? { ...chosen?.doing, amount: undefined }
}

/** The body of the step that the first photo of a choice begins. */
export function bodyOfStep(
  newStep: Readonly<Record<string, unknown>>,
  doing: SnapDoing,
): Readonly<Record<string, unknown>> {
  const { amount, amountUnit, note, ...rest } = doing
  return {
    ...newStep,
    ...rest,
    ...(amount === undefined || amount <= 0
      ? {}
      : { amount: { value: amount, unit: amountUnit ?? 'ml' } }),
    ...(note === undefined || note.trim() === '' ? {} : { note }),
  }
}
