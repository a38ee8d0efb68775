import { describe, expect, test } from 'vitest'
import { planTimelineDrawing } from '#core/timeline/plan-timeline-drawing'
import { readTimeline } from '#core/timeline/read-timeline'
import { sideboardJob } from './demo-journal'
import { journalOf, product, utc } from './journal-of'

const style = { zone: 'Europe/London', units: 'metric' } as const
const later = utc('2026-11-20T12:00:00Z')

function drawingOf(journal: typeof sideboardJob, now = later) {
  const { lanes } = readTimeline(journal)
  const drawing = planTimelineDrawing(lanes, journal.photos, now, style)
  if (drawing === undefined) throw new Error('nothing is drawn')
  return drawing
}

describe('the demo’s sideboard, drawn', () => {
  const { lanes } = readTimeline(sideboardJob)
  const drawing = drawingOf(sideboardJob)

  test('has a lane for each surface, with every step that has a time', () => {
    expect(drawing.lanes.map(({ surface }) => surface)).toEqual([
      'body',
      'top',
      'hardware',
      'drawers',
      'bench body',
    ])
    drawing.lanes.forEach(({ steps }, i) => {
      expect(steps.map(({ id }) => id)).toEqual(
        lanes[i]?.steps.filter((one) => one.started).map(({ id }) => id),
      )
    })
  })

  test('stands within its scale', () => {
    for (const { steps, gaps, photos } of drawing.lanes)
      for (const { from, to } of [...steps, ...gaps, ...photos]) {
        expect(from).toBeGreaterThanOrEqual(0)
        expect(to).toBeGreaterThanOrEqual(from)
        expect(to).toBeLessThanOrEqual(drawing.scale.length)
      }
  })

  test('has a bar with its verdict for every wait that lasted', () => {
    const waited = lanes.flatMap(({ checks }) =>
      checks.filter(({ elapsed }) => elapsed.low > 0),
    )
    expect(
      drawing.lanes.flatMap(({ gaps }) => gaps.map(({ verdict }) => verdict)),
    ).toEqual(expect.arrayContaining(waited.map(({ verdict }) => verdict)))
  })

  test('shows the night in which summer time ended an hour longer', () => {
    const lengths = drawing.nights
      .filter(({ from, to }) => from > 0 && to < drawing.scale.length)
      .map(({ from, to }) => Math.round(to - from) / 60)
    expect(lengths).toContain(9)
    expect(new Set(lengths)).toEqual(new Set([8, 9]))
  })

  test('marks where the clock was put back', () => {
    expect(drawing.changes.map(({ byMinutes }) => byMinutes)).toEqual([-60])
  })

  test('does not reach into the present a month later', () => {
    expect(drawing.now).toBeUndefined()
    expect(drawing.lanes.every((lane) => lane.drying === undefined)).toBe(true)
  })
})

describe('a coat that is drying', () => {
  const began = utc('2026-10-22T10:00:00Z')
  const journal = journalOf({
    surfaces: { box: ['lid'] },
    photos: [],
    cameras: [],
    products: [
      product('enamel', 'waterborne-acrylic', {
        recoatMinutes: 240,
        reference: { celsius: 25, humidity: 50 },
      }),
    ],
    steps: [
      {
        id: 'paint',
        kind: 'coat',
        productId: 'enamel',
        on: { lid: 1 },
        photoIds: [],
        startedAt: began,
        finishedAt: began,
      },
    ],
  })

  test('is drawn until it is ready, and no less than the label’s wait', () => {
    const now = utc('2026-10-22T11:00:00Z')
    const drawing = drawingOf(journal, now)
    const [lane] = drawing.lanes
    expect(lane?.drying?.from).toBe(0)
    expect(lane?.drying?.to).toBeGreaterThanOrEqual(240)
    expect(drawing.now).toBe(60)
  })

  test('is drawn no more once it is ready', () => {
    const [lane] = drawingOf(journal).lanes
    expect(lane?.drying).toBeUndefined()
  })
})

test('a job to which nothing has been done is not drawn', () => {
  const journal = journalOf({
    surfaces: { box: ['lid'] },
    photos: [],
    cameras: [],
    products: [],
    steps: [],
  })
  const { lanes } = readTimeline(journal)
  expect(planTimelineDrawing(lanes, [], later, style)).toBeUndefined()
})
