import { describe, expect, test } from 'vitest'
import type { Journal } from '#core/journal/journal'
import { readTimeline } from '#core/timeline/read-timeline'
import { exactly } from '#core/time/span'
import type { AirReading } from '#core/air/reading'
import {
  blanketBoxJob,
  correctedSideboardJob,
  sideboardJob,
} from './demo-journal'
import { journalOf, photo, product, utc } from './journal-of'

const checkOf = (journal: Journal, from: string, to: string) =>
  readTimeline(journal)
    .lanes.flatMap((lane) => lane.checks)
    .find((check) => check.from === from && check.to === to)

const pairsOf = (journal: Journal, surface: string) =>
  readTimeline(journal)
    .lanes.find((lane) => lane.surface.id === surface)
    ?.checks.map((check) => [check.from, check.to, check.purpose])

const enamel = product('enamel', 'waterborne-acrylic', {
  recoatMinutes: 60,
  sandMinutes: 90,
  handleMinutes: 240,
  minCelsius: 12,
  maxHumidity: 80,
  maxThinningPercent: 5,
})

describe('the demo, by its true photo times', () => {
  test('the second coat on the bench came after 38 minutes against 60', () => {
    const check = checkOf(sideboardJob, 'bench paint 1', 'bench paint 2')
    expect(check?.elapsed.low).toBeCloseTo(38.2356, 4)
    expect(check).toMatchObject({
      verdict: 'too-soon',
      label: { min: 60 },
      required: 60,
    })
    expect(check?.reason).toContain('The wait was 38 min.')
  })

  test('the sideboard’s paint had its 1 h 40 min', () => {
    const check = checkOf(sideboardJob, 'paint 1', 'paint 2')
    expect(check?.verdict).toBe('in-window')
    expect(check?.reason).toContain('The wait was 1 h 40 min.')
  })

  test('the clear coat came about 9 hours after the oil stain, against 24', () => {
    const check = checkOf(sideboardJob, 'stain', 'clear 1')
    expect(check?.elapsed.low).toBeCloseTo(546.75, 1)
    expect(check).toMatchObject({ verdict: 'too-soon', label: { min: 1440 } })
    expect(check?.advice).toContain('white cloth')
  })

  test('the hardware dried for ten and a half hours across the end of daylight saving', () => {
    const check = checkOf(sideboardJob, 'hardware primer', 'brass')
    expect((check?.elapsed.low ?? NaN) / 60).toBeCloseTo(10.5, 1)
    expect(check?.reason).toContain('The wait was 10 h 29 min.')
    expect(check?.verdict).toBe('in-window')
  })

  test('the second clear coat had its 3 h 10 min', () => {
    const check = checkOf(sideboardJob, 'clear 1', 'clear 2')
    expect(check?.verdict).toBe('in-window')
    expect(check?.reason).toContain('The wait was 3 h 10 min.')
  })

  test('the blanket box was primed again after 25 minutes', () => {
    const check = checkOf(blanketBoxJob, 'prime 1', 'prime 2')
    expect(check?.reason).toContain('The wait was 25 min.')
    expect(check?.verdict).toBe('too-soon')
  })

  test('every surface has a lane, in the order of the pieces', () => {
    expect(
      readTimeline(sideboardJob).lanes.map((lane) => [
        lane.piece.name,
        lane.surface.name,
        lane.steps.map((step) => step.id),
      ]),
    ).toEqual([
      [
        'sideboard',
        'body',
        ['scuff', 'prime 1', 'prime 2', 'paint 1', 'paint 2'],
      ],
      [
        'sideboard',
        'top',
        ['strip', 'sand', 'condition', 'stain', 'clear 1', 'clear 2'],
      ],
      ['sideboard', 'hardware', ['hardware primer', 'brass']],
      ['sideboard', 'drawers', ['liner']],
      [
        'bench',
        'bench body',
        ['scuff', 'prime 1', 'prime 2', 'bench paint 1', 'bench paint 2'],
      ],
    ])
  })

  test('nothing of it hangs on the camera that runs slow', () => {
    for (const [from, to] of [
      ['bench paint 1', 'bench paint 2'],
      ['stain', 'clear 1'],
      ['hardware primer', 'brass'],
      ['paint 1', 'paint 2'],
      ['clear 1', 'clear 2'],
    ] as const) {
      expect(checkOf(correctedSideboardJob, from, to)).toMatchObject({
        verdict: checkOf(sideboardJob, from, to)?.verdict ?? 'none',
      })
    }
  })
})

