/** A photo that is to be sent: its bytes lie beside the queue, under the same key. */
export type PhotoRequest = {
  readonly kind: 'photo'
  readonly name: string
  readonly mediaType: string
  /** The file's own date, milliseconds since 1970. */
  readonly modified: number
  /** What is sent along with it, such as its role or its step. */
  readonly fields: readonly (readonly [name: string, value: string])[]
}

/** A step that is to be written down, in the form that the interface takes. */
export type StepRequest = {
  readonly kind: 'step'
  readonly body: Readonly<Record<string, unknown>>
}

/** A line for the note of a step that is in the workshop. */
export type NoteRequest = {
  readonly kind: 'note'
  readonly step: string
  readonly words: string
}

/** Something that waits on this device until the workshop has it. Times are milliseconds since 1970. */
export type Waiting = {
  /** Made once where the thing was made; the workshop keeps what comes twice under one key once. */
  readonly key: string
  /** Its place in the queue: what was put in first is sent first. */
  readonly order: number
  readonly job: string
  /** What it is, for the owner. */
  readonly words: string
  readonly addedAt: number
  readonly request: PhotoRequest | StepRequest | NoteRequest
  /** The key of the step that must be written down before it, because it belongs to it. */
  readonly after?: string | undefined
  /** How often it was sent in vain, whatever the cause. */
  readonly tries: number
  /** How many of these the workshop itself failed at; absent: none. */
  readonly failures?: number | undefined
  /** It is not tried again before then. */
  readonly notBefore: number
  readonly trouble?: Trouble | undefined
  /** Who is sending it, and until when that holds; a claim runs out when its tab dies. */
  readonly claim?: { readonly by: string; readonly until: number } | undefined
}

/**
 * Why something is still here. unreachable: the workshop does not answer, all wait. turned-away: it does not let this
 * device in, all wait too. held-up: it can take nothing for now, such as on a full disk, and all wait. failed: it answered
 * that it could not. refused: it will not take this, however often it is sent.
 */
export type Trouble = {
  readonly kind:
    'unreachable' | 'turned-away' | 'held-up' | 'failed' | 'refused'
  readonly message: string
}

/** How one sending went. */
export type Outcome =
  | {
      readonly kind: 'kept'
      /** What it is called in the workshop. */
      readonly id: string
      /** The very bytes were there before. */
      readonly twice: boolean
      readonly message: string
    }
  | Trouble

/** How long a claim holds unless it is renewed: the longest that a dead tab holds up what it was sending. */
export const claimMilliseconds = 8000
const firstPauseMilliseconds = 1000
const longestPauseMilliseconds = 15_000
/** So often a failure of the workshop itself is tried again before the thing is set aside. */
const failuresUntilSetAside = 5

/**
 * How long to wait after so many tries: 1 s, doubled each time, up to 15 s. Short, since it costs little on a local
 * network and somebody is waiting for it.
 */
export function pauseAfter(tries: number): number {
  return Math.min(
    longestPauseMilliseconds,
    firstPauseMilliseconds * 2 ** Math.max(0, tries - 1),
  )
}

/** Whether it stays where it is until its owner decides. */
export function isSetAside(one: Waiting): boolean {
  return one.trouble?.kind === 'refused' || hasFailed(one)
}

/** Whether the workshop failed at it until it was set aside: its owner can have it sent again. */
export function hasFailed({ trouble, failures = 0 }: Waiting): boolean {
  return trouble?.kind === 'failed' && failures >= failuresUntilSetAside
}

/** Whether nothing is wrong with the thing itself: it waits until the workshop can be had from here. */
export function waitsForWorkshop({ trouble }: Waiting): boolean {
  return (
    trouble?.kind === 'unreachable' ||
    trouble?.kind === 'turned-away' ||
    trouble?.kind === 'held-up'
  )
}

function isClaimed(one: Waiting, now: number): boolean {
  return one.claim !== undefined && one.claim.until > now
}

/**
 * What is to be sent next: the first that is not being sent, set aside, or waiting for its step. While one in front
 * pauses, what is behind it waits too, so that things arrive in the order in which they were done. Only photos go beside
 * a step or a note that is being sent: coats are counted in the order in which their steps arrive.
 */
export function nextToSend(
  queue: readonly Waiting[],
  now: number,
): Waiting | undefined {
  for (const one of freeToGo(queue, now)) {
    if (isClaimed(one, now)) continue
    return one.notBefore > now ? undefined : one
  }
  return undefined
}

/**
 * When to look at the queue again, which is when `nextToSend` may have another answer: once the first that is free to go
 * has paused, or the claim on one before it runs out. Milliseconds since 1970; undefined when nothing in it will come by
 * itself. It may be in the past, when something can be sent at once.
 */
