import { beforeAll, afterAll, describe, expect, test } from 'vitest'
import type { Journal } from '#core/journal/journal'
import type { Lane, Timeline } from '#core/timeline/timeline'
import { instant } from '#core/units'
import { writeListing } from '#core/write-ups/write-listing'
import { database } from '#services/database/open-database'
import { renditionsIdle } from '#services/renditions/renditions'
import { readSoldJobs } from '#services/money/sold-jobs'
import { readJobTimeline } from '#services/timeline/timeline'
import { seedDemo } from '../../../prisma/demo/seed-demo'
import { alderYard } from '../../core/write-ups/jobs'
import { closeWorkshop, openWorkshop } from '../../support/workshop'

/**
 * When each photo of Phone A was truly taken: the numbers that the pictures were stamped from when they were rendered
 * (the plan of the demo photos, not read from the files). Exif keeps whole seconds.
 */
const truth: Readonly<Record<string, string>> = {
  '01-before-front.jpg': '2026-10-22T08:02:10.041Z',
  '07-hardware-off.jpg': '2026-10-22T08:44:20.863Z',
  '08-scuffed-front.jpg': '2026-10-22T10:15:05.000Z',
  '10-primer-1-front.jpg': '2026-10-23T08:30:12.274Z',
  '11-primer-1-both.jpg': '2026-10-23T08:38:51.411Z',
  '12-primer-2-left.jpg': '2026-10-23T11:09:30.548Z',
  '14-paint-1-front.jpg': '2026-10-24T09:10:44.822Z',
  '15-paint-1-bench.jpg': '2026-10-24T09:25:10.959Z',
  '16-paint-2-bench.jpg': '2026-10-24T10:03:25.096Z',
  '17-paint-2-front.jpg': '2026-10-24T10:51:02.233Z',
  '22-hardware-primed.jpg': '2026-10-24T22:10:20.918Z',
  '23-hardware-brass.jpg': '2026-10-25T08:40:05.055Z',
  '26-stain-even.jpg': '2026-10-25T09:55:00.466Z',
  '27-clear-1.jpg': '2026-10-25T19:01:45.603Z',
  '28-clear-2.jpg': '2026-10-25T22:12:05.740Z',
  '35-after-inside.jpg': '2026-10-27T10:40:25.699Z',
  '05-primer-1.jpg': '2026-11-14T13:00:40.384Z',
  '06-primer-2.jpg': '2026-11-14T13:25:45.521Z',
  '09-paint-1-close.jpg': '2026-11-15T12:04:35.932Z',
}

const wholeSecond = 1000

let root = ''
let sideboard: Told
let box: Told
type Told = { readonly journal: Journal; readonly timeline: Timeline }

beforeAll(async () => {
  root = openWorkshop()
  await seedDemo(instant(Date.parse('2026-11-16T08:00:00Z')))
  sideboard = await told('Oak sideboard and bench')
  box = await told('Pine blanket box')
})

afterAll(async () => {
  await renditionsIdle()
  await closeWorkshop(root)
})

async function told(title: string): Promise<Told> {
  const db = await database()
  const { id } = await db.job.findFirstOrThrow({ where: { title } })
  const found = await readJobTimeline(id)
  if (found === undefined) throw new Error('the job is gone')
  return found
}

function lane({ timeline }: Told, piece: string, surface: string): Lane {
  const found = timeline.lanes.find(
    (one) => one.piece.name === piece && one.surface.name === surface,
  )
  if (found === undefined) throw new Error(`no lane ${piece}: ${surface}`)
  return found
}

/** The check between the steps of these kinds and coats on a surface. */
function checkBetween(
  one: Lane,
  from: readonly [string, number],
  to: readonly [string, number],
) {
  const id = ([kind, coat]: readonly [string, number]) =>
    one.steps.find((step) => step.kind === kind && step.coat === coat)?.id
  const check = one.checks.find(
    (judged) => judged.from === id(from) && judged.to === id(to),
  )
  if (check === undefined) throw new Error('there is no such check')
  return check
}

function minutesFromTruth(from: string, to: string): number {
  return (Date.parse(truth[to] ?? '') - Date.parse(truth[from] ?? '')) / 60_000
}

/** Two whole-second times are each up to a second early. */
const oneSecond = 1 / 60

describe('the times of the demo come from its photos', () => {
  test.each(Object.entries(truth))(
    '%s is dated within a second of when it was taken',
    (fileName, taken) => {
      const photo = [...sideboard.journal.photos, ...box.journal.photos].find(
        (one) => one.fileName === fileName,
      )
      const late = Date.parse(taken) - (photo?.taken.at ?? 0)
      expect(Math.abs(late)).toBeLessThanOrEqual(wholeSecond)
    },
  )

  test('Camera B is read by the workshop’s zone, 67 minutes behind the truth', () => {
    const photo = sideboard.journal.photos.find(
      (one) => one.fileName === '21-top-sanded.jpg',
    )
    const taken = Date.parse('2026-10-24T15:20:15.781Z')
    expect((taken - (photo?.taken.at ?? 0)) / 60_000).toBeCloseTo(67, 1)
    expect(photo?.basis).toBe('zone')
  })

  test('no step has a typed time', () => {
    const steps = [...sideboard.journal.steps, ...box.journal.steps]
    expect(steps).toHaveLength(21)
    expect(steps.filter((step) => step.startedAt ?? step.finishedAt)).toEqual(
      [],
    )
  })

  test('every photo of the two jobs is there, and what it shows is said', () => {
    const photos = [...sideboard.journal.photos, ...box.journal.photos]
    expect(photos).toHaveLength(44)
    expect(photos.filter((photo) => photo.surfaceIds.length === 0)).toEqual([])
    const loose = photos.filter(
      (photo) => (photo.role === 'progress') === (photo.stepId === undefined),
    )
    expect(loose).toEqual([])
  })
})

