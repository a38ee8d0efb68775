import { readFileSync } from 'node:fs'
import path from 'node:path'
import { afterAll, afterEach, describe, expect, test, vi } from 'vitest'
import { cornerError } from '#core/geometry/corner-error'
import { mapped } from '#core/geometry/homography'
import { instant } from '#core/units'
import { alignPhotos } from '#services/alignment/align-photos'
import { endAlignmentThread } from '#services/alignment/alignment-thread'
import { database } from '#services/database/open-database'
import {
  addPair,
  alignByHand,
  alignByPictures,
  findPairs,
  findPairsLater,
  judgePair,
  readAcceptedPair,
  readPairs,
  readSeparated,
} from '#services/pairs/pairs'
import { readPairPicture } from '#services/pairs/read-pair-picture'
import { placePhotos } from '#services/photos/place-photos'
import { turnPhoto } from '#services/photos/turn-photo'
import { openPicture } from '#services/renditions/open-picture'
import { demoSize, readTruePairs } from '../../../lib/commands/true-pairs'
import { makeJob } from '../../support/make-job'
import { makePhoto } from '../../support/make-photo'
import { arrival, sendPhotos } from '../../support/send-photos'
import { until } from '../../support/until'
import { useWorkshop } from '../../support/workshop'

// Photos are truly laid on each other, but where a test says what comes of it.
vi.mock('#services/alignment/align-photos', { spy: true })
const align = vi.mocked(alignPhotos)

useWorkshop()
afterAll(async () => {
  await endAlignmentThread()
})
afterEach(() => {
  align.mockReset()
})

const nothing = { ok: true, value: false }
const underWay = { ok: true, value: true }

const truePair = readTruePairs()[0]

function demoPhoto(file: string) {
  return readFileSync(path.join('prisma', 'demo', 'photos', 'job-a', file))
}

/** A job with the demo's front before and after; the view is typed on both, or on neither. */
async function frontJob(view?: string) {
  const job = await makeJob()
  const send = async (role: string, file: string) => {
    const fields = [['role', role] as const]
    const { photos } = await sendPhotos(
      job.id,
      [[file, demoPhoto(file)]],
      view === undefined ? fields : [...fields, ['view', view] as const],
    )
    return photos[0]?.id ?? ''
  }
  return {
    id: job.id,
    before: await send('before', '01-before-front.jpg'),
    after: await send('after', '30-after-front.jpg'),
    send,
  }
}

/** A job with small photos of nothing in particular, whose pairs are said by a test. */
async function plainJob(befores: number, afters: number) {
  const job = await makeJob()
  const send = async (role: string, count: number) => {
    const photos = await Promise.all(
      Array.from({ length: count }, async (_, at) => {
        const colour = { r: role.length * 20, g: at * 20, b: 90 }
        return [`${role}-${at}.jpg`, await makePhoto({ colour })] as const
      }),
    )
    const sent = await sendPhotos(job.id, photos, [['role', role]])
    return sent.photos.map(({ id }) => id)
  }
  const [before = ''] = await send('before', befores)
  const [after = ''] = await send('after', afters)
  return { id: job.id, before, after }
}

const unlike = { how: 'none', confidence: 0.1, doubt: 'few-places' } as const
const gaveUp = { how: 'none', confidence: 0, doubt: 'gave-up' } as const
const aligned = {
  how: 'computed',
  confidence: 0.9,
  model: 'translation',
  homography: [1, 0, 5, 0, 1, 0, 0, 0, 1],
} as const

