import {
  type Outcome,
  type PhotoRequest,
  type Waiting,
  afterDiscarding,
  afterSending,
  claimMilliseconds,
  claimed,
  hasFailed,
  lookAgainAt,
  nextToSend,
  triedAgain,
  waitsForWorkshop,
  withoutStep,
} from '#core/queue/queue'
import { readOutcome } from '#core/queue/read-outcome'
import {
  changeQueue,
  holdsInMemory,
  putInQueue,
  readBytes,
  readWaiting,
  storeWhatIsHeld,
} from './phone-store'

/** Something that this tab has sent. */
export type Done = {
  readonly key: string
  readonly job: string
  readonly words: string
  readonly kind: Waiting['request']['kind']
  readonly id: string
  readonly twice: boolean
  readonly message: string
}

/** The queue as a screen shows it. */
export type QueueView = {
  readonly waiting: readonly Waiting[]
  /** How much of each thing that is on its way has gone out, 0 to 1. */
  readonly sent: Readonly<Record<string, number>>
  /** The latest first. */
  readonly done: readonly Done[]
  /** How many chosen photos have not been copied into the queue yet. */
  readonly copying: number
  /** Something is in this tab only, because the phone had no room for it. */
  readonly inMemory: boolean
  /** Whether the browser has promised to keep what waits here; undefined while it has not been asked. */
  readonly stays: boolean | undefined
}

export const emptyQueue: QueueView = {
  waiting: [],
  sent: {},
  done: [],
  copying: 0,
  inMemory: false,
  stays: undefined,
}

/** Two at a time keep the line busy without starving the first. */
const atOnce = 2
const doneShown = 100
/** A line that takes nothing for so long is dead. */
const silenceMilliseconds = 60_000

const me = newKey()
let view = emptyQueue
let underWay = 0
let timer: ReturnType<typeof setTimeout> | undefined
let others: BroadcastChannel | undefined
let started = false
const listeners = new Set<() => void>()

/** A name that nothing else has, made here; also where the page is not served securely. */
export function newKey(): string {
  const bytes = new Uint8Array(16)
  crypto.getRandomValues(bytes)
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join(
    '',
  )
}

export function readQueueView(): QueueView {
  return view
}

/** Tells of every change of the queue until the function that it gives back is called. */
export function watchQueue(listener: () => void): () => void {
  listeners.add(listener)
  return () => {
    listeners.delete(listener)
  }
}

function show(values: Partial<QueueView>): void {
  view = { ...view, ...values }
  holdTab(hasUnsaved(view))
  for (const listener of listeners) listener()
}

/** Whether closing or reloading the tab would lose something. */
export function hasUnsaved({ copying, inMemory }: QueueView): boolean {
  return copying > 0 || inMemory
}

/** Has the browser ask before the tab goes, as long as something would be lost with it and no longer: asking costs speed. */
function holdTab(isHeld: boolean): void {
  if (isHeld) addEventListener('beforeunload', ask)
  else removeEventListener('beforeunload', ask)
}

function ask(event: BeforeUnloadEvent): void {
  event.preventDefault()
}

async function showQueue(): Promise<void> {
  show({ waiting: await readWaiting(), inMemory: holdsInMemory() })
}

/** Sends what waits here, now and whenever there is a chance: a network, a tab that is looked at again, a new start. */
export function startSending(): void {
  if (started) return
  started = true
  if ('BroadcastChannel' in globalThis) {
    others = new BroadcastChannel('coatbook-queue')
    others.onmessage = () => {
      void showQueue()
    }
  }
  const now = () => {
    if (document.visibilityState === 'visible') void trySoon()
  }
  addEventListener('online', now)
  addEventListener('pageshow', now)
  document.addEventListener('visibilitychange', now)
  void trySoon()
}

/** Tries at once what only waits for the workshop, and to write down what is in this tab only. */
async function trySoon(): Promise<void> {
  await storeWhatIsHeld()
  await changeQueue((queue) => ({
    put: queue
      .filter(waitsForWorkshop)
      .map((one) => ({ ...one, notBefore: 0 })),
    remove: [],
  }))
  await showQueue()
  void work()
}

