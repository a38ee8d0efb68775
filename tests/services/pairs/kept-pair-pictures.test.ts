import { readFile, readdir, rm, writeFile } from 'node:fs/promises'
import path from 'node:path'
import { afterAll, beforeEach, describe, expect, test, vi } from 'vitest'
import type { HandPoints } from '#core/pairs/hand-points'
import { alignPhotos } from '#services/alignment/align-photos'
import { alignedPictures } from '#services/alignment/aligned-picture'
import { endAlignmentThread } from '#services/alignment/alignment-thread'
import { emptyWholeBin } from '#services/bin/empty-bin'
import { openDataFolder } from '#services/database/open-database'
import { removePhoto } from '#services/bin/bin'
import { changeBinRules } from '#services/bin/bin-settings'
import { addPair, alignByHand } from '#services/pairs/pairs'
import {
  keptSide,
  removeStrayPicturesOfPairs,
} from '#services/pairs/kept-pair-pictures'
import {
  readPairPicture,
  readyPairPictures,
} from '#services/pairs/read-pair-picture'
import { openPicture } from '#services/renditions/open-picture'
import {
  renditionFolder,
  renditionsIdle,
} from '#services/renditions/renditions'
import { makeSheet } from '#services/sheets/make-sheet'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { sameView } from '../../support/same-view'
import { arrival, sendPhotos } from '../../support/send-photos'
import { until } from '../../support/until'
import { useWorkshop } from '../../support/workshop'

// What the photos show is of no matter here; how often they are truly laid on each other is.
vi.mock('#services/alignment/align-photos')
vi.mock('#services/alignment/aligned-picture', { spy: true })
const laid = vi.mocked(alignedPictures)

useWorkshop()
beforeEach(() => {
  vi.mocked(alignPhotos).mockResolvedValue(sameView)
  laid.mockClear()
})
afterAll(async () => {
  await endAlignmentThread()
})

let sent = 0
async function startPair() {
  const job = await makeJob()
  const send = async (role: string) => {
    sent += 1
    const photo = await makePhoto({
      width: 1600,
      height: 1200,
      // No two are the same file.
      colour: { r: (sent * 60) % 256, g: 90, b: sent },
    })
    const { photos } = await sendPhotos(
      job.id,
      [[`${role}.jpg`, photo]],
      [['role', role]],
    )
    await renditionsIdle()
    return photos[0] ?? { id: '', sha256: '' }
  }
  const before = await send('before')
  const after = await send('after')
  const pair = await addPair(
    job.id,
    { before: before.id, after: after.id },
    arrival,
  )
  if (!pair.ok) throw new Error(pair.refusal.detail)
  const read = async (side: 'before' | 'after') => {
    const picture = await readPairPicture(job.id, pair.value.id, side)
    if (!picture.ok) throw new Error(picture.refusal.detail)
    return picture.value.bytes
  }
  return { job, before, after, pair: pair.value, read }
}

/** What is kept of pairs among all that is made of a photo. */
async function keptOf({ sha256 }: { readonly sha256: string }) {
  const { folder } = await renditionFolder(sha256)
  const names = await readdir(folder).catch(() => [])
  return names
    .filter((name) => name.startsWith(`${sha256}-`) && name.includes('-with-'))
    .map((name) => path.join(folder, name))
}

