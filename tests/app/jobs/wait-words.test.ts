import { expect, test } from 'vitest'
import type { DraftWait } from '#core/timeline/draft-waits'
import { instant } from '#core/units'
import { waitsInWords } from '../../../app/jobs/[job]/steps/_wait-words'

const present = instant(Date.parse('2026-10-22T10:00:00Z'))
const style = { zone: 'Europe/London', units: 'metric' } as const

function waitOf(
  piece: string,
  surface: string,
  reason = '40 min between coats.',
): DraftWait {
  return {
    piece: { id: piece, name: piece },
    surface: { id: surface, name: surface },
    verdict: 'too-soon',
    isBetween: false,
    reason,
  }
}

test('surfaces of which the same holds are told in one, others by themselves', () => {
  const waits = [
    waitOf('dresser', 'body'),
    waitOf('stool', 'body'),
    waitOf('chair', 'body', '2 h between coats.'),
    waitOf('dresser', 'drawer fronts'),
  ]
  expect(waitsInWords(waits, 3, present, style)).toMatchObject([
    {
      sentence:
        'Not dry enough yet: dresser body, stool body and dresser drawer fronts.',
      reason: '40 min between coats.',
      strength: 'must',
      advice: 'Let it dry.',
    },
    {
      sentence: 'Chair body: not dry enough yet.',
      reason: '2 h between coats.',
    },
  ])
})

test('of one piece alone its name is not said, and no two findings share a key', () => {
  const waits = [
    waitOf('dresser', 'top'),
    { ...waitOf('dresser', 'body'), verdict: 'past-window' as const },
    { ...waitOf('dresser', 'sides'), verdict: 'past-window' as const },
    { ...waitOf('dresser', 'back'), verdict: 'unsure' as const },
  ]
  const said = waitsInWords(waits, 1, present, style)
  expect(said.map(({ sentence }) => sentence)).toEqual([
    'Top: not dry enough yet.',
    'The window has passed: body and sides.',
    'Back: it cannot be told whether it is dry.',
  ])
  expect(new Set(said.map(({ key }) => key)).size).toBe(3)
})