export function lookAgainAt(
  queue: readonly Waiting[],
  now: number,
): number | undefined {
  let earliest: number | undefined
  for (const one of freeToGo(queue, now)) {
    const claim = isClaimed(one, now) ? one.claim : undefined
    earliest = Math.min(earliest ?? Infinity, claim?.until ?? one.notBefore)
    if (claim === undefined) break
  }
  return earliest
}

/** What is being sent, and what may be sent beside it, in order. */
function freeToGo(queue: readonly Waiting[], now: number): readonly Waiting[] {
  const keys = new Set(queue.map((one) => one.key))
  let onlyPhotos = false
  return inOrder(queue).filter((one) => {
    if (isSetAside(one)) return false
    if (one.after !== undefined && keys.has(one.after)) return false
    if (one.request.kind === 'photo') return true
    if (onlyPhotos) return false
    onlyPhotos = isClaimed(one, now)
    return true
  })
}

/** The same, claimed by somebody who sends it now, or goes on sending it. */
export function claimed(one: Waiting, by: string, now: number): Waiting {
  return { ...one, claim: { by, until: now + claimMilliseconds } }
}

/** What becomes of the queue once a sending is over: what is put back into it, and which keys leave it. */
export function afterSending(
  queue: readonly Waiting[],
  key: string,
  outcome: Outcome,
  now: number,
): { readonly put: readonly Waiting[]; readonly remove: readonly string[] } {
  const one = queue.find((each) => each.key === key)
  if (one === undefined) return { put: [], remove: [] }
  if (outcome.kind !== 'kept') {
    const tries = one.tries + 1
    const failures = (one.failures ?? 0) + (outcome.kind === 'failed' ? 1 : 0)
    return {
      put: [
        {
          ...one,
          claim: undefined,
          tries,
          failures,
          notBefore: now + pauseAfter(tries),
          trouble: outcome,
        },
      ],
      remove: [],
    }
  }
  return {
    put:
      one.request.kind === 'step' ? photosOfStep(queue, key, outcome.id) : [],
    remove: [key],
  }
}

/** The photos of a step that has just been written down, which can now be sent with its name. */
function photosOfStep(
  queue: readonly Waiting[],
  stepKey: string,
  stepId: string,
): readonly Waiting[] {
  return queue
    .filter((one) => one.after === stepKey)
    .map((one) => withStep(one, stepId))
}

/**
 * The same thing, no longer held back by a step.
 *
 * @param stepId the step, where it has been written down: a photo is sent for it
 */
export function withStep(one: Waiting, stepId: string | undefined): Waiting {
  const { request } = one
  if (request.kind !== 'photo' || stepId === undefined) {
    return { ...one, after: undefined }
  }
  return {
    ...one,
    after: undefined,
    request: { ...request, fields: [...request.fields, ['step', stepId]] },
  }
}

/**
 * The queue without one thing that its owner gives up. Photos that belonged to a step that is given up stay, and go to the
 * job without a step.
 */
export function afterDiscarding(
  queue: readonly Waiting[],
  key: string,
): { readonly put: readonly Waiting[]; readonly remove: readonly string[] } {
  return {
    put: queue
      .filter((one) => one.after === key)
      .map((one) => withStep(one, undefined)),
    remove: [key],
  }
}

/** The same thing, to be tried again at once, because its owner says so or there is a network again. */
export function triedAgain(one: Waiting): Waiting {
  return { ...one, trouble: undefined, tries: 0, failures: 0, notBefore: 0 }
}

/** Whether a photo is sent for a step, which may have been removed in the meantime. */
export function hasStep({ request }: Waiting): boolean {
  return (
    request.kind === 'photo' && request.fields.some(([name]) => name === 'step')
  )
}

/** The same photo for its job alone, to be placed by its owner later. */
export function withoutStep(one: Waiting): Waiting {
  const { request } = one
  if (request.kind !== 'photo') return one
  const fields = request.fields.filter(([name]) => name !== 'step')
  return triedAgain({ ...one, request: { ...request, fields } })
}

/** The queue in the order in which it is sent. */
export function inOrder(queue: readonly Waiting[]): readonly Waiting[] {
  return [...queue].sort((one, other) => one.order - other.order)
}

/** The order of what is put in next. */
export function nextOrder(queue: readonly Waiting[]): number {
  return Math.max(0, ...queue.map((one) => one.order)) + 1
}

/** How the queue stands, in counts. */
export function queueCounts(queue: readonly Waiting[]): {
  readonly waiting: number
  readonly setAside: number
  /** The workshop cannot be had from here, for whatever reason. */
  readonly unreachable: boolean
  /** The reason is that it does not let this device in. */
  readonly turnedAway: boolean
} {
  const setAside = queue.filter(isSetAside).length
  return {
    waiting: queue.length - setAside,
    setAside,
    unreachable: queue.some(waitsForWorkshop),
    turnedAway: queue.some((one) => one.trouble?.kind === 'turned-away'),
  }
}