describe('the two pictures of a pair', () => {
  test('are laid once, asked for at once or one after the other', async () => {
    const { before, after, read } = await startPair()
    const [one, other] = await Promise.all([read('before'), read('after')])
    expect(laid).toHaveBeenCalledTimes(1)
    const { format, width } = await openPicture(one).metadata()
    expect(format).toBe('webp')
    // In whole pixels of both photos, so a few less.
    expect(width).toBeGreaterThan(keptSide - 4)
    expect(width).toBeLessThanOrEqual(keptSide)
    expect(one.equals(other)).toBe(false)
    expect(await keptOf(before)).toHaveLength(1)
    expect(await keptOf(after)).toHaveLength(1)
    expect((await read('before')).equals(one)).toBe(true)
    expect((await read('after')).equals(other)).toBe(true)
    expect(laid).toHaveBeenCalledTimes(1)
  })

  test('are made ahead where one is not kept, and else not', async () => {
    const { job, pair, before, after } = await startPair()
    await readyPairPictures(job.id, pair.id)
    expect(laid).toHaveBeenCalledTimes(1)
    await readyPairPictures(job.id, pair.id)
    expect(laid).toHaveBeenCalledTimes(1)
    const [lost = ''] = await keptOf(after)
    await rm(lost)
    await readyPairPictures(job.id, pair.id)
    expect(await keptOf(after)).toHaveLength(1)
    expect(await keptOf(before)).toHaveLength(1)
  })

  test('and glances at their sheet may be asked for all at once, as a page does', async () => {
    const { job, pair, read } = await startPair()
    const glances = (['1x1', '4x5', '9x16', '16x9'] as const).map((shape) =>
      makeSheet(job.id, shape, 'webp', {}, 540),
    )
    const all = await Promise.all([
      ...glances,
      read('before'),
      read('after'),
      readyPairPictures(job.id, pair.id),
    ])
    expect(all).toHaveLength(7)
  })

  test('are made again where a file was lost, is empty or ends too soon', async () => {
    const { before, after, read } = await startPair()
    const one = await read('before')
    const other = await read('after')
    const [lost = ''] = await keptOf(before)
    await rm(lost)
    expect((await read('before')).equals(one)).toBe(true)
    const [emptied = ''] = await keptOf(after)
    await writeFile(emptied, '')
    expect((await read('after')).equals(other)).toBe(true)
    // The length that a WebP file says it has: RFC 9649, section 2.4.
    await writeFile(emptied, other.subarray(0, -1))
    expect((await read('after')).equals(other)).toBe(true)
    expect((await readFile(emptied)).equals(other)).toBe(true)
    expect((await keptOf(before)).concat(await keptOf(after))).toHaveLength(2)
  })

  test('are removed by a check where they are damaged, and made again when they are asked for', async () => {
    const { before, after, read } = await startPair()
    const one = await read('before')
    await read('after')
    const known = new Set([before.sha256, after.sha256])
    const [damaged = ''] = await keptOf(before)
    expect(await removeStrayPicturesOfPairs(known)).toBe(0)
    await writeFile(damaged, one.subarray(0, one.length / 2))
    expect(await removeStrayPicturesOfPairs(known)).toBe(1)
    expect(await keptOf(before)).toEqual([])
    expect((await read('before')).equals(one)).toBe(true)
    expect(await removeStrayPicturesOfPairs(new Set([before.sha256]))).toBe(2)
  })

  test('are others, and the old ones gone, once the pair lies in another way', async () => {
    const { job, pair, before, after, read } = await startPair()
    const [one] = await Promise.all([read('after'), read('before')])
    const moved = (by: number): HandPoints['before'] => [
      { x: 200 + by, y: 150 },
      { x: 1300 + by, y: 150 },
      { x: 1300 + by, y: 1000 },
      { x: 200 + by, y: 1000 },
    ]
    const points = { before: moved(0), after: moved(150) }
    const changed = await alignByHand(job.id, pair.id, points, arrival)
    expect(changed).toMatchObject({ ok: true })
    const old = [...(await keptOf(before)), ...(await keptOf(after))]
    expect((await read('after')).equals(one)).toBe(false)
    await read('before')
    const anew = [...(await keptOf(before)), ...(await keptOf(after))]
    expect(anew).toHaveLength(2)
    expect(anew.filter((file) => old.includes(file))).toEqual([])
  })

  test('go for good with either photo', async () => {
    const { job, before, after, read } = await startPair()
    const { before: another, read: readAnother } = await startPair()
    await Promise.all([read('before'), read('after'), readAnother('before')])
    await changeBinRules({ keepDays: 30, originalDays: 30 })
    await removePhoto(job.id, after.id, arrival)
    await emptyWholeBin(arrival)
    expect(await keptOf(after)).toEqual([])
    expect(await keptOf(before)).toEqual([])
    expect(await keptOf(another)).toHaveLength(1)
  })

  test('are not kept where a photo went for good while they were made', async () => {
    const { job, before, after, read } = await startPair()
    let goOn: (() => void) | undefined
    const { alignedPictures: lay } = await vi.importActual<
      typeof import('#services/alignment/aligned-picture')
    >('#services/alignment/aligned-picture')
    laid.mockImplementationOnce(async (...given) => {
      const pictures = await lay(...given)
      await new Promise<undefined>((resolve) => {
        goOn = () => {
          resolve(undefined)
        }
      })
      return pictures
    })
    const asked = read('after')
    await until(() => {
      expect(goOn).toBeDefined()
    })
    await removePhoto(job.id, after.id, arrival)
    await emptyWholeBin(arrival)
    goOn?.()
    await asked
    expect(await keptOf(after)).toEqual([])
    expect(await keptOf(before)).toEqual([])
  })

  test('are given where they cannot be kept', async () => {
    const { before, read } = await startPair()
    const { arriving } = await openDataFolder()
    await rm(arriving, { recursive: true })
    await writeFile(arriving, 'in the way of the folder')
    expect((await openPicture(await read('before')).metadata()).format).toBe(
      'webp',
    )
    expect(await keptOf(before)).toEqual([])
  })

  test('are what a sheet is glanced at by; the whole sheet is laid from the photos', async () => {
    const { job, read } = await startPair()
    await Promise.all([read('before'), read('after')])
    laid.mockClear()
    const glance = await makeSheet(job.id, '1x1', 'webp', {}, 540)
    expect(glance).toMatchObject({ ok: true })
    expect(laid).not.toHaveBeenCalled()
    const whole = await makeSheet(job.id, '1x1', 'webp')
    expect(laid).toHaveBeenCalledTimes(1)
    if (!glance.ok || !whole.ok) return
    // The same sheet: its pixels differ by what keeping a picture costs.
    const pixels = (bytes: Buffer) =>
      openPicture(bytes).resize({ width: 270 }).removeAlpha().raw().toBuffer()
    const one = await pixels(glance.value.bytes)
    const other = await pixels(whole.value.bytes)
    const apart = one.reduce(
      (sum, value, at) => sum + Math.abs(value - (other[at] ?? 0)),
      0,
    )
    expect(apart / one.length).toBeLessThan(3)
  })
})