describe('the demo tells what happened', () => {
  test('the bench was recoated after 38 minutes where the label asks 60: too soon', () => {
    const check = checkBetween(
      lane(sideboard, 'bench', 'body'),
      ['coat', 1],
      ['coat', 2],
    )
    const wait = minutesFromTruth(
      '15-paint-1-bench.jpg',
      '16-paint-2-bench.jpg',
    )
    expect(Math.floor(wait)).toBe(38)
    expect(check.elapsed.low).toBeGreaterThan(wait - oneSecond)
    expect(check.elapsed.high).toBeLessThan(wait + oneSecond)
    expect(check.label.min).toBe(60)
    expect(check.verdict).toBe('too-soon')
  })

  test('the sideboard was recoated after an hour and forty minutes: in the window', () => {
    const check = checkBetween(
      lane(sideboard, 'sideboard', 'body'),
      ['coat', 1],
      ['coat', 2],
    )
    const wait = minutesFromTruth(
      '14-paint-1-front.jpg',
      '17-paint-2-front.jpg',
    )
    expect(Math.floor(wait)).toBe(100)
    expect(check.elapsed.low).toBeGreaterThan(wait - oneSecond)
    expect(check.elapsed.high).toBeLessThan(wait + oneSecond)
    expect(check.verdict).toBe('in-window')
  })

  test('the top was clear-coated nine hours after a stain whose label asks a day: too soon', () => {
    const check = checkBetween(
      lane(sideboard, 'sideboard', 'top'),
      ['stain', 1],
      ['seal', 1],
    )
    const wait = minutesFromTruth('26-stain-even.jpg', '27-clear-1.jpg')
    expect(wait / 60).toBeCloseTo(9.1, 1)
    expect(check.elapsed.high).toBeLessThan(wait + oneSecond)
    expect(check.label.min).toBe(1440)
    expect(check.verdict).toBe('too-soon')
  })

  test('from primer to brass the hardware waited ten and a half hours, over the end of daylight saving', () => {
    const check = checkBetween(
      lane(sideboard, 'sideboard', 'hardware'),
      ['hardware', 1],
      ['hardware', 2],
    )
    const wait = minutesFromTruth(
      '22-hardware-primed.jpg',
      '23-hardware-brass.jpg',
    )
    // The clock on the wall says 23:10 to 08:40, nine and a half hours.
    expect(wait / 60).toBeCloseTo(10.5, 1)
    expect(check.elapsed.low).toBeGreaterThan(wait - oneSecond)
    expect(check.elapsed.high).toBeLessThan(wait + oneSecond)
  })

  test('the blanket box got its second primer after 25 minutes: too soon', () => {
    const check = checkBetween(
      lane(box, 'blanket box', 'body'),
      ['prime', 1],
      ['prime', 2],
    )
    const wait = minutesFromTruth('05-primer-1.jpg', '06-primer-2.jpg')
    expect(Math.floor(wait)).toBe(25)
    expect(check.elapsed.high).toBeLessThan(wait + oneSecond)
    expect(check.verdict).toBe('too-soon')
  })

  test('the timeline names Camera B as a clock that nobody has checked', () => {
    const warnings = sideboard.timeline.warnings.filter(
      (warning) => warning.kind === 'clock-unchecked',
    )
    expect(warnings).toHaveLength(1)
    expect(warnings[0]?.detail).toContain('Camera B')
    const camera = sideboard.journal.cameras.find(
      (one) => one.id === warnings[0]?.cameraId,
    )
    expect(camera?.clock).toBeUndefined()
  })

  test('the sideboard is finished, the blanket box is under way', () => {
    expect(sideboard.journal.job.finishedAt).toBe(
      Date.parse('2026-10-27T10:45:00Z'),
    )
    expect(box.journal.job.finishedAt).toBeUndefined()
  })

  test('the sideboard and its bench were sold, so that there is something to compare', async () => {
    const sold = await readSoldJobs()
    expect(sold.map(({ title }) => title)).toEqual(['Oak sideboard and bench'])
    expect(sold[0]?.kinds).toEqual(['sideboard', 'bench'])
    expect(sold[0]?.earnedMinor).toBeGreaterThan(0)
  })

  test('the listing of the sideboard asks only for what the demo leaves open on purpose', () => {
    const { missing } = writeListing({
      journal: sideboard.journal,
      now: instant(Date.parse('2026-11-16T08:00:00Z')),
      settings: alderYard,
      timeline: sideboard.timeline,
    })
    expect(new Set(missing.map(({ fact }) => fact))).toEqual(
      new Set(['sheen', 'flawPhoto', 'lead', 'soundness']),
    )
  })
})
