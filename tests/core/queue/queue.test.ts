import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  type Outcome,
  type Waiting,
  afterDiscarding,
  afterSending,
  claimMilliseconds,
  claimed,
  hasStep,
  isSetAside,
  lookAgainAt,
  nextToSend,
  pauseAfter,
  queueCounts,
  triedAgain,
  withStep,
  withoutStep,
} from '#core/queue/queue'

function photo(key: string, order: number, more: Partial<Waiting> = {}) {
  return {
    key,
    order,
    job: 'j',
    words: key,
    addedAt: 0,
    tries: 0,
    notBefore: 0,
    request: {
      kind: 'photo',
      name: `${key}.jpg`,
      mediaType: 'image/jpeg',
      modified: 0,
      fields: [],
    },
    ...more,
  } satisfies Waiting
}

function step(key: string, order: number, more: Partial<Waiting> = {}) {
  return photo(key, order, { request: { kind: 'step', body: {} }, ...more })
}

const kept: Outcome = { kind: 'kept', id: 'made', twice: false, message: '' }
const unreachable: Outcome = { kind: 'unreachable', message: 'No answer.' }
const turnedAway: Outcome = { kind: 'turned-away', message: 'Pair it again.' }
const heldUp: Outcome = { kind: 'held-up', message: 'The disk is full.' }
const failed: Outcome = { kind: 'failed', message: 'Disk full.' }
const refused: Outcome = { kind: 'refused', message: 'Not a picture.' }

function afterwards(
  queue: readonly Waiting[],
  { put, remove }: ReturnType<typeof afterSending>,
): readonly Waiting[] {
  return queue
    .filter((one) => !remove.includes(one.key))
    .map((one) => put.find((other) => other.key === one.key) ?? one)
}

describe('the order of the queue', () => {
  test('is the order in which things were put in', () => {
    const queue = [photo('b', 2), photo('a', 1), photo('c', 3)]
    expect(nextToSend(queue, 0)?.key).toBe('a')
  })

  test('lets a second photo go while the first is on its way', () => {
    const queue = [claimed(photo('a', 1), 'tab', 0), photo('b', 2)]
    expect(nextToSend(queue, 1)?.key).toBe('b')
  })

  test('lets only photos go beside a step that is on its way: coats are counted as their steps arrive', () => {
    const first = claimed(step('first', 1), 'tab', 0)
    const second = [
      step('second', 2),
      photo('of second', 3, { after: 'second' }),
    ]
    expect(nextToSend([first, ...second], 1)).toBeUndefined()
    expect(lookAgainAt([first, ...second], 1)).toBe(claimMilliseconds)
    expect(nextToSend([first, ...second, photo('d', 4)], 1)?.key).toBe('d')
    expect(nextToSend(second, 1)?.key).toBe('second')
  })

  test('holds the photos of a step back until the step is written down', () => {
    const queue = [
      claimed(step('s', 1), 'tab', 0),
      photo('a', 2, { after: 's' }),
    ]
    expect(nextToSend(queue, 1)).toBeUndefined()
    const then = afterwards(queue, afterSending(queue, 's', kept, 1))
    expect(then.map((one) => one.key)).toEqual(['a'])
    expect(nextToSend(then, 1)?.request).toMatchObject({
      fields: [['step', 'made']],
    })
  })

  test('is kept while the first of it pauses for want of a network', () => {
    const queue = [photo('a', 1), photo('b', 2)]
    const then = afterwards(queue, afterSending(queue, 'a', unreachable, 0))
    expect(nextToSend(then, 1)).toBeUndefined()
    expect(nextToSend(then, pauseAfter(1))?.key).toBe('a')
  })

  test('goes on past what was refused', () => {
    const queue = [photo('a', 1), photo('b', 2)]
    const then = afterwards(queue, afterSending(queue, 'a', refused, 0))
    expect(nextToSend(then, 0)?.key).toBe('b')
    expect(queueCounts(then)).toEqual({
      waiting: 1,
      setAside: 1,
      unreachable: false,
      turnedAway: false,
    })
  })

  test('goes on past what failed five times, and not before', () => {
    let queue: readonly Waiting[] = [photo('a', 1), photo('b', 2)]
    for (let tries = 1; tries <= 5; tries++) {
      expect(nextToSend(queue, 1e9)?.key).toBe('a')
      queue = afterwards(queue, afterSending(queue, 'a', failed, 0))
    }
    expect(nextToSend(queue, 1e9)?.key).toBe('b')
  })
})

