import { IDBFactory, IDBObjectStore, IDBRequest } from 'fake-indexeddb'
import 'fake-indexeddb/auto'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type * as PhoneStore from '../../../app/_queue/phone-store'
import type { NewWaiting } from '../../../app/_queue/phone-store'

/** A phone as it is after a start: the same disk, nothing in memory. */
async function startAgain(): Promise<typeof PhoneStore> {
  vi.resetModules()
  return import('../../../app/_queue/phone-store')
}

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory())
})
afterEach(() => {
  vi.restoreAllMocks()
  vi.unstubAllGlobals()
})

/** Until it is called nothing can be written: as on a full disk, transactions that write are given up. */
function fillDisk(): () => void {
  const full = function (this: IDBObjectStore) {
    this.transaction.abort()
    return new IDBRequest()
  }
  const spies = (['put', 'delete'] as const).map((what) =>
    vi.spyOn(IDBObjectStore.prototype, what).mockImplementation(full as never),
  )
  return () => {
    for (const spy of spies) spy.mockRestore()
  }
}

const step: NewWaiting = {
  key: 's',
  job: 'j',
  words: 'Paint',
  addedAt: 0,
  request: { kind: 'step', body: {} },
}
const photo: NewWaiting = {
  ...step,
  key: 'p',
  words: 'p.jpg',
  request: {
    kind: 'photo',
    name: 'p.jpg',
    mediaType: 'image/jpeg',
    modified: 0,
    fields: [],
  },
}
const bytes = new Uint8Array([1, 2, 3]).buffer
const take = (phone: typeof PhoneStore, key: string) =>
  phone.changeQueue((queue) => ({
    put: queue
      .filter((one) => one.key === key)
      .map((one) => ({ ...one, claim: { by: 'me', until: 8000 } })),
    remove: [],
  }))
const remove = (phone: typeof PhoneStore, key: string) =>
  phone.changeQueue(() => ({ put: [], remove: [key] }))

test('what is put in is there after a start, with its bytes', async () => {
  await (await startAgain()).putInQueue(photo, bytes)
  const phone = await startAgain()
  expect(await phone.readWaiting()).toMatchObject([{ key: 'p', order: 1 }])
  expect(await phone.readBytes('p')).toEqual(bytes)
  expect(phone.holdsInMemory()).toBe(false)
})

test('a photo waits for its step and stands behind it, though there was no room for the step', async () => {
  const phone = await startAgain()
  const makeRoom = fillDisk()
  await phone.putInQueue(step)
  expect(phone.holdsInMemory()).toBe(true)
  makeRoom()
  await phone.putInQueue(photo, bytes, 's')
  expect(await phone.readWaiting()).toMatchObject([
    { key: 's', order: 1 },
    { key: 'p', order: 2, after: 's' },
  ])
})

test('a photo goes to its step, though it could not be noted that the step was sent', async () => {
  const phone = await startAgain()
  await phone.putInQueue(step)
  fillDisk()
  await phone.changeQueue(() => ({ put: [], remove: ['s'] }), {
    key: 's',
    id: 'kept',
  })
  await phone.putInQueue(photo, bytes, 's')
  expect(await phone.readWaiting()).toMatchObject([
    { key: 'p', request: { fields: [['step', 'kept']] } },
  ])
})

test('on a full disk things are taken and leave the queue all the same, and the disk learns of it once it can', async () => {
  const phone = await startAgain()
  await phone.putInQueue(photo, bytes)
  await phone.putInQueue({ ...photo, key: 'q' }, bytes)
  const makeRoom = fillDisk()
  expect((await take(phone, 'p')).put).toHaveLength(1)
  expect(await phone.readWaiting()).toMatchObject([
    { key: 'p', claim: { by: 'me' } },
    { key: 'q' },
  ])
  await remove(phone, 'p')
  expect(await phone.readWaiting()).toMatchObject([{ key: 'q' }])
  expect(await (await startAgain()).readWaiting()).toHaveLength(2)
  makeRoom()
  await take(phone, 'q')
  expect(await (await startAgain()).readWaiting()).toMatchObject([
    { key: 'q', claim: { by: 'me' } },
  ])
})

test('what another tab sent meanwhile does not come back', async () => {
  const [one, other] = [await startAgain(), await startAgain()]
  await one.putInQueue(photo, bytes)
  const makeRoom = fillDisk()
  await take(one, 'p')
  makeRoom()
  await remove(other, 'p')
  expect(await one.readWaiting()).toEqual([])
  await remove(one, 'nothing')
  expect(await other.readWaiting()).toEqual([])
})

test('what is held in memory goes to the disk once there is room, as it stands by then', async () => {
  const phone = await startAgain()
  const makeRoom = fillDisk()
  await phone.putInQueue(photo, bytes)
  await phone.storeWhatIsHeld()
  expect(phone.holdsInMemory()).toBe(true)
  await take(phone, 'p')
  makeRoom()
  await phone.storeWhatIsHeld()
  expect(phone.holdsInMemory()).toBe(false)
  const later = await startAgain()
  expect(await later.readWaiting()).toMatchObject([
    { key: 'p', claim: { by: 'me' } },
  ])
  expect(await later.readBytes('p')).toEqual(bytes)
})

test('what leaves the queue while it is being written to the disk is not there afterwards', async () => {
  const phone = await startAgain()
  const makeRoom = fillDisk()
  await phone.putInQueue(photo, bytes)
  makeRoom()
  await Promise.all([phone.storeWhatIsHeld(), remove(phone, 'p')])
  expect(await phone.readWaiting()).toEqual([])
  await remove(phone, 'nothing')
  expect(await (await startAgain()).readWaiting()).toEqual([])
})

test('without a database all is held in memory, in order, and can be taken', async () => {
  vi.stubGlobal('indexedDB', {
    open: () => {
      throw new Error('not here')
    },
  })
  const phone = await startAgain()
  await phone.putInQueue(step)
  await phone.putInQueue(photo, bytes, 's')
  expect((await take(phone, 's')).put).toHaveLength(1)
  expect(await phone.readWaiting()).toMatchObject([
    { key: 's', claim: { by: 'me' } },
    { key: 'p', after: 's' },
  ])
  expect(await phone.readBytes('p')).toEqual(bytes)
})

test('a connection that the browser closed without a word is opened anew', async () => {
  const phone = await startAgain()
  await phone.putInQueue(step)
  vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementationOnce(
    function (this: IDBDatabase) {
      this.close()
      throw new DOMException('closed', 'InvalidStateError')
    },
  )
  await phone.putInQueue(photo, bytes, 's')
  expect(phone.holdsInMemory()).toBe(false)
  expect(await (await startAgain()).readWaiting()).toHaveLength(2)
})