describe('a clock that nobody has checked', () => {
  test('is named once, with its photos and where to set it', () => {
    expect(
      readTimeline(sideboardJob).warnings.filter(
        (warning) => warning.kind === 'clock-unchecked',
      ),
    ).toEqual([
      {
        kind: 'clock-unchecked',
        cameraId: 'camera-b',
        detail:
          'Nobody has checked the clock of Camera B, which took 5 photos of this job. Waits between its photos and other times are unsure until you set its clock in Workshop.',
      },
    ])
    expect(readTimeline(correctedSideboardJob).warnings).toEqual([])
  })

  test('leaves a wait open when it alone tells when one side was', () => {
    const check = checkOf(sideboardJob, 'strip', 'sand')
    expect(check?.verdict).toBe('unsure')
    expect(check?.reason).toContain('Camera B')
    expect(check?.advice).toContain('Set its clock in Workshop')
    expect(checkOf(correctedSideboardJob, 'strip', 'sand')?.verdict).toBe(
      'in-window',
    )
  })

  test('leaves a wait open when its photos would turn the verdict', () => {
    // By the phone the stain came 39 minutes after the conditioner, by the slow camera before it.
    const check = checkOf(sideboardJob, 'condition', 'stain')
    expect(check?.verdict).toBe('unsure')
    expect(check?.elapsed.low).toBeCloseTo(39.45, 1)
    expect(check?.reason).toContain('Camera B')
    const settled = checkOf(correctedSideboardJob, 'condition', 'stain')
    expect(settled?.verdict).toBe('in-window')
    expect(settled?.elapsed.low).toBeCloseTo(24.7, 0)
  })

  test('is left out, and named, when it would turn nothing', () => {
    const check = checkOf(sideboardJob, 'prime 1', 'prime 2')
    expect(check?.verdict).toBe('in-window')
    expect(check?.elapsed.low).toBeCloseTo(150.65, 1)
    expect(check?.reason).toContain('Photos of Camera B were left out')
  })

  const slow = (id: string, at: string, camera = 'old') => ({
    id,
    taken: exactly(utc(at)),
    camera,
    basis: 'zone' as const,
  })
  const cameras = [
    { id: 'phone', name: 'Phone A' },
    { id: 'old', name: 'Camera B' },
    { id: 'older', name: 'Camera C' },
  ]
  const twoCoats = (
    first: readonly string[],
    second: readonly string[],
    startedAt?: string,
  ) =>
    journalOf({
      cameras,
      products: [enamel],
      photos: [
        photo('phone 1', '2026-10-22T09:00:00Z'),
        photo('phone 2', '2026-10-22T10:30:00Z'),
        slow('old 1', '2026-10-22T08:00:00Z'),
        slow('old 2', '2026-10-22T08:30:00Z'),
        slow('older 2', '2026-10-22T09:30:00Z', 'older'),
      ],
      steps: [
        {
          id: 'one',
          kind: 'coat',
          productId: 'enamel',
          on: { body: 1 },
          photoIds: first,
        },
        {
          id: 'two',
          kind: 'coat',
          productId: 'enamel',
          on: { body: 2 },
          photoIds: second,
          ...(startedAt !== undefined && { startedAt: utc(startedAt) }),
        },
      ],
    })

  test('is right between its own photos, whatever its error', () => {
    const check = checkOf(twoCoats(['old 1'], ['old 2']), 'one', 'two')
    expect(check).toMatchObject({ verdict: 'too-soon', elapsed: { low: 30 } })
    expect(check?.reason).not.toContain('Camera B')
  })

  test('is only as good as itself against another, be it unchecked too, typed or a phone', () => {
    for (const journal of [
      twoCoats(['old 1'], ['older 2']),
      twoCoats(['old 1'], ['phone 2']),
      twoCoats(['old 1'], [], '2026-10-22T12:00:00Z'),
    ])
      expect(checkOf(journal, 'one', 'two')?.verdict).toBe('unsure')
  })

  test('does not matter where both ends were typed', () => {
    const journal = journalOf({
      cameras,
      products: [enamel],
      photos: [slow('old 1', '2026-10-22T08:00:00Z')],
      steps: [
        {
          id: 'one',
          kind: 'coat',
          productId: 'enamel',
          on: { body: 1 },
          photoIds: ['old 1'],
          startedAt: utc('2026-10-22T09:00:00Z'),
          finishedAt: utc('2026-10-22T09:10:00Z'),
        },
        {
          id: 'two',
          kind: 'coat',
          productId: 'enamel',
          on: { body: 2 },
          startedAt: utc('2026-10-22T11:00:00Z'),
        },
      ],
    })
    expect(checkOf(journal, 'one', 'two')).toMatchObject({
      verdict: 'in-window',
      elapsed: { low: 110, high: 110 },
    })
  })

  test('raises no warning in a job that knows no other clock, nor for photos without a camera', () => {
    const journal = journalOf({
      cameras,
      photos: [slow('old 1', '2026-10-22T08:00:00Z')],
      steps: [],
    })
    expect(readTimeline(journal).warnings).toEqual([])
    const { photos } = journalOf({
      cameras,
      photos: [
        photo('a', '2026-10-22T08:00:00Z', ''),
        photo('b', '2026-10-22T08:00:00Z'),
      ],
      steps: [],
    })
    expect(
      readTimeline({
        ...journal,
        photos: photos.map((one) => ({ ...one, basis: 'zone' as const })),
        cameras: [
          {
            ...cameras[0],
            id: 'phone',
            name: 'Phone A',
            clock: { correctionSeconds: 0, uncertaintySeconds: 1 },
          },
        ],
      }).warnings,
    ).toEqual([])
  })

  test('a photo that only its arrival dates settles nothing, until its time is typed or another photo tells', () => {
    const stripped = (id: string, at: string) => ({
      id,
      taken: exactly(utc(at)),
      camera: '',
      basis: 'arrival' as const,
    })
    const journal = (second: readonly string[]) =>
      journalOf({
        products: [enamel],
        photos: [
          photo('phone 1', '2026-10-22T09:00:00Z'),
          photo('phone 2', '2026-10-22T11:00:00Z'),
          stripped('sent 1', '2026-10-22T17:00:00Z'),
          stripped('sent 2', '2026-10-22T17:00:00Z'),
        ],
        steps: [
          {
            id: 'one',
            kind: 'coat',
            productId: 'enamel',
            on: { body: 1 },
            photoIds: second.includes('sent 1') ? ['sent 2'] : ['phone 1'],
          },
          {
            id: 'two',
            kind: 'coat',
            productId: 'enamel',
            on: { body: 2 },
            photoIds: second,
          },
        ],
      })
    for (const photos of [['sent 1'], ['sent 2']]) {
      const check = checkOf(journal(photos), 'one', 'two')
      expect(check?.verdict).toBe('unsure')
      expect(check?.reason).toContain('arrived here')
      expect(check?.advice).toContain('Type the time')
    }
    const both = checkOf(journal(['phone 2', 'sent 2']), 'one', 'two')
    expect(both).toMatchObject({ verdict: 'in-window', elapsed: { low: 120 } })
  })

  test('makes no forecast of its own in a job with other clocks', () => {
    const lane = readTimeline(twoCoats(['phone 1'], [])).lanes[0]
    expect(lane?.next?.readyAt).toBeDefined()
    const doubted = readTimeline(
      journalOf({
        cameras,
        products: [enamel],
        photos: [
          photo('phone 1', '2026-10-22T07:00:00Z'),
          slow('old 1', '2026-10-22T08:00:00Z'),
        ],
        steps: [
          {
            id: 'one',
            kind: 'coat',
            productId: 'enamel',
            on: { body: 1 },
            photoIds: ['old 1'],
          },
        ],
      }),
    ).lanes[0]
    expect(doubted?.next).toMatchObject({ stepId: 'one', waitsFor: 'clock' })
    expect(doubted?.next).not.toHaveProperty('readyAt')
    expect(doubted?.next?.reason).toContain('Camera B')
  })

  test('carries its doubt into every forecast, since even a job’s only clock can differ from the one on the wall', () => {
    const next = (journal: Journal) => readTimeline(journal).lanes[0]?.next
    const both = twoCoats(['old 1'], ['old 2'])
    const alone = next({
      ...both,
      photos: both.photos.filter(({ id }) => id.startsWith('old ')),
    })
    expect(alone?.readyAt).toBeDefined()
    expect(alone?.doubt).toContain('Camera B')
    expect(alone?.reason).toContain(alone?.doubt)
    expect(next(twoCoats(['phone 1'], ['phone 2']))).not.toHaveProperty('doubt')
  })

  test('widens the forecast where other photos tell too', () => {
    const next = readTimeline(twoCoats(['phone 1'], ['phone 2', 'old 2']))
      .lanes[0]?.next
    expect(next?.readyAt).toEqual({
      earliest: utc('2026-10-22T11:30:00Z'),
      latest: utc('2026-10-22T11:30:00Z'),
    })
    expect(next?.reason).toContain('Camera B')
  })
})

