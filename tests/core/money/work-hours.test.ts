import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { workHours } from '#core/money/work-hours'
import { journalOf, utc } from '../timeline/journal-of'

const none = { hours: [], work: [] }
const at = (time: string) => utc(`2026-10-24T${time}:00Z`)

const sprayed = journalOf({
  surfaces: { sideboard: ['body'], bench: ['bench body'] },
  steps: [
    {
      id: 'one',
      kind: 'coat',
      method: 'spray',
      productId: 'enamel',
      on: { body: 1 },
      startedAt: at('09:00'),
      finishedAt: at('09:20'),
    },
    {
      id: 'two',
      kind: 'coat',
      method: 'spray',
      productId: 'enamel',
      on: { 'bench body': 1 },
      startedAt: at('09:25'),
      finishedAt: at('09:35'),
    },
    {
      id: 'three',
      kind: 'coat',
      method: 'spray',
      productId: 'enamel',
      on: { body: 2, 'bench body': 2 },
      startedAt: at('14:00'),
      finishedAt: at('14:31'),
    },
  ],
})
// Set-up of a low-pressure gun about 15 minutes, clean-up 20 to 30: common practice, no source.
const rates = { setUpMinutes: 15, cleanUpMinutes: 25 }

describe('the hours of a job', () => {
  test('are those of its steps, without the waits between them', () => {
    const hours = workHours(sprayed, none, {})
    expect(hours.minutes).toBe(20 + 10 + 31)
    expect(hours.steps.map(({ byPiece }) => byPiece)).toEqual([
      [20, 0],
      [0, 10],
      [16, 15],
    ])
    expect(hours.unknownSteps).toBe(0)
  })

  test('count one set-up and one clean-up for what was sprayed in one go, shared by its pieces', () => {
    const hours = workHours(sprayed, none, rates)
    expect(hours.sessions).toMatchObject([
      { stepIds: ['one', 'two'], minutes: 40, byPiece: [20, 20] },
      { stepIds: ['three'], minutes: 40, byPiece: [20, 20] },
    ])
    expect(hours.minutes).toBe(61 + 80)
  })

  test('leave the pieces of other jobs their share of the set-up', () => {
    const hours = workHours(
      sprayed,
      { ...none, hours: [{ stepId: 'one', otherPieces: 2 }] },
      rates,
    )
    // Two of four pieces: half of 40 minutes.
    expect(hours.sessions[0]).toMatchObject({ minutes: 20, byPiece: [10, 10] })
  })

  test('take a correction for what it says', () => {
    const hours = workHours(
      sprayed,
      {
        work: [{ id: 'w', words: 'fetching', minutes: 45, pieceId: 'bench' }],
        hours: [
          { stepId: 'three', workMinutes: 50, setUpMinutes: 5, otherPieces: 0 },
        ],
      },
      rates,
    )
    expect(hours.steps[2]).toMatchObject({
      basis: 'corrected',
      minutes: 50,
      byPiece: [25, 25],
    })
    expect(hours.sessions[1]).toMatchObject({
      setUpMinutes: 5,
      cleanUpMinutes: 25,
    })
    expect(hours.other).toMatchObject([{ minutes: 45, byPiece: [0, 45] }])
  })

  test('do not know a step that has only a moment', () => {
    const hours = workHours(
      journalOf({ steps: [{ id: 'a', kind: 'sand', startedAt: at('09:00') }] }),
      none,
      {},
    )
    expect(hours.steps[0]).toMatchObject({ basis: 'unknown', minutes: null })
    expect(hours.unknownSteps).toBe(1)
    expect(hours.minutes).toBe(0)
  })

  test('doubt a span that is longer than a stretch of work', () => {
    const hours = workHours(
      journalOf({
        steps: [
          {
            id: 'a',
            kind: 'strip',
            startedAt: at('09:00'),
            finishedAt: at('13:01'),
          },
        ],
      }),
      none,
      {},
    )
    expect(hours.steps[0]?.isLong).toBe(true)
  })
})

test('two steps at once take no more time than there was, and the pieces share all of it', () => {
  const anyMinute = fc.nat({ max: 600 })
  fc.assert(
    fc.property(
      fc.array(fc.tuple(anyMinute, anyMinute, fc.boolean()), {
        minLength: 1,
        maxLength: 6,
      }),
      (spans) => {
        const hours = workHours(
          journalOf({
            surfaces: { sideboard: ['body'], bench: ['bench body'] },
            steps: spans.map(([one, other, isSprayed], index) => ({
              id: `step ${index}`,
              kind: 'coat' as const,
              ...(isSprayed && { method: 'spray' as const }),
              on: index % 2 === 0 ? { body: 1 } : { body: 1, 'bench body': 1 },
              ...minutesFrom(Math.min(one, other), Math.max(one, other)),
            })),
          }),
          none,
          {},
        )
        const covered = new Set(
          spans.flatMap(([one, other]) =>
            Array.from(
              { length: Math.abs(one - other) },
              (_, minute) => Math.min(one, other) + minute,
            ),
          ),
        )
        // Each step is rounded to the minute.
        expect(hours.minutes).toBeLessThanOrEqual(
          covered.size + spans.length / 2,
        )
        expect(hours.minutes).toBeGreaterThanOrEqual(
          covered.size - spans.length / 2,
        )
        expect(hours.byPiece.reduce((sum, own) => sum + own, 0)).toBe(
          hours.minutes,
        )
      },
    ),
  )
})

function minutesFrom(from: number, to: number) {
  const midnight = utc('2026-10-24T00:00:00Z')
  return {
    startedAt: utc(new Date(midnight + from * 60_000).toISOString()),
    finishedAt: utc(new Date(midnight + to * 60_000).toISOString()),
  }
}