async function queueChanged(): Promise<void> {
  await showQueue()
  others?.postMessage('changed')
  void work()
}

/** What photos are put into the queue for. */
export type PhotosFor = {
  readonly job: string
  readonly fields: PhotoRequest['fields']
  /** The sending key of the step they belong to, where that was made on this phone. */
  readonly stepKey?: string | undefined
}

/** Puts photos into the queue, one after the other, and starts to send them. Resolves when all are safe on this phone. */
export async function queuePhotos(
  files: readonly File[],
  { job, fields, stepKey }: PhotosFor,
): Promise<void> {
  show({ copying: view.copying + files.length })
  askToStay()
  for (const file of files) {
    // A file that cannot be read must not hold up those behind it.
    const bytes = await file.arrayBuffer().catch(() => undefined)
    await putInQueue(
      {
        key: newKey(),
        job,
        words: file.name,
        addedAt: Date.now(),
        request: {
          kind: 'photo',
          name: file.name,
          mediaType: file.type,
          modified: file.lastModified,
          fields,
        },
      },
      bytes,
      stepKey,
    )
    show({ copying: view.copying - 1 })
    await queueChanged()
  }
}

/** Puts a step into the queue and gives its sending key. Resolves when it is safe on this phone. */
export async function queueStep(
  job: string,
  words: string,
  body: Readonly<Record<string, unknown>>,
): Promise<string> {
  const key = newKey()
  askToStay()
  await putInQueue({
    key,
    job,
    words,
    addedAt: Date.now(),
    request: { kind: 'step', body },
  })
  await queueChanged()
  return key
}

/** Puts a line for the note of a step into the queue. Resolves when it is safe on this phone. */
export async function queueNote(
  job: string,
  step: string,
  words: string,
): Promise<void> {
  askToStay()
  await putInQueue({
    key: newKey(),
    job,
    words: `Note: ${words}`,
    addedAt: Date.now(),
    request: { kind: 'note', step, words },
  })
  await queueChanged()
}

/** Asks the browser to keep what waits here even when its disk is short. */
function askToStay(): void {
  // Absent where the page is not served securely, whatever the types say.
  if (!('storage' in navigator) || !('persist' in navigator.storage)) {
    show({ stays: false })
    return
  }
  navigator.storage.persist().then(
    (stays) => {
      show({ stays })
    },
    () => {
      show({ stays: false })
    },
  )
}

/** Tries one thing again, or all that the workshop failed at. */
export async function sendAgain(key?: string): Promise<void> {
  await changeQueue((queue) => ({
    put: queue
      .filter((one) => (key === undefined ? hasFailed(one) : one.key === key))
      .map(triedAgain),
    remove: [],
  }))
  await queueChanged()
}

/** Sends a photo to its job alone, when its step is not to be had. */
export async function sendWithoutStep(key: string): Promise<void> {
  await changeQueue((queue) => ({
    put: queue.filter((one) => one.key === key).map(withoutStep),
    remove: [],
  }))
  await queueChanged()
}

/** Gives one thing up. */
export async function discard(key: string): Promise<void> {
  await changeQueue((queue) => afterDiscarding(queue, key))
  await queueChanged()
}

async function work(): Promise<void> {
  while (underWay < atOnce) {
    underWay += 1
    const taken = await take().catch(() => undefined)
    if (taken === undefined) {
      underWay -= 1
      break
    }
    void sendAndSettle(taken)
  }
  clearTimeout(timer)
  // Each sending that ends calls again.
  if (underWay >= atOnce) return
  const at = lookAgainAt(view.waiting, Date.now())
  if (at === undefined) return
  timer = setTimeout(
    () => {
      void showQueue().then(work)
    },
    // What is due is being sent by now, or held up by something that will call again.
    Math.max(500, at - Date.now()),
  )
}

