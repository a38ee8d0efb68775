import { createHash } from 'node:crypto'
import { readFileSync, readdirSync } from 'node:fs'
import { expect, test, vi } from 'vitest'
import { checkJournal } from '#services/check/check-journal'
import { closeDatabase, database } from '#services/database/open-database'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import { newPicture } from '#services/renditions/open-picture'
import { renditionsIdle } from '#services/renditions/renditions'
import { dataFolder } from '#services/settings/data-folder'
import { makeJob } from '../support/make-job'
import { useOwnDisk } from '../support/own-disk'
import { sendPhotos } from '../support/send-photos'

const disk = useOwnDisk('full-disk', 10)

async function grain(number: number): Promise<Buffer> {
  return newPicture({
    create: {
      width: 900 + number,
      height: 700,
      channels: 3,
      background: 'white',
      noise: { type: 'gaussian', mean: 128, sigma: 60 },
    },
  })
    .jpeg({ quality: 90 })
    .toBuffer()
}

test.skipIf(!disk.isMounted)(
  'on a disk that fills up what was acknowledged stays, the rest leaves nothing, and room makes all well again',
  async () => {
    const job = await makeJob()
    const kept: string[] = []
    let failure: unknown
    for (let number = 0; number < 100 && failure === undefined; number += 1) {
      const bytes = await grain(number)
      try {
        const sent = await sendPhotos(job.id, [['a.jpg', bytes]])
        kept.push(...sent.photos.map((photo) => photo.sha256))
      } catch (error) {
        failure = error
      }
      await renditionsIdle()
    }
    // The disk was full, and the sender was not told that the photo is kept.
    expect(failure).toBeInstanceOf(Error)
    expect(kept.length).toBeGreaterThan(2)
    const store = await openPhotoStore()
    const intact = () =>
      kept.every(
        (sha256) =>
          createHash('sha256')
            .update(readFileSync(store.path(sha256)))
            .digest('hex') === sha256,
      )
    expect(intact()).toBe(true)
    const { arriving } = dataFolder(disk.root)
    const files = readdirSync(arriving).filter(
      (name) => !name.endsWith('.keeping'),
    )
    expect(files).toEqual([])
    // Renditions that found no room were spoken of; they are made when there is some.
    vi.mocked(console.error).mockClear()

    await closeDatabase()
    disk.setMegabytes(40)
    const db = await database()
    expect(await db.photo.count()).toBe(kept.length)
    const again = await sendPhotos(job.id, [['b.jpg', await grain(101)]])
    expect(again.photos).toHaveLength(1)
    await renditionsIdle()
    const check = await checkJournal()
    expect(check.findings).toEqual([])
    expect(intact()).toBe(true)
  },
)
