import { expect, test } from 'vitest'
import type { Trouble, Waiting } from '#core/queue/queue'
import { waitingWords } from '../../../app/_components/waiting-words'

const photo: Waiting = {
  key: 'p',
  order: 1,
  job: 'j',
  words: 'front.jpg',
  addedAt: 0,
  tries: 1,
  notBefore: 0,
  request: {
    kind: 'photo',
    name: 'front.jpg',
    mediaType: 'image/jpeg',
    modified: 0,
    fields: [],
  },
}
const step: Waiting = { ...photo, request: { kind: 'step', body: {} } }
const note: Waiting = {
  ...photo,
  request: { kind: 'note', step: 's', words: 'Thin at the edge.' },
}
const trouble: Trouble = { kind: 'refused', message: 'Not a picture.' }
const refused: Waiting = { ...photo, trouble }

test.each([
  [[], ''],
  [[photo], '1 photo waits on this phone and goes out once it is paired.'],
  [
    [photo, step, photo, note, note],
    '2 photos, 1 step and 2 notes wait on this phone and go out once it is paired.',
  ],
  [
    [photo, note, refused],
    '1 photo and 1 note wait on this phone and go out once it is paired. 1 photo that could not be sent is kept on this phone.',
  ],
  [
    [refused, refused],
    '2 photos that could not be sent are kept on this phone.',
  ],
])('what waits on a phone that is turned away: %#', (queue, words) => {
  expect(waitingWords(queue, 'paired')).toBe(words)
})
