import { beforeEach, describe, expect, test, vi } from 'vitest'
import type { PairState } from '#core/pairs/pair-state'
import { alignPhotos } from '#services/alignment/align-photos'
import { removePhoto } from '#services/bin/bin'
import {
  findPairsAhead,
  startFindingPairs,
} from '#services/pairs/find-pairs-ahead'
import { readPairs } from '#services/pairs/pairs'
import { inTurn, renditionsIdle } from '#services/renditions/renditions'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { arrival, sendPhotos } from '../../support/send-photos'
import { useWorkshop } from '../../support/workshop'

// What the photos show is of no matter here: any two lie on each other.
vi.mock('#services/alignment/align-photos')
const align = vi.mocked(alignPhotos)
const aligned: PairState = {
  how: 'computed',
  homography: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  model: 'similarity',
  confidence: 0.9,
}

useWorkshop()
beforeEach(() => {
  align.mockReset()
  align.mockResolvedValue(aligned)
})

type Known = Parameters<typeof findPairsAhead>[0]

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

describe('the pairs of a job', () => {
  test('are found when a start comes upon it, however lately it changed', async () => {
    const job = await makeJob()
    const before = await send(job.id, 'before')
    const after = await send(job.id, 'after')
    await startFindingPairs()
    expect(await readPairs(job.id)).toMatchObject([
      { before, after, state: aligned },
    ])
  })

  test('are found once it has come to rest, and once only', async () => {
    const known: Known = new Map()
    const job = await makeJob()
    await send(job.id, 'before')
    await send(job.id, 'after')
    await findPairsAhead(known, false)
    expect(align).not.toHaveBeenCalled()
    await send(job.id, 'after')
    await findPairsAhead(known, false)
    expect(align).not.toHaveBeenCalled()
    await findPairsAhead(known, false)
    expect(await readPairs(job.id)).toHaveLength(1)
    const { calls } = align.mock
    expect(calls).toHaveLength(1)
    for (let look = 0; look < 4; look += 1) await findPairsAhead(known, false)
    expect(calls).toHaveLength(1)
  })

  test('are looked for again after it changed', async () => {
    const known: Known = new Map()
    const job = await makeJob()
    await send(job.id, 'before')
    const first = await send(job.id, 'after')
    await findPairsAhead(known, true)
    expect(await readPairs(job.id)).toHaveLength(1)
    await removePhoto(job.id, first, arrival)
    const second = await send(job.id, 'after')
    await findPairsAhead(known, false)
    await findPairsAhead(known, false)
    expect((await readPairs(job.id)).map(({ after }) => after)).toContain(
      second,
    )
  })

  test('wait while photos are being taken in', async () => {
    const known: Known = new Map()
    const job = await makeJob()
    await send(job.id, 'before')
    await send(job.id, 'after')
    let release: (() => void) | undefined
    const work = inTurn(
      () =>
        new Promise<undefined>((resolve) => {
          release = () => {
            resolve(undefined)
          }
        }),
    )
    await findPairsAhead(known, true)
    expect(align).not.toHaveBeenCalled()
    release?.()
    await work
    await renditionsIdle()
    await findPairsAhead(known, true)
    expect(align).toHaveBeenCalledTimes(1)
  })

  test('are not looked for where there is no before or no after', async () => {
    const job = await makeJob()
    await send(job.id, 'before')
    const known: Known = new Map()
    await findPairsAhead(known, true)
    expect(known.size).toBe(0)
  })
})