describe('the pairs of a job', () => {
  test('are found by the view typed on them, aligned, and confirmed by the owner', async () => {
    const job = await frontJob('front')
    const found = await findPairs(job.id, arrival)
    expect(found).toMatchObject({
      ok: true,
      value: [
        {
          before: job.before,
          after: job.after,
          view: 'front',
          state: { how: 'computed', model: 'homography' },
        },
      ],
    })
    const [pair] = await readPairs(job.id)
    expect(pair?.confirmedAt).toBeUndefined()
    // The renderer's truth, and the accuracy asked of an alignment: 1.5 % of the diagonal at the frame's corners.
    const homography =
      pair !== undefined && 'homography' in pair.state
        ? pair.state.homography
        : undefined
    expect(homography && truePair).toBeDefined()
    if (homography === undefined || truePair === undefined) return
    expect(
      cornerError(homography, truePair.truth, demoSize) /
        Math.hypot(demoSize.width, demoSize.height),
    ).toBeLessThan(0.015)
    await judgePair(job.id, pair?.id ?? '', true, arrival)
    expect((await readPairs(job.id))[0]?.confirmedAt).toBe(arrival)
    expect(await findPairsLater(job.id, arrival)).toEqual(nothing)
  })

  test('are found by what the photos show when no view is typed', async () => {
    const job = await frontJob()
    await job.send('before', '05-before-hardware.jpg')
    const found = await findPairs(job.id, arrival)
    expect(found).toMatchObject({
      ok: true,
      value: [{ before: job.before, after: job.after }],
    })
    expect(await findPairsLater(job.id, arrival)).toEqual(nothing)
  })

  test('stay separated when the owner separated them', async () => {
    const job = await frontJob('front')
    await findPairs(job.id, arrival)
    const [pair] = await readPairs(job.id)
    await judgePair(job.id, pair?.id ?? '', false, arrival)
    expect(await findPairs(job.id, arrival)).toEqual({ ok: true, value: [] })
    expect(await readSeparated(job.id)).toEqual([
      { before: job.before, after: job.after },
    ])
    expect(
      await readAcceptedPair(job.id, job.before, job.after),
    ).toBeUndefined()
  })

  test('wait for a new alignment when a photo was turned', async () => {
    const job = await frontJob('front')
    await findPairs(job.id, arrival)
    await turnPhoto(job.after, 2)
    expect((await readPairs(job.id))[0]?.state).toEqual({ how: 'waiting' })
    await turnPhoto(job.after, 2)
    expect((await readPairs(job.id))[0]?.state).toMatchObject({
      how: 'computed',
    })
  })

  test('that do not fit are kept as they are, with the reason', async () => {
    const job = await frontJob('front')
    const other = await job.send('after', '34-after-hardware.jpg')
    const kept = await addPair(
      job.id,
      { before: job.before, after: other },
      arrival,
    )
    expect(kept).toMatchObject({ ok: true, value: { state: { how: 'none' } } })
    expect(await readAcceptedPair(job.id, job.before, other)).toBeUndefined()
  })

  test('are of photos of the job', async () => {
    const job = await frontJob('front')
    expect(
      await addPair(job.id, { before: job.before, after: 'x' }, arrival),
    ).toMatchObject({ ok: false, refusal: { kind: 'invalid' } })
    expect(
      await addPair('nowhere', { before: 'x', after: 'y' }, arrival),
    ).toMatchObject({ ok: false, refusal: { kind: 'not-found' } })
    expect(await judgePair(job.id, 'x', true, arrival)).toMatchObject({
      ok: false,
      refusal: { kind: 'not-found' },
    })
  })
})

describe('photos that were only tried', () => {
  test('and do not fit are no pair, and not separated by the owner either', async () => {
    const job = await plainJob(1, 1)
    align.mockResolvedValue(unlike)
    expect(await findPairs(job.id, arrival)).toEqual({ ok: true, value: [] })
    expect(await readSeparated(job.id)).toEqual([])
    expect(await findPairsLater(job.id, arrival)).toEqual(nothing)
    expect(align).toHaveBeenCalledTimes(1)
  })

  test('are tried again when one was turned', async () => {
    const job = await plainJob(1, 1)
    align.mockResolvedValueOnce(unlike).mockResolvedValueOnce(aligned)
    await findPairs(job.id, arrival)
    await turnPhoto(job.after, 1)
    expect(await findPairs(job.id, arrival)).toMatchObject({
      ok: true,
      value: [{ before: job.before, state: aligned }],
    })
  })

  test('are tried again, once, and shown when their view is typed', async () => {
    const job = await plainJob(1, 1)
    align.mockResolvedValue(unlike)
    await findPairs(job.id, arrival)
    const photos = [job.before, job.after]
    await placePhotos(job.id, { photos, view: 'front' })
    expect(await findPairs(job.id, arrival)).toMatchObject({
      ok: true,
      value: [{ before: job.before, view: 'front', state: unlike }],
    })
    expect(await findPairsLater(job.id, arrival)).toEqual(nothing)
    expect(align).toHaveBeenCalledTimes(2)
  })

  test('and gave up are not kept, and tried again after a rest', async () => {
    const job = await plainJob(1, 1)
    align.mockResolvedValueOnce(gaveUp).mockResolvedValueOnce(aligned)
    expect(await findPairs(job.id, arrival)).toEqual({ ok: true, value: [] })
    expect(await findPairsLater(job.id, arrival)).toEqual(nothing)
    const later = instant(arrival + 15 * 60_000)
    expect(await findPairs(job.id, later)).toMatchObject({
      ok: true,
      value: [{ before: job.before, state: aligned }],
    })
  })

  test('are many at a time, and the rest follow', async () => {
    const job = await plainJob(6, 7)
    align.mockResolvedValue(unlike)
    await findPairs(job.id, arrival)
    expect(align).toHaveBeenCalledTimes(36)
    expect(await findPairsLater(job.id, arrival)).toEqual(underWay)
    await until(async () => {
      expect(await findPairsLater(job.id, arrival)).toEqual(nothing)
    })
    expect(align).toHaveBeenCalledTimes(42)
  })

  test('are looked at once, however many ask', async () => {
    const job = await plainJob(1, 1)
    align.mockResolvedValue(aligned)
    await Promise.all([
      findPairsLater(job.id, arrival),
      findPairsLater(job.id, arrival),
    ])
    await until(async () => {
      expect(await findPairsLater(job.id, arrival)).toEqual(nothing)
    })
    expect(align).toHaveBeenCalledTimes(1)
  })
})

