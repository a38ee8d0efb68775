import { afterAll, expect, test } from 'vitest'
import { identity } from '#core/geometry/homography'
import {
  endAlignmentThread,
  withAlignmentThread,
} from '#services/alignment/alignment-thread'

afterAll(async () => {
  await endAlignmentThread()
})

/** The thread that is there, if there is one. */
function running(): unknown {
  const { coatbookAlignment } = globalThis as typeof globalThis & {
    coatbookAlignment?: { running?: { worker: unknown } }
  }
  return coatbookAlignment?.running?.worker
}

async function warpedTimes(times: number, side: number): Promise<void> {
  const picture = {
    data: new Uint8Array(side * side * 3),
    width: side,
    height: side,
  }
  for (let time = 0; time < times; time += 1) {
    await withAlignmentThread((thread) =>
      thread.warp(picture, identity, { width: side, height: side }),
    )
  }
}

test('a thread goes on while it takes no more memory, and is ended after a while once it did', async () => {
  await warpedTimes(1, 16)
  const first = running()
  expect(first).toBeDefined()
  await warpedTimes(60, 16)
  expect(running()).toBe(first)
  // Two pictures of 75 MB do not fit into what OpenCV begins with, 128 MiB.
  await warpedTimes(1, 5000)
  expect(running()).toBeUndefined()
  // A new one has its own while before it.
  await warpedTimes(1, 5000)
  const second = running()
  expect(second).toBeDefined()
  await warpedTimes(38, 16)
  expect(running()).toBe(second)
  await warpedTimes(1, 16)
  expect(running()).toBeUndefined()
})
