import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Journal, Photo, Step } from '#core/journal/journal'
import { countStepOrder } from '#core/placing/count-step-order'
import { type Place, placeKey } from '#core/placing/place'
import { proposePlaces } from '#core/placing/propose-places'
import { rateProposals, scoreTogether } from '#core/placing/rate-proposals'
import { exactly } from '#core/time/span'
import { addMinutes, instant, minutesPerHour } from '#core/units'

const begin = instant(Date.parse('2026-10-22T08:00:00Z'))

type Shot = {
  readonly minute: number
  readonly role?: Photo['role']
  readonly step?: string
}

/** A sideboard with body and top; shots are named by their place in the list. */
function journal(
  shots: readonly Shot[],
  steps: readonly (Pick<Step, 'id' | 'kind'> & {
    readonly on?: readonly string[]
    readonly coat?: number
    readonly startedAt?: Step['startedAt']
  })[] = [],
  from = begin,
): Journal {
  const photos = shots.map(
    ({ minute, role = 'progress', step }, index): Photo => ({
      id: `photo ${index}`,
      sha256: '',
      fileName: '',
      width: 4,
      height: 3,
      role,
      surfaceIds: [],
      ...(step === undefined ? {} : { stepId: step }),
      taken: exactly(addMinutes(from, minute)),
      basis: 'offset',
      warnings: [],
    }),
  )
  return {
    job: { id: 'job', title: 'job', createdAt: from },
    pieces: [
      {
        id: 'piece',
        name: 'sideboard',
        kind: 'sideboard',
        surfaces: [
          { id: 'body', name: 'body' },
          { id: 'top', name: 'top' },
        ],
      },
    ],
    photos,
    steps: steps.map(({ id, kind, on = ['body'], coat, startedAt }) => ({
      id,
      kind,
      surfaces: on.map((surfaceId) => ({
        surfaceId,
        ...(coat === undefined ? {} : { coat }),
      })),
      photoIds: photos
        .filter((photo) => photo.stepId === id)
        .map((photo) => photo.id),
      createdAt: from,
      ...(startedAt === undefined ? {} : { startedAt }),
    })),
    products: [],
    cameras: [],
    air: [],
  }
}

const noLooks = new Map<string, never>()

function firstFor(told: Journal): readonly Place[] {
  return proposePlaces(told, noLooks).flatMap(
    (burst) => burst.proposals[0]?.place ?? [],
  )
}

describe('a photo is proposed', () => {
  test('as a before when it is the first of a job', () => {
    expect(firstFor(journal([{ minute: 0 }, { minute: 2 }]))).toEqual([
      { as: 'before' },
      { as: 'before' },
    ])
  })

  test('for the step whose photo was taken three minutes before', () => {
    const told = journal(
      [
        { minute: 0, role: 'before' },
        { minute: 90, step: 'scuffed' },
        { minute: 93 },
      ],
      [{ id: 'scuffed', kind: 'scuff' }],
    )
    expect(firstFor(told)).toMatchObject([{ stepId: 'scuffed' }])
  })

  test('for the next coat on the same surface when hours have passed', () => {
    const told = journal(
      [
        { minute: 0, role: 'before' },
        { minute: 90, step: 'scuffed' },
        { minute: 200, step: 'primed' },
        { minute: 400, step: 'primed again' },
        { minute: 400 + 20 * minutesPerHour },
      ],
      [
        { id: 'scuffed', kind: 'scuff' },
        { id: 'primed', kind: 'prime', coat: 1 },
        { id: 'primed again', kind: 'prime', coat: 2 },
      ],
    )
    expect(firstFor(told)).toEqual([
      { as: 'step', kind: 'coat', surfaceIds: ['body'], coat: 1 },
    ])
  })

  test('for a step that its owner wrote down ahead, rather than for another like it', () => {
    const told = journal(
      [
        { minute: 0, role: 'before' },
        { minute: 90, step: 'scuffed' },
        { minute: 300 },
      ],
      [
        { id: 'scuffed', kind: 'scuff' },
        { id: 'to prime', kind: 'prime', coat: 1 },
      ],
    )
    expect(firstFor(told)).toMatchObject([{ stepId: 'to prime' }])
  })

  test('for a step without photos that was dated a moment before', () => {
    const told = journal(
      [{ minute: 0, role: 'before' }, { minute: 125 }],
      [
        {
          id: 'stripped',
          kind: 'strip',
          on: ['top'],
          startedAt: addMinutes(begin, 120),
        },
      ],
    )
    expect(firstFor(told)).toMatchObject([{ stepId: 'stripped' }])
  })
})

