import { afterAll, beforeEach, describe, expect, test, vi } from 'vitest'
import { addMinutes } from '#core/units'
import { alignPhotos } from '#services/alignment/align-photos'
import { endAlignmentThread } from '#services/alignment/alignment-thread'
import { removePhoto } from '#services/bin/bin'
import { toDate } from '#services/database/instants'
import { database } from '#services/database/open-database'
import {
  type SeenJobs,
  findPairsAhead,
  startFindingPairs,
} from '#services/pairs/find-pairs-ahead'
import { isPictureKept, pairSides } from '#services/pairs/kept-pair-pictures'
import { readAcceptedPair, readPairs } from '#services/pairs/pairs'
import { placePhotos } from '#services/photos/place-photos'
import { inTurn, renditionsIdle } from '#services/renditions/renditions'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sameView } from '../../support/same-view'
import { arrival, sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

// What the photos show is of no matter here: any two lie on each other.
vi.mock('#services/alignment/align-photos')
const align = vi.mocked(alignPhotos)

useWorkshop()
afterAll(async () => {
  await endAlignmentThread()
})
beforeEach(() => {
  align.mockReset()
  align.mockResolvedValue(sameView)
})

let width = 64
/** Sends a photo that no other is like, and waits until its renditions are made. */
async function send(job: string, role: string): Promise<string> {
  width += 1
  const { photos } = await sendPhotos(
    job,
    [[`${role}.jpg`, await makePhoto({ width })]],
    [['role', role]],
  )
  await renditionsIdle()
  return photos[0]?.id ?? ''
}

const nothingSeen = (): SeenJobs => ({ jobs: new Map() })
const look = (seen: SeenJobs, isFirst = false) =>
  findPairsAhead(seen, arrival, isFirst)

/** Holds a place in the line of the renditions until it is released. */
function holdPlace(): { readonly release: () => void } {
  let release: (() => void) | undefined
  void inTurn(
    () =>
      new Promise<undefined>((resolve) => {
        release = () => {
          resolve(undefined)
        }
      }),
  )
  return {
    release: () => {
      release?.()
    },
  }
}

describe('the pairs of a job', () => {
  test('are found when a start comes upon it, however lately it changed, and their pictures are made', async () => {
    const job = await makeJob()
    const before = await send(job.id, 'before')
    const after = await send(job.id, 'after')
    await startFindingPairs()
    const pairs = await readPairs(job.id)
    expect(pairs).toMatchObject([{ before, after, state: sameView }])
    const accepted = await readAcceptedPair(job.id, before, after)
    if (accepted === undefined) throw new Error('expected an accepted pair')
    for (const side of pairSides)
      expect(await isPictureKept(accepted, side)).toBe(true)
  })

  test('are found once it has come to rest, and once only', async () => {
    const seen = nothingSeen()
    const job = await makeJob()
    await send(job.id, 'before')
    await send(job.id, 'after')
    await look(seen)
    expect(align).not.toHaveBeenCalled()
    await send(job.id, 'after')
    await look(seen)
    expect(align).not.toHaveBeenCalled()
    await look(seen)
    expect(await readPairs(job.id)).toHaveLength(1)
    const { calls } = align.mock
    expect(calls).toHaveLength(1)
    for (let time = 0; time < 4; time += 1) await look(seen)
    expect(calls).toHaveLength(1)
    expect(seen.stamp).toBeDefined()
  })

  test('are tried in one go for each change, however many photos may go together', async () => {
    align.mockResolvedValue({ how: 'none', confidence: 0, doubt: 'few-places' })
    const seen = nothingSeen()
    const job = await makeJob()
    for (let time = 0; time < 7; time += 1) {
      await send(job.id, 'before')
      await send(job.id, 'after')
    }
    await look(seen, true)
    const { calls } = align.mock
    // So many, of 49, are tried in one go.
    expect(calls).toHaveLength(36)
    for (let time = 0; time < 4; time += 1) await look(seen)
    expect(calls).toHaveLength(36)
  })

  test('are looked for again after its photos changed', async () => {
    const seen = nothingSeen()
    const job = await makeJob()
    await send(job.id, 'before')
    const first = await send(job.id, 'after')
    await look(seen, true)
    expect(await readPairs(job.id)).toHaveLength(1)
    await removePhoto(job.id, first, arrival)
    const second = await send(job.id, 'after')
    await look(seen)
    await look(seen)
    expect((await readPairs(job.id)).map(({ after }) => after)).toContain(
      second,
    )
  })

  test('wait while photos are being taken in', async () => {
    const seen = nothingSeen()
    const job = await makeJob()
    await send(job.id, 'before')
    await send(job.id, 'after')
    const place = holdPlace()
    await look(seen, true)
    expect(align).not.toHaveBeenCalled()
    place.release()
    await renditionsIdle()
    await look(seen, true)
    expect(align).toHaveBeenCalledTimes(1)
  })

  test('wait where photos come while they are being found, and are gone on with', async () => {
    const seen = nothingSeen()
    const job = await makeJob()
    for (const view of ['front', 'top']) {
      for (const role of ['before', 'after']) {
        const photo = await send(job.id, role)
        await placePhotos(job.id, { photos: [photo], view })
      }
    }
    let place: ReturnType<typeof holdPlace> | undefined
    align.mockImplementationOnce(() => {
      place = holdPlace()
      return Promise.resolve(sameView)
    })
    await look(seen, true)
    expect(align).toHaveBeenCalledTimes(1)
    place?.release()
    await renditionsIdle()
    await look(seen)
    expect(align).toHaveBeenCalledTimes(2)
    expect(await readPairs(job.id)).toHaveLength(2)
  })

  test('are not looked for where there is no before or no after', async () => {
    for (const role of ['before', 'after']) {
      const job = await makeJob()
      await send(job.id, role)
    }
    const binned = await makeJob()
    await send(binned.id, 'before')
    await removePhoto(binned.id, await send(binned.id, 'after'), arrival)
    const seen = nothingSeen()
    await look(seen, true)
    await look(seen)
    expect(align).not.toHaveBeenCalled()
    expect(seen.jobs.size).toBe(0)
  })

  test('are found at a start in the twelve newest jobs, in an older one once its photos change', async () => {
    const jobs: string[] = []
    for (let index = 0; index < 13; index += 1) {
      const { id } = await makeJob()
      const db = await database()
      await db.job.update({
        where: { id },
        data: { createdAt: toDate(addMinutes(arrival, -index)) },
      })
      await send(id, 'before')
      await send(id, 'after')
      jobs.push(id)
    }
    const seen = nothingSeen()
    await look(seen, true)
    await look(seen)
    const found = () =>
      Promise.all(jobs.map(async (id) => (await readPairs(id)).length))
    expect(await found()).toEqual([1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 0])
    await send(jobs[12] ?? '', 'after')
    await look(seen)
    await look(seen)
    expect((await found())[12]).toBe(1)
  })
})