test('a pair by its view that gave up waits', async () => {
  const job = await plainJob(1, 1)
  const photos = [job.before, job.after]
  await placePhotos(job.id, { photos, view: 'front' })
  align.mockResolvedValueOnce(gaveUp)
  expect(await findPairs(job.id, arrival)).toMatchObject({
    ok: true,
    value: [{ view: 'front', state: { how: 'waiting' } }],
  })
})

describe('while pairs are being found', () => {
  test('what the owner separates stays so', async () => {
    const job = await plainJob(1, 1)
    align.mockImplementationOnce(async () => {
      align.mockResolvedValueOnce(unlike)
      await addPair(job.id, job, arrival)
      const [pair] = await readPairs(job.id)
      await judgePair(job.id, pair?.id ?? '', false, arrival)
      return aligned
    })
    expect(await findPairs(job.id, arrival)).toEqual({ ok: true, value: [] })
    expect(await readSeparated(job.id)).toEqual([
      { before: job.before, after: job.after },
    ])
  })

  test('what the owner confirms and aligns by hand stays so', async () => {
    const job = await plainJob(1, 1)
    align.mockImplementationOnce(async () => {
      align.mockResolvedValueOnce(aligned)
      await addPair(job.id, job, arrival)
      const db = await database()
      await db.$transaction((transaction) =>
        transaction.pair.updateMany({
          where: { jobId: job.id },
          data: { how: 'by-hand' },
        }),
      )
      return unlike
    })
    expect(await findPairs(job.id, arrival)).toMatchObject({
      ok: true,
      value: [{ confirmedAt: arrival, state: { ...aligned, how: 'by-hand' } }],
    })
  })
})

test('the two pictures of an aligned pair have one frame, lie on each other and carry no metadata', async () => {
  const job = await frontJob('front')
  await findPairs(job.id, arrival)
  const [pair] = await readPairs(job.id)
  const pictures = await Promise.all(
    ['before', 'after'].map(async (side) => {
      const picture = await readPairPicture(job.id, pair?.id ?? '', side)
      if (!picture.ok) throw new Error(picture.refusal.detail)
      return openPicture(picture.value.bytes)
    }),
  )
  const [one, other] = await Promise.all(
    pictures.map((picture) => picture.metadata()),
  )
  const original = openPicture(demoPhoto('01-before-front.jpg'))
  expect((await original.metadata()).exif).toBeDefined()
  expect(one?.format).toBe('webp')
  expect([one?.width, one?.height]).toEqual([other?.width, other?.height])
  expect(one?.exif ?? other?.exif ?? one?.xmp ?? other?.xmp).toBeUndefined()
  // The wall behind the piece did not change: where the photos lie on each other it is nearly the same all over.
  const walls = await Promise.all(
    pictures.map((picture) =>
      picture
        .extract({ left: 0, top: 0, width: one?.width ?? 0, height: 240 })
        .greyscale()
        .raw()
        .toBuffer(),
    ),
  )
  const [before = Buffer.alloc(0), after = Buffer.alloc(0)] = walls
  const off = before.map((grey, at) => Math.abs(grey - (after[at] ?? 0)))
  const far = off.filter((difference) => difference > 60).length
  expect(far / off.length).toBeLessThan(0.03)
})