describe('what is set aside', () => {
  function sentWith(outcomes: readonly Outcome[]): Waiting {
    return outcomes.reduce<Waiting>(
      (one, outcome) => {
        const [then] = afterSending([one], 'a', outcome, 0).put
        if (then === undefined) throw new Error('the photo is gone')
        return then
      },
      photo('a', 1),
    )
  }
  const away = Array.from({ length: 20 }, (_, index) =>
    index % 2 === 0 ? unreachable : turnedAway,
  )

  test('is not what failed once after a long time without the workshop', () => {
    expect(isSetAside(sentWith([...away, failed]))).toBe(false)
  })

  test('is what failed five times, whatever came between', () => {
    const four = [failed, unreachable, failed, turnedAway, failed, failed]
    expect(isSetAside(sentWith(four))).toBe(false)
    expect(isSetAside(sentWith([...four, unreachable, failed]))).toBe(true)
  })

  test('is never what is not let in, which goes out once it is', () => {
    const one = sentWith(away)
    expect(isSetAside(one)).toBe(false)
    expect(nextToSend([one], one.notBefore)?.key).toBe('a')
    expect(queueCounts([one])).toEqual({
      waiting: 1,
      setAside: 0,
      unreachable: true,
      turnedAway: true,
    })
  })

  test('is never what the workshop can take nothing of for now, and all wait for it', () => {
    const one = sentWith(Array.from({ length: 20 }, () => heldUp))
    expect(isSetAside(one)).toBe(false)
    expect(nextToSend([one, photo('b', 2)], 0)).toBeUndefined()
    expect(nextToSend([one, photo('b', 2)], one.notBefore)?.key).toBe('a')
    expect(queueCounts([one])).toMatchObject({ waiting: 1, unreachable: true })
  })

  test('begins anew when its owner sends it again', () => {
    const again = triedAgain(sentWith([failed, failed, failed, failed, failed]))
    const [then] = afterSending([again], 'a', failed, 0).put
    expect(then && isSetAside(then)).toBe(false)
  })
})

describe('the next look at the queue', () => {
  test('waits for the pause of the front, not for what is behind it', () => {
    const queue = [photo('a', 1, { notBefore: 9000 }), photo('b', 2)]
    expect(lookAgainAt(queue, 1000)).toBe(9000)
  })

  test('does not count photos whose step is still on its way', () => {
    const queue = [
      claimed(step('s', 1), 'tab', 1000),
      photo('a', 2, { after: 's' }),
    ]
    expect(lookAgainAt(queue, 1000)).toBe(1000 + claimMilliseconds)
  })

  test('is never for photos whose step is set aside', () => {
    const queue = [
      step('s', 1, { trouble: { kind: 'refused', message: 'No.' } }),
      photo('a', 2, { after: 's' }),
    ]
    expect(lookAgainAt(queue, 0)).toBeUndefined()
  })

  test('comes exactly when something can be sent again, and no sooner', () => {
    const one = fc.record({
      notBefore: fc.nat(20),
      until: fc.option(fc.integer({ min: 1, max: 20 })),
      aside: fc.boolean(),
      after: fc.option(fc.nat(5)),
    })
    fc.assert(
      fc.property(fc.array(one, { maxLength: 6 }), (drawn) => {
        const queue = drawn.map(({ notBefore, until, aside, after }, index) =>
          photo(String(index), index, {
            // What is claimed was due when it was.
            ...(until === null
              ? { notBefore }
              : { claim: { by: 'tab', until } }),
            ...(aside && { trouble: { kind: 'refused', message: 'No.' } }),
            ...(after !== null &&
              after < index &&
              until === null && { after: String(after) }),
          }),
        )
        const at = lookAgainAt(queue, 0)
        for (let now = 0; now < Math.min(at ?? 50, 50); now++) {
          expect(nextToSend(queue, now)).toBeUndefined()
        }
        if (at !== undefined) expect(nextToSend(queue, at)).toBeDefined()
      }),
    )
  })
})

