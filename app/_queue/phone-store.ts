import { type Waiting, inOrder, nextOrder, withStep } from '#core/queue/queue'

/*
 * What waits lies in the browser's own database: photos as plain bytes, since some browsers lose or refuse files in it.
 * Where there is no room, or no database, it is held in this tab's memory, and the owner is told.
 */
const name = 'coatbook'
const version = 1

type Held = { waiting: Waiting; readonly bytes: ArrayBuffer | undefined }
const held = new Map<string, Held>()

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
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => {
      resolve()
    }
    transaction.onabort = () => {
      reject(asError(transaction.error))
    }
  })
}

async function begin(mode: IDBTransactionMode): Promise<IDBTransaction> {
  const database = await openDatabase()
  return database.transaction(['waiting', 'bytes', 'notes'], mode, {
    durability: 'strict',
  })
}

async function waitingIn(transaction: IDBTransaction): Promise<Waiting[]> {
  // Ours: nothing else writes into it.
  return (await answerOf(
    transaction.objectStore('waiting').getAll(),
  )) as Waiting[]
}

/** Everything that waits here, in order. */
export async function readWaiting(): Promise<readonly Waiting[]> {
  const stored = await begin('readonly').then(waitingIn, () => [])
  return inOrder([
    ...stored,
    ...Array.from(held.values(), ({ waiting }) => waiting),
  ])
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
  try {
    const transaction = await begin('readwrite')
    const done = committed(transaction)
    const queue = await waitingIn(transaction)
    const stepId =
      stepKey === undefined
        ? undefined
        : await noteIn<string>(transaction, sentStep(stepKey))
    const waiting = toWaiting(added, queue, stepKey, stepId)
    transaction.objectStore('waiting').put(waiting)
    if (bytes !== undefined) {
      transaction.objectStore('bytes').put(bytes, added.key)
    }
    await done
  } catch {
    // No room, or no database here: the photo must not be lost for that.
    const stepId =
      stepKey === undefined
        ? undefined
        : await readNote<string>(sentStep(stepKey))
    const waiting = toWaiting(added, await readWaiting(), stepKey, stepId)
    held.set(added.key, { waiting, bytes })
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
 * Changes the queue in one go, so that two tabs never both take the same thing.
 *
 * @param change is given the queue as it is; must not wait for anything
 * @param sent a step that was written down: its id is noted for photos that are still to come
 * @returns what the change gave
 */
export async function changeQueue<T extends Change>(
  change: (queue: readonly Waiting[]) => T,
  sent?: { readonly key: string; readonly id: string },
): Promise<T> {
  let transaction: IDBTransaction | undefined
  try {
    transaction = await begin('readwrite')
  } catch {
    // Without a database all that waits is held in memory.
  }
  const done = transaction === undefined ? undefined : committed(transaction)
  const stored = transaction === undefined ? [] : await waitingIn(transaction)
  const changed = change(
    inOrder([
      ...stored,
      ...Array.from(held.values(), ({ waiting }) => waiting),
    ]),
  )
  for (const one of changed.put) {
    const here = held.get(one.key)
    if (here === undefined) transaction?.objectStore('waiting').put(one)
    else here.waiting = one
  }
  for (const key of changed.remove) {
    held.delete(key)
    transaction?.objectStore('waiting').delete(key)
    transaction?.objectStore('bytes').delete(key)
  }
  if (sent !== undefined) {
    transaction?.objectStore('notes').put(sent.id, sentStep(sent.key))
  }
  await done
  return changed
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