describe('a pair aligned by hand', () => {
  test('stays so when a photo is turned: its points turn with it, and back', async () => {
    const { id, after } = await unpaired()
    await findPairs(id, arrival)
    const pair = (await readPairs(id))[0]?.id ?? ''
    const points = { before: four(0), after: four(30) }
    await alignByHand(id, pair, points, arrival)
    const [laid] = await readPairs(id)
    await turnPhoto(after, 1)
    await findPairs(id, arrival)
    const [turned] = await readPairs(id)
    expect(turned?.state).toMatchObject({ how: 'by-hand', confidence: 1 })
    expect(turned?.handPoints?.before).toEqual(points.before)
    // A quarter clockwise, of a photo that is 1080 pixels high.
    expect(turned?.handPoints?.after[0]).toEqual({ x: 1080 - 200, y: 230 })
    const [then, now] = [laid?.state, turned?.state].map((state) =>
      state !== undefined && 'homography' in state
        ? state.homography
        : undefined,
    )
    if (then === undefined || now === undefined) throw new Error('not laid')
    const wanted = mapped(then, { x: 700, y: 500 })
    const place = mapped(now, { x: 1080 - 500, y: 700 })
    expect(place.x).toBeCloseTo(wanted.x, 6)
    expect(place.y).toBeCloseTo(wanted.y, 6)
    await turnPhoto(after, -1)
    expect((await readPairs(id))[0]).toMatchObject({ handPoints: points })
  })

  const four = (shift: number) =>
    [
      { x: 200 + shift, y: 200 },
      { x: 1200 + shift, y: 210 },
      { x: 1190, y: 900 },
      { x: 210, y: 880 },
    ] as const

  function unpaired() {
    align.mockResolvedValue({
      how: 'none',
      confidence: 0.1,
      doubt: 'halves-disagree',
    })
    return frontJob('front')
  }

  test('lies by its points, whatever the pictures say, until they are asked again', async () => {
    const { id } = await unpaired()
    const found = await findPairs(id, arrival)
    const pair = found.ok ? found.value[0] : undefined
    expect(pair?.state.how).toBe('none')
    const points = { before: four(0), after: four(30) }
    const set = await alignByHand(id, pair?.id ?? '', points, arrival)
    expect(set.ok).toBe(true)
    // Looking for pairs once more leaves it as it is.
    await findPairs(id, arrival)
    const [kept] = await readPairs(id)
    expect(kept).toMatchObject({
      state: { how: 'by-hand', model: 'homography', confidence: 1 },
      handPoints: points,
    })
    expect(kept?.confirmedAt).toBeDefined()
    const accepted = await readAcceptedPair(
      id,
      pair?.before ?? '',
      pair?.after ?? '',
    )
    const map = accepted?.homography
    if (map === undefined) throw new Error('expected an alignment')
    for (const [index, point] of points.after.entries()) {
      const there = mapped(map, point)
      expect(there.x).toBeCloseTo(points.before[index]?.x ?? NaN, 6)
      expect(there.y).toBeCloseTo(points.before[index]?.y ?? NaN, 6)
    }
    expect((await readPairPicture(id, pair?.id ?? '', 'after')).ok).toBe(true)
    expect((await alignByPictures(id, pair?.id ?? '')).ok).toBe(true)
    const [again] = await readPairs(id)
    expect(again?.state).toEqual({
      how: 'none',
      confidence: 0.1,
      doubt: 'halves-disagree',
    })
    expect(again).not.toHaveProperty('handPoints')
  })

  test('stays as it was where the points say nothing, or the pictures give up', async () => {
    const { id } = await unpaired()
    const found = await findPairs(id, arrival)
    const pair = found.ok ? (found.value[0]?.id ?? '') : ''
    const flat = [four(0)[0], four(0)[0], four(0)[2], four(0)[3]] as const
    const refused = await alignByHand(
      id,
      pair,
      { before: four(0), after: flat },
      arrival,
    )
    expect(refused.ok ? '' : refused.refusal.detail).toContain('in one line')
    expect((await readPairs(id))[0]?.state.how).toBe('none')
    const points = { before: four(0), after: four(10) }
    await alignByHand(id, pair, points, arrival)
    align.mockResolvedValue({ how: 'none', confidence: 0, doubt: 'gave-up' })
    expect((await alignByPictures(id, pair)).ok).toBe(false)
    expect((await readPairs(id))[0]?.handPoints).toEqual(points)
    const nobody = await alignByHand(id, 'nobody', points, arrival)
    expect(nobody.ok ? '' : nobody.refusal.kind).toBe('not-found')
  })
})
