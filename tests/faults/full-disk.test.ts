import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import {
  copyFileSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, inject, test, vi } from 'vitest'
import { checkJournal } from '#services/check/check-journal'
import { closeDatabase, database } from '#services/database/open-database'
import { openPhotoStore } from '#services/photo-store/open-photo-store'
import { newPicture } from '#services/renditions/open-picture'
import { renditionsIdle } from '#services/renditions/renditions'
import { dataFolder } from '#services/settings/data-folder'
import { makeJob } from '../support/make-job'
import { sendPhotos } from '../support/send-photos'

/** A disk of its own needs the right to mount one; where that is missing the test says so and is skipped. */
const root = mkdtempSync(path.join(tmpdir(), 'coatbook-full-disk-'))
const mounted = mount()

function mount(): boolean {
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=10m', 'tmpfs', root], {
      stdio: 'ignore',
    })
    return true
  } catch {
    process.stderr.write('full disk: no right to mount one, so not tried\n')
    return false
  }
}

beforeAll(() => {
  process.env['COATBOOK_DATA'] = root
  process.env['COATBOOK_ZONE'] = 'Europe/London'
})
afterAll(async () => {
  await renditionsIdle()
  await closeDatabase()
  if (mounted) execFileSync('umount', ['-l', root])
  rmSync(root, { recursive: true, force: true })
  delete process.env['COATBOOK_DATA']
  delete process.env['COATBOOK_ZONE']
})

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

test.skipIf(!mounted)(
  'on a disk that fills up what was acknowledged stays, the rest leaves nothing, and room makes all well again',
  async () => {
    copyFileSync(inject('templateDatabase'), dataFolder(root).database)
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
    const { arriving } = dataFolder(root)
    const files = readdirSync(arriving).filter(
      (name) => !name.endsWith('.keeping'),
    )
    expect(files).toEqual([])
    // Renditions that found no room were spoken of; they are made when there is some.
    vi.mocked(console.error).mockClear()

    await closeDatabase()
    execFileSync('mount', ['-o', 'remount,size=40m', root])
    const db = await database()
    expect(await db.photo.count()).toBe(kept.length)
    const again = await sendPhotos(job.id, [['b.jpg', await grain(101)]])
    expect(again.photos).toHaveLength(1)
    await renditionsIdle()
    const check = await checkJournal()
    expect(check.findings).toEqual([])
    expect(intact()).toBe(true)
  },
  120_000,
)