async function take(): Promise<Waiting | undefined> {
  const { put } = await changeQueue((queue) => {
    const next = nextToSend(queue, Date.now())
    return {
      put: next === undefined ? [] : [claimed(next, me, Date.now())],
      remove: [],
    }
  })
  const taken = put[0]
  if (taken !== undefined) await showQueue()
  return taken
}

async function sendAndSettle(one: Waiting): Promise<void> {
  const renewal = setInterval(() => {
    void changeQueue((queue) => ({
      put: queue
        .filter((each) => each.key === one.key && each.claim?.by === me)
        .map((each) => claimed(each, me, Date.now())),
      remove: [],
    }))
  }, claimMilliseconds / 3)
  let outcome: Outcome
  try {
    outcome = await send(one)
  } catch (error) {
    outcome = { kind: 'failed', message: String(error) }
  }
  clearInterval(renewal)
  await settle(one, outcome)
  underWay -= 1
  await queueChanged()
}

async function settle(one: Waiting, outcome: Outcome): Promise<void> {
  const { kind } = one.request
  await changeQueue(
    (queue) => afterSending(queue, one.key, outcome, Date.now()),
    outcome.kind === 'kept' && kind === 'step'
      ? { key: one.key, id: outcome.id }
      : undefined,
  )
  show({
    sent: Object.fromEntries(
      Object.entries(view.sent).filter(([key]) => key !== one.key),
    ),
  })
  if (outcome.kind !== 'kept') return
  // What has gone has left room.
  await storeWhatIsHeld()
  const { id, twice, message } = outcome
  const { key, job, words } = one
  show({
    done: [{ key, job, words, kind, id, twice, message }, ...view.done].slice(
      0,
      doneShown,
    ),
  })
}

async function send(one: Waiting): Promise<Outcome> {
  const { key, job, request } = one
  const inJson = (address: string, body: unknown) =>
    post(address, key, JSON.stringify(body), {
      'content-type': 'application/json',
    })
  if (request.kind === 'step') {
    return inJson(`/api/jobs/${job}/steps`, request.body)
  }
  if (request.kind === 'note') {
    const { step, words } = request
    return inJson(`/api/jobs/${job}/steps/${step}/notes`, { words })
  }
  // A photo is much to send only to be turned away once more.
  if (one.trouble?.kind === 'turned-away') {
    const status = await fetch('/api/changes', { cache: 'no-store' }).then(
      (answer) => answer.status,
      () => 0,
    )
    if (status === 401 || status === 0) return readOutcome(status, '')
  }
  const bytes = await readBytes(key)
  if (bytes === undefined) {
    return {
      kind: 'refused',
      message:
        'The browser could not read this photo, or has lost it. Choose it again.',
    }
  }
  const body = new FormData()
  for (const [name, value] of request.fields) body.append(name, value)
  body.append('modified', String(request.modified))
  body.append(
    'file',
    new File([bytes], request.name, { type: request.mediaType }),
  )
  return post(`/api/jobs/${job}/photos`, key, body, {}, (part) => {
    show({ sent: { ...view.sent, [key]: part } })
  })
}

/** By XMLHttpRequest, because fetch does not tell how much of a body has gone out. */
function post(
  address: string,
  key: string,
  body: FormData | string,
  headers: Readonly<Record<string, string>>,
  onProgress?: (part: number) => void,
): Promise<Outcome> {
  return new Promise((resolve) => {
    const request = new XMLHttpRequest()
    let silence: ReturnType<typeof setTimeout> | undefined
    const heard = () => {
      clearTimeout(silence)
      silence = setTimeout(() => {
        request.abort()
      }, silenceMilliseconds)
    }
    request.upload.addEventListener('progress', (event) => {
      heard()
      if (event.lengthComputable) onProgress?.(event.loaded / event.total)
    })
    request.addEventListener('loadend', () => {
      clearTimeout(silence)
      resolve(readOutcome(request.status, request.responseText))
    })
    request.open('POST', address)
    request.setRequestHeader('idempotency-key', `"${key}"`)
    for (const [name, value] of Object.entries(headers)) {
      request.setRequestHeader(name, value)
    }
    heard()
    request.send(body)
  })
}
