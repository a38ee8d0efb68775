import { type Waiting, inOrder, nextOrder, withStep } from '#core/queue/queue'

/*
 * What waits lies in the browser's own database: photos as plain bytes, since some browsers lose or refuse files in it.
 * Where there is no room, or no database, it is held in this tab's memory, and the owner is told. What lies there and
 * cannot be written anew, on a full disk, is known to this tab until it can.
 */
const name = 'coatbook'
const version = 1

type Held = { waiting: Waiting; readonly bytes: ArrayBuffer | undefined }
const held = new Map<string, Held>()
/** What became of things in the database, as long as it is not written there; undefined: they left the queue. */
const unwritten = new Map<string, Waiting | undefined>()
/** The ids of the steps that this tab has sent, by their sending keys. */
const sentSteps = new Map<string, string>()

let opening: Promise<IDBDatabase> | undefined

function openDatabase(): Promise<IDBDatabase> {
  opening ??= new Promise<IDBDatabase>((resolve, reject) => {
    const request = indexedDB.open(name, version)
    request.onupgradeneeded = () => {
      request.result.createObjectStore('waiting', { keyPath: 'key' })
      request.result.createObjectStore('bytes')
      request.result.createObjectStore('notes')
    }
    request.onsuccess = () => {
      // A newer version of the program in another tab must not wait for this one.
      request.result.onversionchange = () => {
        request.result.close()
        opening = undefined
      }
      request.result.onclose = () => {
        opening = undefined
      }
      resolve(request.result)
    }
    request.onerror = () => {
      reject(asError(request.error))
    }
  }).catch((error: unknown) => {
    opening = undefined
    throw asError(error)
  })
  return opening
}

function asError(value: unknown): Error {
  return value instanceof Error ? value : new Error(String(value))
}

function answerOf<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => {
      resolve(request.result)
    }
    request.onerror = () => {
      reject(asError(request.error))
    }
  })
}

/** Resolves when all that a transaction wrote is on disk, as far as the browser says. */
function committed(transaction: IDBTransaction): Promise<void> {
  const done = new Promise<void>((resolve, reject) => {
    transaction.oncomplete = () => {
      resolve()
    }
    transaction.onabort = () => {
      reject(asError(transaction.error))
    }
  })
  // Whoever began it may have failed at a part of it, and not wait for the whole any more.
  done.catch(() => undefined)
  return done
}

async function begin(mode: IDBTransactionMode): Promise<IDBTransaction> {
  const database = await openDatabase()
  try {
    return database.transaction(['waiting', 'bytes', 'notes'], mode, {
      durability: 'strict',
    })
  } catch (error) {
    // Some browsers close a connection without a word.
    opening = undefined
    throw error
  }
}

async function waitingIn(transaction: IDBTransaction): Promise<Waiting[]> {
  // Ours: nothing else writes into it.
  return (await answerOf(
    transaction.objectStore('waiting').getAll(),
  )) as Waiting[]
}

/** The queue by what lies in the database and by what only this tab knows, in order. */
function wholeQueue(stored: readonly Waiting[]): readonly Waiting[] {
  return inOrder([
    ...stored
      .filter(({ key }) => !held.has(key))
      .map((one) => (unwritten.has(one.key) ? unwritten.get(one.key) : one))
      .filter((one) => one !== undefined),
    ...Array.from(held.values(), ({ waiting }) => waiting),
  ])
}

function readStored(): Promise<Waiting[]> {
  return begin('readonly')
    .then(waitingIn)
    .catch(() => [])
}

/** Everything that waits here, in order. */
export async function readWaiting(): Promise<readonly Waiting[]> {
  return wholeQueue(await readStored())
}

/** Whether something is in this tab's memory only, and would be lost with it. */
export function holdsInMemory(): boolean {
  return held.size > 0
}

export type NewWaiting = Omit<Waiting, 'order' | 'tries' | 'notBefore'>

/**
 * Puts something into the queue, behind what is there. When the promise resolves it is on the phone's disk, or, where
 * the browser has no room for it, in this tab's memory.
 *
 * @param stepKey the sending key of the step that a photo belongs to, which may wait here or have been sent
 */
export async function putInQueue(
  added: NewWaiting,
  bytes?: ArrayBuffer,
  stepKey?: string,
): Promise<void> {
  const store = async () => {
    const transaction = await begin('readwrite')
    const done = committed(transaction)
    const queue = wholeQueue(await waitingIn(transaction))
    const stepId = await idOfStep(stepKey, (note) =>
      noteIn<string>(transaction, note),
    )
    transaction
      .objectStore('waiting')
      .put(toWaiting(added, queue, stepKey, stepId))
    if (bytes !== undefined) {
      transaction.objectStore('bytes').put(bytes, added.key)
    }
    await done
  }
  try {
    // A connection that the browser has closed fails once, a full disk again.
    await store().catch(store)
  } catch {
    // No room, or no database here: the photo must not be lost for that.
    const stepId = await idOfStep(stepKey, readNote<string>)
    const stored = await readStored()
    held.set(added.key, {
      waiting: toWaiting(added, wholeQueue(stored), stepKey, stepId),
      bytes,
    })
  }
}

