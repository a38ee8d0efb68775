import { newKey, queuePhotos, queueStep } from '../_queue/sender'
import { readNote, writeNote } from '../_queue/phone-store'
import { type SnapChoice, type SnapDoing, bodyOfStep } from './snap-choice'

/** What this phone remembers of the step in hand. */
export type SnapMemory = {
  readonly chosen?: SnapChoice | undefined
  /** How the next new step is done, as set on the steppers; absent: as offered. */
  readonly doing?: SnapDoing | undefined
  /** What speaks against a choice, such as a surface that is not dry, in few words. */
  readonly warning?: { readonly of: string; readonly words: string } | undefined
  /** The page ended while the camera was open; its photo may be in the gallery. */
  readonly interrupted: boolean
}

export const nothingRemembered: SnapMemory = { interrupted: false }

/** After so long without a photo, what was in hand is no longer. */
const inHandMilliseconds = 3 * 3_600_000
const cameraMilliseconds = 30 * 60_000

type Note = { readonly chosen: SnapChoice; readonly at: number }
type CameraNote = Note & { readonly page: string }

const page = newKey()
let memory = nothingRemembered
let started = false
const listeners = new Set<() => void>()

export function readSnapMemory(): SnapMemory {
  return memory
}

export function watchSnapMemory(listener: () => void): () => void {
  listeners.add(listener)
  return () => {
    listeners.delete(listener)
  }
}

function show(values: Partial<SnapMemory>): void {
  memory = { ...memory, ...values }
  for (const listener of listeners) listener()
}

/** Recalls what was in hand on this phone. */
export function startSnapMemory(): void {
  if (started) return
  started = true
  void recall()
  document.addEventListener('visibilitychange', () => {
    // Back from the camera with the page alive: if there is a photo, it is in the input.
    if (document.visibilityState === 'visible') void forgetCamera()
  })
}

async function recall(): Promise<void> {
  const [note, camera] = await Promise.all([
    readNote<Note>('snap'),
    readNote<CameraNote>('camera'),
  ])
  const now = Date.now()
  const interrupted =
    camera !== undefined &&
    camera.page !== page &&
    now - camera.at < cameraMilliseconds
  const last = interrupted ? camera : note
  const chosen =
    last !== undefined && now - last.at < inHandMilliseconds
      ? await withStep(last.chosen)
      : undefined
  // What was chosen since on this page is newer.
  show({ interrupted, ...(memory.chosen === undefined && { chosen }) })
}

/** A step that this phone made has an id once it was sent. */
async function withStep(choice: SnapChoice): Promise<SnapChoice> {
  const { stepKey } = choice
  if (stepKey === undefined || choice.step !== undefined) return choice
  const step = await readNote<string>(`step ${stepKey}`)
  return step === undefined ? choice : { ...choice, step }
}

/** Takes a step in hand. */
export function chooseSnap(chosen: SnapChoice): void {
  show({ chosen, doing: undefined })
  void remember(chosen)
}

/** Takes a step in hand that was begun by its form, once: whoever takes another one then and looks back keeps that. */
export async function takeBegun(choice: SnapChoice): Promise<void> {
  if ((await readNote<string>('begun')) === choice.step) return
  await writeNote('begun', choice.step)
  chooseSnap(choice)
}

/** Says how the next new step is done. */
export function sayDoing(doing: SnapDoing): void {
  show({ doing })
}

/** Says what speaks against a choice, for where its photo is taken from. */
export function warnSnap(warning: SnapMemory['warning']): void {
  show({ warning })
}

function remember(chosen: SnapChoice): Promise<void> {
  return writeNote('snap', { chosen, at: Date.now() } satisfies Note)
}

/** Written down before the camera opens: a phone that is short of memory ends the page behind it. */
export function cameraOpens(chosen: SnapChoice): void {
  void writeNote('camera', {
    chosen,
    at: Date.now(),
    page,
  } satisfies CameraNote)
}

/** The camera is closed again, or its owner has been told. */
export async function forgetCamera(): Promise<void> {
  show({ interrupted: false })
  await writeNote('camera', undefined)
}

/**
 * Puts photos into the queue for what was chosen. The first of a new step puts the step in before it.
 *
 * @param doing how a new step is done, if that was said
 */
export async function snap(
  files: readonly File[],
  choice: SnapChoice,
  doing: SnapDoing,
): Promise<void> {
  await forgetCamera()
  const target = files.length === 0 ? choice : await begin(choice, doing)
  await queuePhotos(files, {
    job: target.job,
    fields:
      target.step === undefined
        ? target.fields
        : [...target.fields, ['step', target.step]],
    stepKey: target.step === undefined ? target.stepKey : undefined,
  })
}

/** Puts the step that a choice begins into the queue, without a photo. Its time is now. */
export async function snapWithoutPhoto(
  choice: SnapChoice,
  doing: SnapDoing,
): Promise<void> {
  const { newStep } = choice
  if (newStep === undefined) return
  const finishedAt = new Date().toISOString()
  await begin({ ...choice, newStep: { ...newStep, finishedAt } }, doing)
}

async function begin(
  choice: SnapChoice,
  doing: SnapDoing,
): Promise<SnapChoice> {
  const { newStep, ...rest } = choice
  if (newStep === undefined) {
    await remember(choice)
    return choice
  }
  const stepKey = await queueStep(
    choice.job,
    choice.title,
    bodyOfStep(newStep, doing),
  )
  const inHand = { ...rest, stepKey, why: 'In hand' }
  show({ chosen: inHand, doing: undefined, warning: undefined })
  await remember(inHand)
  return inHand
}