describe('what is held against what', () => {
  const day = (hour: number, minute = 0) =>
    utc(
      `2026-10-22T${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}:00Z`,
    )
  const step = (
    id: string,
    kind: Parameters<typeof journalOf>[0]['steps'][number]['kind'],
    hour: number,
    coat: number | null = null,
    productId: string | undefined = coat === null ? undefined : 'enamel',
  ) => ({
    id,
    kind,
    on: { body: coat },
    startedAt: day(hour),
    finishedAt: day(hour),
    ...(productId !== undefined && { productId }),
  })

  test('a coat is held against what touches it first, and against the next coat', () => {
    const journal = journalOf({
      products: [enamel],
      steps: [
        step('coat 1', 'coat', 8, 1),
        step('scuff', 'scuff', 10),
        step('clean', 'clean', 11),
        step('coat 2', 'coat', 12, 2),
        step('liner', 'liner', 14),
        step('assemble', 'assemble', 15),
      ],
    })
    expect(pairsOf(journal, 'body')).toEqual([
      ['coat 1', 'scuff', 'sand'],
      ['coat 1', 'coat 2', 'recoat'],
      ['coat 2', 'liner', 'handle'],
    ])
    expect(checkOf(journal, 'coat 1', 'scuff')).toMatchObject({
      label: { min: 90 },
    })
    expect(checkOf(journal, 'coat 2', 'liner')).toMatchObject({
      label: { min: 240 },
      verdict: 'too-soon',
    })
  })

  test('a coat is done with once the next coat lies on it', () => {
    const journal = journalOf({
      products: [enamel],
      steps: [
        step('coat 1', 'coat', 8, 1),
        step('coat 2', 'coat', 10, 2),
        step('coat 3', 'coat', 12, 3),
        step('liner', 'liner', 20),
      ],
    })
    expect(pairsOf(journal, 'body')).toEqual([
      ['coat 1', 'coat 2', 'recoat'],
      ['coat 2', 'coat 3', 'recoat'],
      ['coat 3', 'liner', 'handle'],
    ])
  })

  test('a scuff in between opens a passed window again', () => {
    const closing = product('enamel', 'waterborne-acrylic', {
      recoatMinutes: 60,
      recoatByMinutes: 180,
    })
    const coats = [step('coat 1', 'coat', 8, 1), step('coat 2', 'coat', 20, 2)]
    expect(
      checkOf(
        journalOf({ products: [closing], steps: coats }),
        'coat 1',
        'coat 2',
      )?.verdict,
    ).toBe('past-window')
    expect(
      checkOf(
        journalOf({
          products: [closing],
          steps: [...coats, step('scuff', 'scuff', 19)],
        }),
        'coat 1',
        'coat 2',
      )?.verdict,
    ).toBe('in-window')
  })

  test('hardware is a coat only with a product and a number', () => {
    const journal = journalOf({
      products: [enamel],
      steps: [
        step('off', 'hardware', 7),
        step('primed', 'hardware', 8, 1),
        step('brass', 'hardware', 10, 2),
        step('refit', 'hardware', 20),
      ],
    })
    expect(pairsOf(journal, 'body')).toEqual([
      ['primed', 'brass', 'recoat'],
      ['brass', 'refit', 'handle'],
    ])
  })

  test('stripping asks nothing of the paint it takes off, and its washing belongs to it', () => {
    const journal = journalOf({
      products: [enamel],
      steps: [
        step('coat', 'coat', 8, 1),
        step('strip', 'strip', 9, null, 'enamel'),
        step('wash', 'clean', 10),
        step('sand', 'sand', 12),
      ],
    })
    expect(pairsOf(journal, 'body')).toEqual([['strip', 'sand', 'sand']])
  })

  test('without a sanding or handling time the recoat time is the least, and the reason says so', () => {
    const bare = product('enamel', 'waterborne-acrylic', { recoatMinutes: 60 })
    const journal = journalOf({
      products: [bare],
      steps: [
        step('coat 1', 'coat', 8, 1),
        step('sand', 'sand', 10),
        step('coat 2', 'coat', 11, 2),
        step('liner', 'liner', 13),
      ],
    })
    expect(checkOf(journal, 'coat 1', 'sand')?.reason).toContain(
      'gives no sanding time, so its recoat time is the least',
    )
    expect(checkOf(journal, 'coat 2', 'liner')?.reason).toContain(
      'gives no handling time, so its recoat time is the least',
    )
  })

  test('a coat without a product or a time on its label is not judged', () => {
    const journal = journalOf({
      products: [product('blank', 'other', {})],
      steps: [
        step('coat 1', 'coat', 8, 1, 'none'),
        step('coat 2', 'coat', 10, 2, 'blank'),
        step('coat 3', 'coat', 12, 3),
      ],
    })
    expect(checkOf(journal, 'coat 1', 'coat 2')?.verdict).toBe('no-label')
    expect(checkOf(journal, 'coat 2', 'coat 3')?.verdict).toBe('no-label')
  })

  test('typed times win over photos', () => {
    const journal = journalOf({
      products: [enamel],
      photos: [
        photo('a', '2026-10-22T08:00:00Z'),
        photo('b', '2026-10-22T08:20:00Z'),
        photo('c', '2026-10-22T09:00:00Z'),
      ],
      steps: [
        {
          id: 'coat 1',
          kind: 'coat',
          productId: 'enamel',
          on: { body: 1 },
          photoIds: ['a', 'b'],
          finishedAt: day(8, 40),
        },
        {
          id: 'coat 2',
          kind: 'coat',
          productId: 'enamel',
          on: { body: 2 },
          photoIds: ['c'],
          startedAt: day(10),
        },
      ],
    })
    expect(checkOf(journal, 'coat 1', 'coat 2')?.elapsed).toEqual({
      low: 80,
      high: 80,
    })
    const [first, second] = readTimeline(journal).lanes[0]?.steps ?? []
    expect(first).toMatchObject({
      started: exactly(day(8)),
      finished: exactly(day(8, 40)),
    })
    // The photo lies before the typed start: the step did not end before it began.
    expect(second?.finished).toEqual(exactly(day(10)))
  })

  test('a step that nothing tells the time of is named, and no wait across it is judged', () => {
    const journal = journalOf({
      products: [enamel],
      steps: [
        step('coat 1', 'coat', 8, 1),
        { id: 'coat 2', kind: 'coat', productId: 'enamel', on: { body: 2 } },
        step('coat 3', 'coat', 20, 3),
      ],
    })
    const timeline = readTimeline(journal)
    expect(timeline.warnings).toMatchObject([
      { kind: 'no-time', stepId: 'coat 2' },
    ])
    expect(timeline.lanes[0]?.checks).toEqual([])
    expect(timeline.lanes[0]?.steps.map((one) => one.id)).toEqual([
      'coat 1',
      'coat 3',
      'coat 2',
    ])
  })

  test('coat numbers that run against time are pointed out', () => {
    const timeline = readTimeline(
      journalOf({
        products: [enamel],
        steps: [step('b', 'coat', 8, 2), step('a', 'coat', 12, 1)],
      }),
    )
    expect(timeline.warnings).toMatchObject([{ kind: 'order', stepId: 'a' }])
  })

  test('the last coat on a surface tells what comes next', () => {
    const lane = readTimeline(
      journalOf({
        products: [{ ...enamel, label: { ...enamel.label, cureDays: 7 } }],
        steps: [step('coat 1', 'coat', 8, 1), step('coat 2', 'coat', 10, 2)],
      }),
    ).lanes[0]
    expect(lane?.next).toMatchObject({
      stepId: 'coat 2',
      readyAt: { earliest: day(11), latest: day(11) },
      curedBy: utc('2026-10-29T10:00:00Z'),
    })
  })

  test('a surface with no steps has an empty lane', () => {
    expect(readTimeline(journalOf({ steps: [] })).lanes).toEqual([
      {
        piece: { id: 'sideboard', name: 'sideboard' },
        surface: { id: 'body', name: 'body' },
        steps: [],
        checks: [],
      },
    ])
  })

  test('thinning above the label is pointed out, on the label is not', () => {
    const thinned = (thinningPercent: number) =>
      readTimeline(
        journalOf({
          products: [enamel],
          steps: [{ ...step('coat', 'coat', 8, 1), thinningPercent }],
        }),
      ).warnings.map((warning) => warning.kind)
    expect(thinned(5)).toEqual([])
    expect(thinned(5.1)).toEqual(['thinning'])
  })

  const air = (celsius: number, humidity: number): AirReading[] => [
    { at: day(8), celsius, humidity },
  ]
  test.each<[string, AirReading[], readonly string[]]>([
    ['within its limits', air(12, 80), []],
    ['colder than its label', air(11.9, 60), ['air-cold']],
    ['damper than its label', air(20, 80.1), ['air-damp']],
    [
      'cold, damp and near its dew point',
      air(8, 95),
      ['air-cold', 'air-damp', 'dew-point'],
    ],
    ['where no readings tell', [], []],
  ])('a coat in air %s', (_, readings, kinds) => {
    expect(
      readTimeline(
        journalOf({
          products: [enamel],
          air: readings,
          steps: [step('coat', 'coat', 8, 1)],
        }),
      ).warnings.map((warning) => warning.kind),
    ).toEqual(kinds)
  })

  test('only what is put on is warned about the air', () => {
    expect(
      readTimeline(
        journalOf({
          air: air(3, 99),
          steps: [step('sand', 'sand', 8), step('liner', 'liner', 9)],
        }),
      ).warnings,
    ).toEqual([])
  })

  test('shellac may turn milky above 70 %', () => {
    const kinds = (humidity: number) =>
      readTimeline(
        journalOf({
          products: [product('shellac', 'shellac', { recoatMinutes: 45 })],
          air: air(20, humidity),
          steps: [step('coat', 'seal', 8, 1, 'shellac')],
        }),
      ).warnings.map((warning) => warning.kind)
    expect(kinds(70)).toEqual([])
    expect(kinds(75)).toEqual(['air-damp'])
  })
})
