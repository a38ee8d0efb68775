import { expect, test } from 'vitest'
import { latePhotoWarning } from '#core/bin/late-photo'
import { addMinutes, instant, minutesPerDay } from '#core/units'

const now = instant(Date.parse('2026-11-27T09:00:00Z'))
const style = { zone: 'Europe/London', units: 'metric' } as const
const goesAt = addMinutes(now, 30 * minutesPerDay)
const job = { kind: 'job', names: ['Oak sideboard'] } as const
const parts = { kind: 'part', names: ['bench', 'sideboard, top'] } as const

test.each([
  [
    { ...job, goesAt },
    'The job “Oak sideboard” is in the bin and goes for good Sun 27 Dec, this photo with it: bring it back under Workshop.',
  ],
  [
    { ...job, goesAt: now },
    'The job “Oak sideboard” is in the bin and goes for good within a day, this photo with it: bring it back under Workshop.',
  ],
  [
    job,
    'The job “Oak sideboard” is in the bin and stays until you bring it back, under Workshop.',
  ],
  [
    { ...parts, goesAt },
    'What this photo was sent for (bench; sideboard, top) is in the bin and goes for good Sun 27 Dec: bring it back under Workshop. The photo itself stays in the job.',
  ],
  [
    parts,
    'What this photo was sent for (bench; sideboard, top) is in the bin and stays until you bring it back, under Workshop. The photo itself stays in the job.',
  ],
])(
  'who sends a photo for what is in the bin reads where it is and until when: %o',
  (place, words) => {
    expect(latePhotoWarning(place, now, style)).toBe(words)
  },
)