describe('a claim', () => {
  test('holds up what a dead tab was sending for a few seconds only', () => {
    const queue = [claimed(photo('a', 1), 'dead tab', 1000)]
    expect(nextToSend(queue, 1000 + claimMilliseconds - 1)).toBeUndefined()
    expect(nextToSend(queue, 1000 + claimMilliseconds)?.key).toBe('a')
    expect(lookAgainAt(queue, 2000)).toBe(1000 + claimMilliseconds)
  })
})

describe('pauses', () => {
  test('double from a second to a quarter of a minute', () => {
    expect([1, 2, 3, 4, 5, 6, 50].map(pauseAfter)).toEqual([
      1000, 2000, 4000, 8000, 15_000, 15_000, 15_000,
    ])
  })

  test('are over when the owner says so', () => {
    const queue = [photo('a', 1)]
    const [stuck] = afterSending(queue, 'a', refused, 0).put
    expect(stuck && isSetAside(stuck)).toBe(true)
    expect(lookAgainAt(stuck === undefined ? [] : [stuck], 0)).toBeUndefined()
    expect(stuck && nextToSend([triedAgain(stuck)], 0)?.key).toBe('a')
  })
})

test('a photo that comes after its step was written down is sent for it at once', () => {
  const late = withStep(photo('a', 2, { after: 's' }), 'made')
  expect(nextToSend([late], 0)?.request).toMatchObject({
    fields: [['step', 'made']],
  })
})

test('photos of a step that is given up go to the job without it', () => {
  const queue = [step('s', 1), photo('a', 2, { after: 's' })]
  const then = afterwards(queue, afterDiscarding(queue, 's'))
  expect(then).toHaveLength(1)
  expect(nextToSend(then, 0)).toMatchObject({
    key: 'a',
    request: { fields: [] },
  })
})

test('a photo whose step was removed can be sent to its job alone', () => {
  const queue = [step('s', 1), photo('a', 2, { after: 's' })]
  const then = afterwards(queue, afterSending(queue, 's', kept, 0))
  const [stuck] = afterSending(then, 'a', refused, 0).put
  if (stuck === undefined) throw new Error('the photo is gone')
  expect(hasStep(stuck)).toBe(true)
  const alone = withoutStep(stuck)
  expect(hasStep(alone)).toBe(false)
  expect(nextToSend([alone], 0)?.key).toBe('a')
})

test('whatever the answers, every thing leaves the queue exactly when it was kept, and a step before its photos', () => {
  const anyOutcome = fc.constantFrom(
    kept,
    unreachable,
    turnedAway,
    heldUp,
    failed,
    refused,
  )
  fc.assert(
    fc.property(
      fc.array(fc.boolean(), { minLength: 1, maxLength: 12 }),
      fc.array(anyOutcome, { maxLength: 60 }),
      (isStep, outcomes) => {
        let lastStep: string | undefined
        let queue: readonly Waiting[] = isStep.map((yes, index) => {
          const key = String(index)
          if (yes) {
            lastStep = key
            return step(key, index)
          }
          return photo(
            key,
            index,
            lastStep === undefined ? {} : { after: lastStep },
          )
        })
        const all = queue
        const arrived: string[] = []
        let now = 0
        for (const outcome of outcomes) {
          const at = lookAgainAt(queue, now)
          if (at === undefined) break
          now = Math.max(now, at)
          const one = nextToSend(queue, now)
          if (one === undefined) break
          if (outcome.kind === 'kept') arrived.push(one.key)
          queue = afterwards(queue, afterSending(queue, one.key, outcome, now))
        }
        const left = queue.map((one) => one.key)
        expect([...arrived, ...left].sort()).toEqual(
          all.map((one) => one.key).sort(),
        )
        for (const one of all) {
          if (one.after === undefined || !arrived.includes(one.key)) continue
          expect(arrived.indexOf(one.after)).toBeLessThan(
            arrived.indexOf(one.key),
          )
          expect(arrived).toContain(one.after)
        }
      },
    ),
  )
})