/** Jobs with some photos placed and some not, in any order of steps. */
const anyJob = fc
  .array(
    fc.record({
      gap: fc.integer({ min: 1, max: 3000 }),
      what: fc.constantFrom('none', 'none', 'before', 'after', 's', 'p', 'c'),
    }),
    { minLength: 1, maxLength: 9 },
  )
  .map((shots) => {
    let minute = 0
    return shots.map(({ gap, what }): Shot => {
      minute += gap
      if (what === 'before' || what === 'after') return { minute, role: what }
      return what === 'none' ? { minute } : { minute, step: what }
    })
  })
const anySteps = [
  { id: 's', kind: 'scuff' },
  { id: 'p', kind: 'prime', coat: 1 },
  { id: 'c', kind: 'coat', coat: 1 },
] as const

describe('the proposals for any job', () => {
  test('are for each photo that is not placed, once, and for no other', () => {
    fc.assert(
      fc.property(anyJob, (shots) => {
        const told = journal(shots, anySteps)
        const wanted = told.photos.filter(
          ({ role, stepId }) => role === 'progress' && stepId === undefined,
        )
        const found = proposePlaces(told, noLooks)
        expect(found.flatMap((burst) => burst.photoIds)).toEqual(
          wanted.map((photo) => photo.id),
        )
        for (const { proposals } of found) {
          const sum = proposals.reduce((all, one) => all + one.confidence, 0)
          expect(sum).toBeGreaterThan(0)
          expect(sum).toBeLessThanOrEqual(1 + 1e-9)
          const keys = proposals.map(({ place }) => placeKey(place))
          expect(new Set(keys).size).toBe(keys.length)
        }
      }),
      { numRuns: 40 },
    )
  })

  test('do not depend on the day', () => {
    fc.assert(
      fc.property(anyJob, fc.integer({ min: 1, max: 5000 }), (shots, hours) => {
        const later = addMinutes(begin, hours * minutesPerHour)
        expect(proposePlaces(journal(shots, anySteps, later), noLooks)).toEqual(
          proposePlaces(journal(shots, anySteps), noLooks),
        )
      }),
      { numRuns: 20 },
    )
  })
})

test('what followed what on a surface is counted over the jobs', () => {
  const told = journal(
    [
      { minute: 0, step: 's' },
      { minute: 90, step: 'p' },
      { minute: 200, step: 'c' },
    ],
    anySteps,
  )
  expect(Object.fromEntries(countStepOrder([told, told]))).toEqual({
    'begin scuff': 2,
    'scuff prime': 2,
    'prime coat': 2,
  })
})

describe('a rating', () => {
  const told = journal(
    [
      { minute: 0, role: 'before' },
      { minute: 1, role: 'before' },
      { minute: 100, step: 's' },
      { minute: 102, step: 's' },
    ],
    anySteps.slice(0, 1),
  )

  test('of the plain rule counts what is the same as the photo before', () => {
    const { plainInTurn, plainAtOnce } = rateProposals(told, noLooks, new Map())
    expect(plainInTurn).toEqual({
      photos: 4,
      right: 2,
      nearlyRight: 2,
      kindRight: 2,
    })
    expect(plainAtOnce.right).toBe(2)
  })

  test('hides what its owner said: another truth, the same proposals', () => {
    const other = journal(
      [
        { minute: 0, role: 'after' },
        { minute: 1, role: 'after' },
        { minute: 100, role: 'after' },
        { minute: 102, role: 'after' },
      ],
      [],
    )
    const confidences = (one: Journal) =>
      rateProposals(one, noLooks, new Map()).confidences.map(
        ({ confidence }) => confidence,
      )
    expect(confidences(other)).toEqual(confidences(told))
  })

  test('of several jobs is their sum', () => {
    const one = { photos: 4, right: 1, nearlyRight: 2, kindRight: 3 }
    expect(scoreTogether([one, one])).toEqual({
      photos: 8,
      right: 2,
      nearlyRight: 4,
      kindRight: 6,
    })
  })
})