/** Writes what is held in memory to the phone's disk, as far as there is room by now. */
export async function storeWhatIsHeld(): Promise<void> {
  for (const [key, { bytes }] of held) {
    try {
      const transaction = await begin('readwrite')
      const done = committed(transaction)
      // From the first answer on nothing else is written until this is over.
      await waitingIn(transaction)
      const one = held.get(key)?.waiting
      if (one === undefined) continue
      transaction.objectStore('waiting').put(one)
      if (bytes !== undefined) transaction.objectStore('bytes').put(bytes, key)
      await done
      // What could not be written meanwhile is held on.
      if (held.get(key)?.waiting !== one)
        unwritten.set(key, held.get(key)?.waiting)
      held.delete(key)
    } catch {
      return
    }
  }
}

function toWaiting(
  added: NewWaiting,
  queue: readonly Waiting[],
  stepKey: string | undefined,
  stepId: string | undefined,
): Waiting {
  const after = queue.some((one) => one.key === stepKey) ? stepKey : undefined
  const waiting: Waiting = {
    ...added,
    after,
    order: nextOrder(queue),
    tries: 0,
    notBefore: 0,
  }
  return stepId === undefined ? waiting : withStep(waiting, stepId)
}

export type Change = {
  readonly put: readonly Waiting[]
  readonly remove: readonly string[]
}

/**
 * Changes the queue in one go, so that two tabs never both take the same thing. Where it cannot be written, this tab goes
 * by the change all the same: then two may, and what is sent twice is kept once.
 *
 * @param change is given the queue as it is; must not wait for anything, and may be asked twice
 * @param sent a step that was written down: its id is noted for photos that are still to come
 * @returns what the change gave
 */
export async function changeQueue<T extends Change>(
  change: (queue: readonly Waiting[]) => T,
  sent?: { readonly key: string; readonly id: string },
): Promise<T> {
  if (sent !== undefined) sentSteps.set(sent.key, sent.id)
  try {
    return await changeStored(change, sent)
  } catch {
    const stored = await readStored()
    const changed = change(wholeQueue(stored))
    for (const one of changed.put) {
      if (!changeHeld(one)) unwritten.set(one.key, one)
    }
    for (const key of changed.remove) {
      if (!held.delete(key)) unwritten.set(key, undefined)
    }
    return changed
  }
}

/** The same, in the database. */
async function changeStored<T extends Change>(
  change: (queue: readonly Waiting[]) => T,
  sent: { readonly key: string; readonly id: string } | undefined,
): Promise<T> {
  const transaction = await begin('readwrite')
  const done = committed(transaction)
  const stored = await waitingIn(transaction)
  const changed = change(wholeQueue(stored))
  const owed = [...unwritten]
  const put = new Map([
    ...owed.filter(([key]) => stored.some((one) => one.key === key)),
    ...changed.put.map((one) => [one.key, one] as const),
    ...changed.remove.map((key) => [key, undefined] as const),
  ])
  for (const [key, one] of put) {
    if (one === undefined) {
      transaction.objectStore('waiting').delete(key)
      transaction.objectStore('bytes').delete(key)
    } else if (!held.has(key)) {
      transaction.objectStore('waiting').put(one)
    }
  }
  if (sent !== undefined) {
    transaction.objectStore('notes').put(sent.id, sentStep(sent.key))
  }
  await done
  for (const [key, one] of owed) {
    if (unwritten.get(key) === one) unwritten.delete(key)
  }
  for (const one of changed.put) changeHeld(one)
  for (const key of changed.remove) held.delete(key)
  return changed
}

/** @returns whether it is held in memory */
function changeHeld(one: Waiting): boolean {
  const here = held.get(one.key)
  if (here !== undefined) here.waiting = one
  return here !== undefined
}

/** The bytes of a photo that waits; undefined when they are gone. */
export async function readBytes(key: string): Promise<ArrayBuffer | undefined> {
  const here = held.get(key)
  if (here !== undefined) return here.bytes
  const transaction = await begin('readonly')
  const bytes: unknown = await answerOf(
    transaction.objectStore('bytes').get(key),
  )
  return bytes instanceof ArrayBuffer ? bytes : undefined
}

function sentStep(key: string): string {
  return `step ${key}`
}

/** The id of a step that was sent, by its sending key; undefined when it was not sent yet, and without a key. */
async function idOfStep(
  key: string | undefined,
  read: (note: string) => Promise<string | undefined>,
): Promise<string | undefined> {
  if (key === undefined) return undefined
  return sentSteps.get(key) ?? (await read(sentStep(key)))
}

async function noteIn<T>(
  transaction: IDBTransaction,
  key: string,
): Promise<T | undefined> {
  return (await answerOf(transaction.objectStore('notes').get(key))) as
    T | undefined
}

/** Something small that this phone remembers; undefined when it remembers nothing of the kind. */
export async function readNote<T>(key: string): Promise<T | undefined> {
  try {
    return await noteIn<T>(await begin('readonly'), key)
  } catch {
    return undefined
  }
}

/** Remembers something small, or forgets it when it is undefined; where nothing can be remembered, nothing happens. */
export async function writeNote(key: string, note: unknown): Promise<void> {
  try {
    const transaction = await begin('readwrite')
    const done = committed(transaction)
    const notes = transaction.objectStore('notes')
    if (note === undefined) notes.delete(key)
    else notes.put(note, key)
    await done
  } catch {
    // It is a convenience only.
  }
}
