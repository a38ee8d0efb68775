import { expect, test, vi } from 'vitest'
import { checkJournal } from '#services/check/check-journal'
import { closeDatabase, database } from '#services/database/open-database'
import { renditionsIdle } from '#services/renditions/renditions'
import { callApi, textOf } from '../support/api'
import { makeJob } from '../support/make-job'
import { makePhoto } from '../support/make-photo'
import { useOwnDisk } from '../support/own-disk'
import { photoForm } from '../support/send-photos'

const disk = useOwnDisk('read-only-folder', 40)

test.skipIf(!disk.isMounted)(
  'a data folder that cannot be written is said at the start, in plain words and not as another Coatbook',
  async () => {
    disk.setWritable(false)
    await expect(database()).rejects.toThrow(
      `Coatbook may not write in the data folder ${disk.root}.`,
    )
    disk.setWritable(true)
    const db = await database()
    expect(await db.job.count()).toBe(0)
    await closeDatabase()
  },
)

test.skipIf(!disk.isMounted)(
  'a data folder that can no longer be written while the program runs loses nothing, is said, is read on, and works on once it can',
  async () => {
    const job = await makeJob()
    const send = async (width: number) =>
      callApi('POST', `/api/jobs/${job.id}/photos`, {
        body: photoForm([[`${width}.jpg`, await makePhoto({ width })]]),
      })
    const addProduct = (name: string) =>
      callApi('POST', '/api/products', {
        body: { name, category: 'paint', chemistry: 'other', label: {} },
      })
    const expectRefused = async (answer: Response) => {
      expect(answer.status).toBe(507)
      expect(await textOf(answer, 'detail')).toBe(
        'Coatbook may not write on the disk that the journal is on. What was kept before is safe; mend that, then send this again.',
      )
    }
    const first = await send(70)
    expect(first.status).toBe(201)
    const photo = await textOf(first, 'photos', 0, 'id')
    await renditionsIdle()
    const db = await database()
    // Once while nothing is written to the database, and once while something is tried.
    for (const [index, tries] of [0, 2].entries()) {
      disk.setWritable(false)
      // A connection that is open for writing could go on here; it goes with a transaction that is given up.
      await db
        .$transaction(() => Promise.reject(new Error('given up')))
        .catch(() => undefined)
      await expectRefused(await send(80 + index))
      for (let count = 0; count < tries; count += 1) {
        await expectRefused(await addProduct('refused'))
      }
      for (const address of [
        `/api/jobs/${job.id}/timeline`,
        `/api/photos/${photo}/original`,
        `/api/photos/${photo}/thumb`,
      ]) {
        expect((await callApi('GET', address)).status, address).toBe(200)
      }
      disk.setWritable(true)
      // What was refused was written to the log.
      vi.mocked(console.error).mockClear()
      expect((await addProduct('kept')).status).toBe(201)
      expect((await send(90 + index)).status).toBe(201)
      await renditionsIdle()
    }
    expect(await db.photo.count()).toBe(3)
    const products = await db.product.findMany({ select: { name: true } })
    expect(products).toEqual([{ name: 'kept' }, { name: 'kept' }])
    expect((await checkJournal()).findings).toEqual([])
  },
)
